// The planner: which sheets to cut how, so that all pieces are had at the least cost, with proof or a bound.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

struct SheetPlan {
  std::vector<Layout> layouts;  // gives exactly the pieces asked for
  std::int64_t cost = 0;        // of all its sheets
  std::int64_t at_least = 0;    // no plan costs less
  bool time_ran_out = false;
};

struct Effort {
  double limit = 30;  // seconds, after which the best plan so far is given
  // How much is tried for something better while the cost is not proven; the plan depends on that and not on
  // the clock, as long as the limit is not reached.
  std::int64_t looks = 100'000'000;
  bool neat = true;  // else the plan is as it was found: enough where only its cost is asked for
  std::function<void(std::int64_t cost, std::int64_t at_least)> at_work = {};  // so far
};

// Least cost; then, among the plans looked at, fewest settings and cuts, then the largest single piece of
// paper left over. Nothing when some piece fits no sheet, or more sheets would be needed than there are.
// The same job gives the same plan. Pre: sizes and counts are above 0, costs at most 10^6, and there are
// sheets without end of some size that takes each kind, or else it may give nothing without proof that there
// is nothing.
std::optional<SheetPlan> plan_sheets(const Job& job, const Effort& effort);

// Whether a piece of the kind can be cut from the sheet with nothing else beside it.
bool fits(const Kind& kind, const Sheet& sheet, const Job& job);

// Whether one can be cut from it at all, perhaps with other pieces of the job where else too narrow a trim
// would be left. True also where that would take too long to find out.
bool can_hold(const Job& job, std::size_t kind, std::size_t sheet);

}  // namespace evenmat::cutting
