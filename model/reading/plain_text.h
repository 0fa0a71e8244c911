// What is refused of a file's text before the TOML reader sees it: bytes that are no text, signs where TOML
// has none, and nesting without end. The TOML reader could not be trusted with them.
#pragma once

#include <optional>
#include <string_view>

#include "model/spot.h"

namespace evenmat::reading {

// The first such thing in the text, if there is one. Whether the rest is TOML is not told here.
std::optional<Remark> not_plain(std::string_view text);

}  // namespace evenmat::reading
