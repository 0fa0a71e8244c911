// A card file with one key stated as a call asks for it: `NAME.key=VALUE`, with everything else kept.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace evenmat {

// `name`: a layer or window, "base" or another table of which there is one, or empty for a key of the file's
// top (`cards`, `spare`, `mark`). `key` may name a part: "border.left".
struct KeyChange {
  std::string name;
  std::string key;
  std::string value;  // as the card file would have it, with or without quotes: "1/16 to 1/4", 5, ["lantern"]
};

// Reads `NAME.key=VALUE` against the names of a card file that reads well; the longest name that fits is read
// first. `trouble` is a sentence, with the nearest name or key where one is not there.
struct KeyChangeReading {
  std::optional<KeyChange> change;
  std::string trouble;
};
KeyChangeReading read_key_change(std::string_view words, std::string_view file);

// The file with the key stated so: in place of the old value, or after the name, on a line of its own where
// that is on one. Of a wish for all sides, or stated by a heading of its own, all that is not changed stays.
// A value that TOML reads as a number, truth, list or table stays one, anything else is written in quotes.
// Absent when the file is not TOML, or holds no such name, or when no part of the key can be changed. What
// comes after the value may move.
std::optional<std::string> with_key(std::string_view file, const KeyChange& change);

}  // namespace evenmat
