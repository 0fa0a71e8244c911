// A block of rules as an arrangement of places on lines, where it is one, and its answer as equations.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "solver/exact/system.h"
#include "solver/search/prover.h"

namespace evenmat {

struct ArrangedBlock {
  std::vector<Relation> settled;                      // what the sums asked for have come to
  std::vector<std::pair<Variable, Rational>> values;  // of the block's variables, an answer that reaches it
  bool finished = true;  // false when time ran out: `values` are the best found, nothing is settled
};

// The smallest of `raised` as large as it can be, then the next, ...; then each of `in_order` in turn as
// large as it can be. Absent when the block is not of the kind that
// arrangements (arrange.h) can express: distances between places, each of the sums one of them, and where
// sizes are open everything on the marks. Throws OutOfTime when time
// runs out before any answer is found.
std::optional<ArrangedBlock> arrange_block(const System& system, const Block& block,
                                           const std::vector<Sum>& raised, const std::vector<Sum>& in_order,
                                           Prover& prover);

}  // namespace evenmat
