// The text of a card file as a tree of values, each with its spot and, for numbers, its own digits.
// What the keys mean is no matter here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/spot.h"

namespace evenmat::reading {

struct Entry;

struct Value {
  enum class Kind { text, number, truth, moment, list, table };
  Kind kind = Kind::table;
  std::string text;  // a text's content; a number as the file writes it
  bool truth = false;
  bool braces = false;  // a table written { ... }
  Spot spot;            // its first character
  std::vector<Value> items;
  std::vector<Entry> entries;  // in file order

  [[nodiscard]] const Entry* find(std::string_view key) const;
  [[nodiscard]] Entry* find(std::string_view key);
};

struct Entry {
  std::string key;
  Spot spot;
  Value value;
};

// `root` is absent if the text is not TOML 1.0; then `mistake` says where it stops being so.
struct DocumentReading {
  std::optional<Value> root;
  Remark mistake;
};
DocumentReading read_document(std::string_view text);

}  // namespace evenmat::reading
