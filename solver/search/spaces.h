// The spaces of step 6: which distances between pieces are to be raised.
#pragma once

#include <vector>

#include "solver/exact/system.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// The sums to be raised, once every size is settled in `system`. Adds the variables and choices that stand
// for nearest neighbours to it; it is to be settled, and the sums reduced, afterwards. Throws OutOfTime.
std::vector<Sum> spaces(const Rules& rules, System& system, Prover& prover);

}  // namespace evenmat
