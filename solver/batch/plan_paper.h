// Planning one paper: what is cut from which sheet at the least cost, or what is missing for it. Nothing of
// cutting order, labels, or which cards could be made instead.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "solver/batch/attempt.h"

namespace evenmat::batch {

struct PaperEffort {
  Clock::time_point until;
  Unit unit = Unit::inch;  // of sentences
  std::function<void(std::string_view)> at_work = {};
  std::int64_t looks = cutting::Effort{}.looks;  // at something better, while a plan is not proven
  bool neat = true;                              // as in cutting::Effort
};

struct PlannedPaper {
  // All but its letters, cuts and steps: `plan` and `steps` are empty.
  PaperPlan plan;
  std::optional<PaperJob> paper;         // nothing where there is trouble
  std::vector<cutting::Layout> layouts;  // of the job's sheets; empty when it is not enough
  // Where it is not, and all sheets are of one size: a plan with as many more as are missing.
  std::vector<cutting::Layout> with_further;
  bool too_little = false;  // it is proven that there is not enough
  bool time_ran_out = false;

  [[nodiscard]] bool enough() const { return plan.missing.empty() && plan.trouble.empty(); }
};

// Whether there is enough of a paper, costs aside.
struct Enough {
  std::optional<bool> yes;                 // nothing when that was not found out
  std::optional<cutting::SheetPlan> plan;  // of the paper's job, where there is enough of what is limited
};
Enough is_enough(const PaperNeeds& needs, const BatchTrimmer& trimmer, const PaperEffort& effort);

// `known`: a plan that does with what there is, which is taken if no better one is found.
PlannedPaper plan_paper(const PaperNeeds& needs, const BatchTrimmer& trimmer, const PaperEffort& effort,
                        const std::optional<cutting::SheetPlan>& known = std::nullopt);

// Whether there is a number of cards that it is not enough for, however large.
bool sets_a_limit(const PaperNeeds& needs, const BatchTrimmer& trimmer);

}  // namespace evenmat::batch
