// A block of rules as an arrangement of places on lines, where it is one, and its answer as equations.
#pragma once

#include <optional>
#include <vector>

#include "solver/exact/system.h"
#include "solver/search/prover.h"

namespace evenmat {

// The smallest of `raised` as large as it can be, then the next, ...; then each of `in_order` in turn as
// large as it can be. The relations that settle all of them; absent when the block is not of the kind that
// arrangements (arrange.h) can express: distances between places, each of the sums one of them, and where
// sizes are open everything on the marks. Throws OutOfTime.
std::optional<std::vector<Relation>> arrange_block(const System& system, const Block& block,
                                                   const std::vector<Sum>& raised,
                                                   const std::vector<Sum>& in_order, Prover& prover);

}  // namespace evenmat
