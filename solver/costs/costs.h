// What one card costs, and how it looks, in the figures by which cards are compared.
#pragma once

#include <vector>

#include "solver/explore_card.h"

namespace evenmat::exploring {

// `papers`: as planned for it. Versions of which none are made have no say; what is known of places and of
// the closed card only where `sized` has it.
Costs costs_of(const SizedCard& sized, std::vector<PaperCost> papers);

}  // namespace evenmat::exploring
