// Which stated rules cannot hold together when a card cannot be built.
#pragma once

#include <vector>

#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// One smallest set of wishes that cannot hold together: drop any one and the rest can. Of several such sets
// the one whose wishes come first in the file. Empty when it is not the wishes (the given rules alone
// cannot hold). When time runs out it is a set that cannot hold together, but fewer might do.
struct Clash {
  std::vector<std::size_t> wishes;
  bool smallest = true;
  bool only_marks = false;  // without the marks the whole card could be built
};
Clash find_clash(const Rules& rules, Prover& prover);

}  // namespace evenmat
