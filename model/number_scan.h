// Finding a number, with its unit if it names one, at the start of a text. Lengths, wishes and rules
// all read their numbers here, so that every form of a length works in all of them.
#pragma once

#include <string>
#include <string_view>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

// `bytes` is how much of the text the number takes, 0 if it begins with none. Forms: `4`, `4.25`,
// `.25`, `17/4`, `4 1/4`, `4-1/4` (no blanks around the hyphen), `4¼`, `¼`, each with `in`, `"`, `mm` or
// `cm` after it. No sign. `trouble` is set, and `value` 0, when a number is there but cannot stand.
struct NumberScan {
  std::size_t bytes = 0;
  Rational value = 0;  // in the unit asked for
  bool names_unit = false;
  std::string trouble;
};
NumberScan scan_number(std::string_view text, Unit unit);

}  // namespace evenmat
