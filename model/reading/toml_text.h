// The text of a TOML file known to be well written: where a value in it begins and ends, and texts put in
// quotes. What the values mean is no matter here.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "model/spot.h"

namespace evenmat::reading {

// Some editors put it first. Spots do not count it.
inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// The byte at which the character of a spot begins that is known to be in the text.
std::size_t byte_of(std::string_view text, Spot spot);

// The quotation marks that a TOML string begins with: one or three, of either kind. Empty if it is no string.
std::string_view quotes_of(std::string_view token);

// Where the key ends that begins at byte `begin`: one word, or in quotes.
std::size_t key_end(std::string_view text, std::size_t begin);

// Where the value ends that begins at byte `begin`, after an equals sign or in a list: behind its last
// character.
std::size_t value_end(std::string_view text, std::size_t begin);

// Where the blanks end that stand at byte `from`.
std::size_t blanks_end(std::string_view text, std::size_t from);

// The value as a string, in quotes of the kind that the string `old` has, where they can hold it.
std::string quoted(std::string_view value, std::string_view old);

}  // namespace evenmat::reading
