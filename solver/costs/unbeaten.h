// Cards compared by what they cost and how they look: which are beaten by none, and in which order they
// stand. Knows no cards, only their figures.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/explore_card.h"

namespace evenmat::exploring {

// Which of them no other beats. One beats another that is at least as good on every count and better on one;
// counts are the sheets of each paper, the sheets missing, the cost, waste, the narrowest border (wider is
// better), the least that is seen (more is better) and the thickness. A paper that cannot be cut at all is
// worse than any number of sheets, and what is not known is worse than what is.
std::vector<bool> unbeaten(const std::vector<Costs>& all);

// Their places, the best first; those that are equal stay in the order given.
std::vector<std::size_t> order(Best best, const std::vector<Costs>& all);

}  // namespace evenmat::exploring
