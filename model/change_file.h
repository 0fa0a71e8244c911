// A card file with one stated value changed and everything else kept: comments, layout, other values.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/spot.h"

namespace evenmat {

// The file with the value that begins at `spot` (a TOML string of any kind, or a number) written as the text
// `value`. Quotes stay of the kind they were where the text allows it. Absent when no such value begins
// there.
std::optional<std::string> with_value(std::string_view file, Spot spot, std::string_view value);

}  // namespace evenmat
