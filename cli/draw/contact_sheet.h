// Alternatives of a card side by side, all to one scale, each with what tells it from the others and what it
// takes of paper.
#pragma once

#include <vector>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/explore_card.h"

namespace evenmat {

inline constexpr std::size_t most_drawn = 500;  // alternatives on one contact sheet

// Numbered from 1 in the order given; at most `most_drawn` of them. `open`: what their amounts are of.
Drawing contact_sheet(const Card& card, const std::vector<OpenAmount>& open,
                      const std::vector<const Alternative*>& cards, PageSize size);

}  // namespace evenmat
