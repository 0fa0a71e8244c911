// The text of a TOML file with one key of a table in it stated anew: in place of what it states, or on a line
// of its own. Comments, layout and everything else stay. Which keys there may be is no matter here.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/reading/document.h"

namespace evenmat::reading {

// As TOML has it, or a text to be put in quotes.
struct WrittenValue {
  std::string text;
  bool bare = false;
};

// `table`: of the document `root` that `text` reads as, or that itself. `part`: of a table or one wish under
// `key`; empty for the whole. Absent where what is stated under `key` is more deeply nested than that.
std::optional<std::string> with_written(std::string_view text, const Value& root, const Value& table,
                                        const std::string& key, const std::string& part,
                                        const WrittenValue& value);

// The text with a table of that name after everything else, which states `key`.
std::string with_table(std::string_view text, const std::string& name, const std::string& key,
                       const WrittenValue& value);

}  // namespace evenmat::reading
