// Loose boxes within boxes: the largest total of all widths and heights, where nothing but least borders,
// least gaps between neighbours in any direction and least sizes is asked.
#pragma once

#include <optional>
#include <vector>

#include "solver/rule.h"

namespace evenmat {

struct LargestTotal {
  Rational total;                // of every rectangle's width and height
  std::vector<Rational> values;  // by variable, a card that reaches it
};

// Absent when the rules are of another kind: one outermost rectangle of fixed size, every other in exactly
// one that holds at most four, all sizes and lengths on the marks. Also absent when nothing fits.
std::optional<LargestTotal> largest_total(const Rules& rules);

}  // namespace evenmat
