// Filling sheets by ruin and recreate: some pieces of a plan are taken out and put back where they spoil
// least, again and again, while one sheet fewer is allowed than the best plan used; a try that leaves no more
// out than was left out some time ago is kept. Once nothing is left out, that is the best plan and the goal
// is one cheaper.
//
// Ruin and recreate: G. Schrimpf et al., Journal of Computational Physics 159 (2000) 139-171. A goal on the
// sheets, straight cuts and best-fit insertion with blinks: J. Gardeyn, T. Wauters, European Journal of
// Operational Research 301 (2022) 432-444. Late acceptance: E. K. Burke, Y. Bykov, EJOR 258 (2017) 70-78.
// Drawing parts together after taking some out is after the justification of K. Fleszar, Computers &
// Operations Research 40 (2013) 463-474. Here it knows several sizes of sheets, each with a cost and a
// number.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "solver/cutting/filled_sheet.h"
#include "solver/cutting/job.h"

namespace evenmat::cutting {

struct Filling {
  std::vector<FilledSheet> sheets;  // none of them empty
  std::int64_t cost = 0;
};

struct RefillOptions {
  // At rectangles that are left, after the first filling: the search ends after so many.
  std::int64_t looks = 0;
  std::int64_t at_least = 0;               // no plan is cheaper: the search ends there
  std::optional<std::int64_t> below = {};  // only a plan that costs less is of use
  std::optional<std::chrono::steady_clock::time_point> deadline = {};
  std::uint64_t seed = 1;
  std::function<void(std::int64_t cost)> better = {};
  std::function<void(const FilledSheet&)> seen = {};  // in a plan that was good enough to go on from
};

// Fills sheets with `counts` of the job's kinds, beginning from `start` if there is one. Nothing when not all
// of them could be put in (at a cost below what is of use). The same job, seed and looks give the same
// filling, unless the deadline is reached.
std::optional<Filling> refill(const Job& job, const std::vector<int>& counts, const RefillOptions& options,
                              const std::optional<Filling>& start = {});

}  // namespace evenmat::cutting
