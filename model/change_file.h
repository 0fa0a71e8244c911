// A card file with one stated value changed and everything else kept: comments, layout, other values.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/spot.h"

namespace evenmat {

// The file with the value that begins at `spot` (a TOML string of any kind, or a number) written as the text
// `value`. Quotes stay of the kind they were where the text allows it; a bare number stays bare where the new
// text is one. Absent when no such value begins there, or the file is not TOML. What comes after the value
// may move, so of several spots the last in the file is changed first.
std::optional<std::string> with_value(std::string_view file, Spot spot, std::string_view value);

}  // namespace evenmat
