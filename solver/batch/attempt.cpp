// The planner's job with further sheets put in, and its answer told of what there is and what there is not.
#include "solver/batch/attempt.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace evenmat::batch {
namespace {

using cutting::Layout;
using cutting::Sheet;

bool same_size(const Sheet& a, const Sheet& b) {
  return a.width == b.width && a.height == b.height && a.offcut == b.offcut;
}

// Sheets of one layout from the stacks there are, in order, and what is left over as further ones.
void share_out(const Layout& layout, std::vector<int>& left, const PaperJob& paper,
               std::vector<Layout>& layouts) {
  int times = layout.times;
  for (std::size_t i = 0; i <= left.size() && times > 0; ++i) {
    const bool further = i == left.size();
    if (!further && !paper.is_sheet[i]) continue;
    const int taken = further ? times : std::min(times, left[i]);
    if (taken == 0) continue;
    layouts.push_back({i, taken, layout.root});
    if (!further) left[i] -= taken;
    times -= taken;
  }
}

}  // namespace

Indices limited_sizes(const PaperJob& paper) {
  const std::vector<Sheet>& sheets = paper.job.sheets;
  Indices sizes;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    bool is_new = paper.is_sheet[i] && sheets[i].have;
    for (std::size_t j = 0; j < sheets.size(); ++j) {
      const bool same = paper.is_sheet[j] && same_size(sheets[i], sheets[j]);
      if (same && (!sheets[j].have || j < i)) is_new = false;
    }
    if (is_new) sizes.push_back(i);
  }
  return sizes;
}

int Attempt::further_in_all() const { return std::accumulate(further.begin(), further.end(), 0); }

std::optional<Attempt> attempt(const PaperJob& paper, const std::vector<std::int64_t>& prices,
                               const Indices& sizes, const std::vector<std::int64_t>& further,
                               const cutting::Effort& effort) {
  cutting::Job job = paper.job;
  const std::size_t there = job.sheets.size();
  for (std::size_t i = 0; i < there; ++i) job.sheets[i].cost = prices[i];
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    Sheet sheet = job.sheets[sizes[i]];
    sheet.have = std::nullopt;
    sheet.cost = further[i];
    job.sheets.push_back(sheet);
  }
  std::optional<cutting::SheetPlan> plan = cutting::plan_sheets(job, effort);
  if (!plan) return std::nullopt;
  if (!paper.exact) plan->at_least = 0;
  Attempt made;
  made.further.resize(sizes.size());
  for (const Layout& layout : plan->layouts) {
    if (layout.sheet >= there) made.further[layout.sheet - there] += layout.times;
  }
  made.plan = std::move(*plan);
  return made;
}

std::optional<Attempt> fewest_further(const PaperJob& paper, const Indices& sizes,
                                      const std::vector<std::int64_t>& further,
                                      const cutting::Effort& effort) {
  return attempt(paper, std::vector<std::int64_t>(paper.job.sheets.size(), 0), sizes, further, effort);
}

bool is_of_one_size(const PaperJob& paper) {
  const std::vector<Sheet>& sheets = paper.job.sheets;
  const Indices sizes = limited_sizes(paper);
  if (sizes.size() != 1) return false;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    if (paper.is_sheet[i] && !same_size(sheets[i], sheets[sizes.front()])) return false;
  }
  return true;
}

std::optional<Attempt> fewest_sheets(const PaperJob& paper, const cutting::Effort& effort) {
  const std::size_t size = limited_sizes(paper).front();
  cutting::Job job = paper.job;
  std::vector<int> left;
  std::vector<std::size_t> from;  // of each of the job's sheets
  std::vector<Sheet> sheets;
  for (std::size_t i = 0; i < job.sheets.size(); ++i) {
    left.push_back(paper.is_sheet[i] ? job.sheets[i].have.value_or(0) : 0);
    if (paper.is_sheet[i] && i != size) continue;
    from.push_back(i);
    sheets.push_back(job.sheets[i]);
    sheets.back().cost = paper.is_sheet[i] ? 1 : 0;
    if (paper.is_sheet[i]) sheets.back().have = std::nullopt;
  }
  job.sheets = std::move(sheets);
  std::optional<cutting::SheetPlan> plan = cutting::plan_sheets(job, effort);
  if (!plan) return std::nullopt;
  Attempt made;
  made.sheets_at_least = paper.exact ? plan->at_least : 0;
  made.further = {0};
  const std::int64_t there = std::accumulate(left.begin(), left.end(), std::int64_t{0});
  made.plan.time_ran_out = plan->time_ran_out;
  made.plan.cost = std::max<std::int64_t>(0, plan->cost - there);
  made.plan.at_least = std::max<std::int64_t>(0, made.sheets_at_least - there);
  for (Layout& layout : plan->layouts) {
    layout.sheet = from[layout.sheet];
    if (layout.sheet == size) {
      share_out(layout, left, paper, made.plan.layouts);
    } else {
      made.plan.layouts.push_back(std::move(layout));
    }
  }
  made.further.front() = static_cast<int>(made.plan.cost);
  return made;
}

}  // namespace evenmat::batch
