// The ways in which an entry of `rules` may hold, as the maker wrote them.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/card.h"

namespace evenmat::exploring {

// Each side of every `or` of the statement, in order, so that it reads as a statement by itself. Empty when
// the text cannot be told apart so.
std::vector<std::string> ways_of(const Card& card, std::size_t version, const Statement& statement);

}  // namespace evenmat::exploring
