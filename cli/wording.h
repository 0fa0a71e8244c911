// The words that answers use for the values of a card and a verdict, and lists in words.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "model/versions.h"
#include "solver/size_card.h"

namespace evenmat {

std::string title_of(const Card& card);          // "A card" of one without a title
std::string_view role_name(Role role);           // "mat", ...; empty for none
std::string_view verdict_name(Verdict verdict);  // "buildable", "conflict", "undecided"

// "12 cards", "1 card".
std::string counted(int count, std::string_view thing);

// "a, b and c"; and with another sign between all of them.
std::string listed(const std::vector<std::string>& names);
std::string joined(const std::vector<std::string>& parts, std::string_view by);

}  // namespace evenmat
