#include "solver/cutting/plan_sheets.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "solver/cutting/refill.h"

namespace evenmat::cutting {
namespace {

bool takes(const Sheet& sheet, Measure width, Measure height, const CutLimits& limits, Measure blade) {
  const Measure across = sheet.width - width;
  const Measure down = sheet.height - height;
  if (across < 0 || down < 0 || !limits.is_trim(across) || !limits.is_trim(down)) return false;
  if (across == 0 && down == 0) return true;
  const Measure longest = limits.longest;
  if (across == 0) return sheet.width + blade <= longest;
  if (down == 0) return sheet.height + blade <= longest;
  return (sheet.height + blade <= longest && width + blade <= longest) ||
         (sheet.width + blade <= longest && height + blade <= longest);
}

std::int64_t rounded_up(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

// Of all paper, by area alone: the cheapest paper first.
std::int64_t bound_by_area(const Job& job) {
  std::int64_t area = 0;
  for (const Kind& kind : job.kinds) area += kind.width * kind.height * kind.count;
  std::vector<std::size_t> order(job.sheets.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto size = [&](std::size_t s) { return job.sheets[s].width * job.sheets[s].height; };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return job.sheets[a].cost * size(b) < job.sheets[b].cost * size(a);
  });
  std::int64_t cost = 0;
  for (const std::size_t s : order) {
    if (area <= 0) break;
    const Sheet& sheet = job.sheets[s];
    if (!sheet.have || *sheet.have * size(s) >= area) return cost + rounded_up(area * sheet.cost, size(s));
    cost += *sheet.have * sheet.cost;
    area -= *sheet.have * size(s);
  }
  return cost;
}

std::vector<Layout> layouts_of(const Filling& filling, const Job& job) {
  std::vector<Layout> layouts;
  for (const FilledSheet& sheet : filling.sheets)
    layouts.push_back({sheet.sheet(), 1, sheet.tree(job.blade)});
  return layouts;
}

}  // namespace

bool fits(const Kind& kind, const Sheet& sheet, const Job& job) {
  if (sheet.offcut && !kind.from_offcuts) return false;
  const CutLimits limits = limits_of(job);
  return (kind.upright && takes(sheet, kind.width, kind.height, limits, job.blade)) ||
         (kind.turned && takes(sheet, kind.height, kind.width, limits, job.blade));
}

std::optional<SheetPlan> plan_sheets(const Job& job, const Effort& effort) {
  const auto deadline =
      std::chrono::steady_clock::now() + std::chrono::duration_cast<std::chrono::steady_clock::duration>(
                                             std::chrono::duration<double>(effort.limit));
  SheetPlan plan;
  plan.at_least = bound_by_area(job);
  std::vector<int> counts;
  for (const Kind& kind : job.kinds) counts.push_back(kind.count);
  RefillOptions options;
  options.rounds = effort.rounds;
  options.at_least = plan.at_least;
  options.deadline = deadline;
  const auto filling = refill(job, counts, options);
  if (!filling) return {};
  plan.cost = filling->cost;
  plan.layouts = layouts_of(*filling, job);
  return plan;
}

}  // namespace evenmat::cutting
