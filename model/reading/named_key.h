// A key of a layer, window or other table of a card file, named from elsewhere: `NAME.key`, or a part of what
// it states, `NAME.border.left`. Whose key it is, and what the table states once it is changed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/reading/document.h"

namespace evenmat::reading {

// The longest of `names` with which `words` begin before a dot and more. Empty if there is none.
std::string owner_of(std::string_view words, const std::vector<std::string>& names);

// The layer or window of that name, or nothing.
const Value* find_piece(const Value& root, std::string_view name);
Value* find_piece(Value& root, std::string_view name);

// Why no part of this key can be changed in the table, as a sentence; empty if one can.
std::string part_trouble(const Value& table, const std::string& key);

// The entry in place of the one of its key, or after all others.
void put(Value& table, Entry entry);

// One wish for all sides as a table, so that one side of it can be changed: the other sides keep theirs.
Value opened_up(const std::string& key, const Value& wish, const std::string& part);

// The part in place of what the table states of it under `key`. Pre: `part_trouble` is silent.
void put_part(Value& table, const std::string& key, Entry part);

}  // namespace evenmat::reading
