// The same plan with any trim allowed, and the narrowest trim that it makes.
#include "solver/batch/narrower.h"

#include <algorithm>

#include "solver/batch/prices.h"
#include "solver/cutting/tree_shape.h"

namespace evenmat::batch {
namespace {

using cutting::Layout;
using cutting::Measure;
using cutting::Part;

// A hint is worth a tenth of a second, not more.
constexpr std::int64_t hint_looks = 1'000'000;

// How many sheets are wanted, those that are missing among them; nothing where that is no one number.
std::optional<int> sheets_wanted(const PlannedPaper& planned) {
  if (planned.enough()) return planned.plan.sheets;
  if (planned.with_further.empty()) return std::nullopt;
  int sheets = 0;
  const std::vector<bool>& is_sheet = planned.paper->is_sheet;
  for (const Layout& layout : planned.with_further) {
    const bool further = layout.sheet >= is_sheet.size();
    if (further || is_sheet[layout.sheet]) sheets += layout.times;
  }
  return sheets;
}

// Of all trims it makes; more than any where it makes none.
Measure narrowest_trim(const Part& part, bool across, Measure most) {
  if (part.what == Part::What::waste) return cutting::reach(part, across);
  Measure narrowest = most;
  for (const Part& one : part.parts) narrowest = std::min(narrowest, narrowest_trim(one, part.across, most));
  return narrowest;
}

// The widest limit that all these keep.
Measure limit_kept(const std::vector<Layout>& layouts, cutting::Job job) {
  for (const Layout& layout : layouts)
    job.sliver = std::min(job.sliver, narrowest_trim(layout.root, layout.root.across, job.sliver));
  const bool kept = std::all_of(layouts.begin(), layouts.end(), [&](const Layout& layout) {
    return cutting::keeps_limits(layout.root, job);
  });
  return kept ? job.sliver : 0;
}

bool is_better(const PlannedPaper& narrower, const PlannedPaper& planned) {
  const std::optional<int> now = sheets_wanted(planned);
  const std::optional<int> then = sheets_wanted(narrower);
  if (!then || (now && *then >= *now)) return false;
  return !planned.enough() || narrower.plan.cost.value_or(0) <= planned.plan.cost.value_or(0);
}

}  // namespace

std::optional<NarrowerTrims> with_narrower_trims(const PaperNeeds& needs, const BatchTrimmer& trimmer,
                                                 const PlannedPaper& planned, PaperEffort effort) {
  BatchTrimmer any = trimmer;
  any.sliver = 0;
  const std::optional<PaperJob> paper = job_of(needs, any);
  if (!paper || !planned.paper || planned.paper->job.sliver == 0) return std::nullopt;
  const std::optional<int> wanted = sheets_wanted(planned);
  if (wanted && sheets_by_area(*paper).value_or(0) >= *wanted) return std::nullopt;
  effort.looks = hint_looks;
  effort.neat = false;
  effort.at_work = {};
  const PlannedPaper narrower = plan_paper(needs, any, effort);
  if (!narrower.plan.trouble.empty() || !is_better(narrower, planned)) return std::nullopt;
  const std::vector<Layout>& layouts = narrower.enough() ? narrower.layouts : narrower.with_further;
  const Measure limit = limit_kept(layouts, planned.paper->job);
  if (limit >= planned.paper->job.sliver) return std::nullopt;  // the limit is not what stood in the way
  return NarrowerTrims{planned.paper->grid.back(limit), *sheets_wanted(narrower)};
}

}  // namespace evenmat::batch
