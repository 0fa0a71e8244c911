// Blocks with a single open variable and no choices: an interval. The best value of every step lies where
// two of its sums cross, at an end, or on the mark beside such a point, so that trying those few is proof.
#pragma once

#include <optional>
#include <vector>

#include "solver/exact/system.h"

namespace evenmat {

// Whether the block is an interval: one variable, no choices, nothing else that must fall on marks.
bool is_interval(const Block& block);

// The values of the variable at which the total distance of `sums` from 0 is least: an interval too.
Interval nearest_zero(const System& system, const Block& block, const std::vector<Sum>& sums);

// The value at which the smallest of `raised` is largest, then the next, ...; then each of `in_order` in
// turn is largest. Absent when there is no largest.
std::optional<Rational> raised_highest(const System& system, const Block& block,
                                       const std::vector<Sum>& raised, const std::vector<Sum>& in_order);

}  // namespace evenmat
