// A sized card as a maker reads it at the table: what to cut, where to glue it, what is still open.
// Plain text of at most 80 columns.
#pragma once

#include <string>

#include "cli/answer.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// A card that can be built, or the best one found of one that is undecided.
std::string report(const Card& card, const SizedCard& sized, const Style& style);

}  // namespace evenmat
