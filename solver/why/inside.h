// That things stay inside what they lie on, told of every side, or reach past the opening that they are
// tucked behind. A card's own rules leave that out where a wish keeps a thing inside; for a hand that does
// not keep the wish exactly, or a sketch that does not, it still is a rule.
#pragma once

#include <cstddef>

#include "model/card.h"
#include "model/edge.h"
#include "solver/rule.h"

namespace evenmat {

// The distance of a thing's box from an edge of what it is on; below 0 where it sticks out. Needs
// `Rectangle::on`.
Sum side_of(const Rules& rules, std::size_t rectangle, Edge edge);

// Whether a layer's rectangle is the first of several copies: the grid has the borders then.
bool stands_in_grid(const Rules& rules, std::size_t rectangle);

// `rules` are those of `card`; what is added stands behind them.
Rules with_all_inside(Rules rules, const Card& card);

}  // namespace evenmat
