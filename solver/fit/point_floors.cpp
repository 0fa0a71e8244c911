#include "solver/fit/point_floors.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <string>
#include <utility>

#include "solver/explore/on_all_cores.h"
#include "solver/fit/floors.h"

namespace evenmat::exploring {
namespace {

constexpr int most_boxes = 64;  // of one paper

// Every different job of one paper, and which points have it.
struct Jobs {
  std::vector<batch::PaperNeeds> all;
  std::map<std::string, std::size_t> known;                    // by all that planning depends on
  std::vector<std::pair<std::size_t, std::size_t>> of_points;  // point, job
};

}  // namespace

std::vector<std::optional<PointFloor>> floors_of(const std::vector<Amounts>& points, const CutPoints& cards) {
  const auto now = std::chrono::steady_clock::now();
  const auto until = now + (std::max(cards.until(), now) - now) / 2;
  std::vector<std::vector<batch::PaperNeeds>> needs(points.size());
  std::vector<std::optional<PointFloor>> floors(points.size());
  on_all_cores(points.size(), [&](std::size_t i) {
    if (std::chrono::steady_clock::now() >= until) return;
    const std::optional<SizedCard> sized = cards.cut_of(points[i]);
    if (!sized) return;
    needs[i] = cards.papers().needs_of(*sized);
    floors[i] = PointFloor{};
  });
  std::map<std::string, Jobs> papers;
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (batch::PaperNeeds& one : needs[i]) {
      Jobs& jobs = papers[one.paper];
      const auto [at, is_new] = jobs.known.emplace(PaperCosts::key_of(one), jobs.all.size());
      jobs.of_points.emplace_back(i, at->second);
      if (is_new) jobs.all.push_back(std::move(one));
    }
    needs[i].clear();
  }
  std::vector<const Jobs*> each;
  for (const auto& [paper, jobs] : papers) each.push_back(&jobs);
  std::vector<std::vector<PaperBound>> bounds(each.size());
  on_all_cores(each.size(), [&](std::size_t i) {
    const auto price = [&](const batch::PaperNeeds& job) { return cards.papers().without_limits(job); };
    bounds[i] = floors_of(each[i]->all, price, most_boxes, until);
  });
  for (std::size_t i = 0; i < each.size(); ++i) {
    for (const auto& [point, job] : each[i]->of_points) {
      const Price own = price_of(std::vector<PaperBound>{bounds[i][job]}, cards.by_cost());
      Price& price = floors[point]->price;
      price.never += own.never;
      price.missing += own.missing;
      price.amount += own.amount;
      floors[point]->sheets += bounds[i][job].sheets;
    }
  }
  return floors;
}

}  // namespace evenmat::exploring
