// By how little rules can be missed that cannot all be kept, beside what is held.
#pragma once

#include <cstddef>
#include <vector>

#include "model/rational.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// Rules that count as one: what the worst of them misses by counts.
struct Wanted {
  std::vector<std::vector<std::vector<Relation>>> rules;  // the choices of each
  Rational at_least;                                      // what it misses by in any case
};

// By wanted and rule, what it misses by: of a sum that is to be at most 0, what it is above 0; of one that is
// to be 0, its size; of several the largest; of choices the least. Lengths need not fall on marks. In each
// part that shares no length with the rest, so that a fault elsewhere does not count, the greatest miss is
// least; then their total; then the misses of the wanted one after the other, and of their rules. `held` must
// be possible. Throws OutOfTime.
std::vector<std::vector<Rational>> least_misses(const std::vector<Relation>& held,
                                                const std::vector<Wanted>& wanted, const Rational& mark,
                                                std::size_t variables, Prover& prover);

}  // namespace evenmat
