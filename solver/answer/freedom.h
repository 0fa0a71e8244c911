// What is still free in a sized card: which measures were settled by what was stated, what can slide, and
// how small or large each measure could be.
#pragma once

#include <vector>

#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// For each sum, whether the stated and given rules leave it no other value than the one it has in
// `values`. Throws OutOfTime.
std::vector<bool> settled_by_rules(const Rules& rules, const std::vector<Sum>& sums,
                                   const std::vector<Rational>& values, Prover& prover);

// A way in which places can move with every size as it is and every rule held: by `steps` in each
// variable (left or top), from -low to +high times.
struct Movement {
  std::vector<Rational> steps;  // by variable
  Rational low, high;
};

// The independent movements of `values`. `carried[i]` lists the rectangles that move when rectangle i is
// pushed (itself, what is on it); those pushes are tried first, whatever is left is combined.
std::vector<Movement> movements(const Rules& rules, const std::vector<Rational>& values,
                                const std::vector<std::vector<std::size_t>>& carried);

// The least and greatest value of a sum over all cards that satisfy the rules.
struct Extent {
  Rational least, greatest;
};
std::vector<Extent> extents(const Rules& rules, const std::vector<Sum>& sums, Prover& prover);

}  // namespace evenmat
