// The keys that a card file may have, as the reader looks for them: for holding other descriptions of the
// card file, such as its schema, to what is read.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace evenmat {

// By kind of table ("the card", "the base", "a layer", ...) its keys, in the order in which they are read.
std::map<std::string, std::vector<std::string>> card_keys();

}  // namespace evenmat
