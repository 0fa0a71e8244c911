// What is still free in a sized card: which measures were settled by what was stated, what can slide, and
// how small or large each measure could be.
#pragma once

#include <vector>

#include "solver/exact/system.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// Of all of these: `system` is that of the rules, settled. They throw OutOfTime.

// For each sum, whether the stated and given rules leave it no other value than the one it has in
// `values`. `other` is another card that satisfies them, if one is known: it saves asking.
std::vector<bool> settled_by_rules(const System& system, const std::vector<Sum>& sums,
                                   const std::vector<Rational>& values, const std::vector<Rational>& other,
                                   Prover& prover);

// A way in which places can move with every size as it is and every rule held: by `steps` in each
// variable (left or top), from -low to +high times.
struct Movement {
  std::vector<Rational> steps;  // by variable
  Rational low, high;
};

// The independent movements of one version's places from where they are in `values`. `carried` lists
// rectangles that move together when the first of them is pushed (a piece and what is on it); those pushes
// are tried in their order, whatever is left is combined.
std::vector<Movement> movements(const Rules& rules, const System& system, std::size_t version,
                                const std::vector<Rational>& values,
                                const std::vector<std::vector<std::size_t>>& carried);

// The least and greatest value of a sum over all cards that satisfy the rules.
struct Extent {
  Rational least, greatest;
};
std::vector<Extent> extents(const System& system, const std::vector<Sum>& sums, Prover& prover);

// The rules' system with every size as it is in `values`, settled: what `movements` takes.
System with_sizes(const System& system, const Rules& rules, const std::vector<Rational>& values);

}  // namespace evenmat
