// A size as a maker writes it: two lengths, or a name.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/length.h"
#include "model/numbered_text.h"

namespace evenmat {

// Reads `4 1/4 x 5 1/2`, `105 mm × 148 mm`, `iso A6`, `us A2 turned`; a bare number is in `unit`, the size
// returned is in `unit`. `named_in` is the unit in which a named size is published; `numbered` has the width,
// then the height. On failure `size` is absent and `trouble` says why in a maker's words. A size of 0 or less
// is read as it stands.
struct SizeReading {
  std::optional<Size> size;
  std::optional<Unit> named_in;
  std::string trouble;
  NumberedText numbered;
};
SizeReading read_size(std::string_view text, Unit unit);

}  // namespace evenmat
