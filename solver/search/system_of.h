// A card's rules as a system to be settled: all of them, or some versions or wishes only.
#pragma once

#include <vector>

#include "solver/exact/system.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// Ready for `settle`. `wish_counts` tells by wish which are held (all if empty); without `marks` cut sizes
// need not fall on them.
System system_of(const Rules& rules, const std::vector<bool>& wish_counts = {}, bool marks = true);

// Whether a system can be satisfied at all. Throws OutOfTime.
bool possible(System system, Prover& prover);

// The rules and aims of some versions only; rectangles keep their places.
Rules only_versions(const Rules& rules, const std::vector<bool>& versions);

}  // namespace evenmat
