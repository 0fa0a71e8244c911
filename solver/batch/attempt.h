// Calls to the planner that allow for more sheets than there are, so that it always has somewhere to begin
// and what it says of them can be told as what is missing.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <vector>

#include "solver/batch/paper_job.h"
#include "solver/cutting/plan_sheets.h"

namespace evenmat::batch {

using Clock = std::chrono::steady_clock;
using Indices = std::vector<std::size_t>;

// One of the job's sheets for each size of which there are so many and no more, in order.
Indices limited_sizes(const PaperJob& paper);

struct Attempt {
  cutting::SheetPlan plan;   // a further sheet of the i-th size is numbered as the i-th after the job's
  std::vector<int> further;  // of each size asked for
  std::int64_t sheets_at_least = 0;  // no plan uses fewer sheets, as far as was asked
  [[nodiscard]] int further_in_all() const;
};

// `prices` of the job's sheets; each further one of `sizes` counts as `further` says.
std::optional<Attempt> attempt(const PaperJob& paper, const std::vector<std::int64_t>& prices,
                               const Indices& sizes, const std::vector<std::int64_t>& further,
                               const cutting::Effort& effort);

// What there is counts nothing, so that the plan's figures are those of further sheets.
std::optional<Attempt> fewest_further(const PaperJob& paper, const Indices& sizes,
                                      const std::vector<std::int64_t>& further,
                                      const cutting::Effort& effort);

// Whether all sheets are of one size, and of so many: then fewest sheets are all there is to ask for.
bool is_of_one_size(const PaperJob& paper);

// Pre: of one size. The plan's figures are those of further sheets, `at_work`'s those of all sheets.
std::optional<Attempt> fewest_sheets(const PaperJob& paper, const cutting::Effort& effort);

}  // namespace evenmat::batch
