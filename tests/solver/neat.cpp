// Plans made pleasant to cut: never more trouble than before, the same pieces, and what a maker sees at once
// is seen.
#include "solver/cutting/neat.h"

#include "solver/cutting/dice.h"
#include "solver/cutting/plan_sheets.h"
#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"

using namespace evenmat;
using namespace evenmat::testing;

TEST_CASE("ten like pieces come from two strips, at two settings, with all else in one piece") {
  // 56 x 46 mm from a sheet of 210 x 297 mm: two strips 46 wide, five of 56 from each.
  Job job;
  job.sheets = {{210, 297, std::nullopt, 1, false}};
  job.kinds = {{56, 46, true, true, true, 10}};
  job.sliver = 3;
  const auto plan = plan_sheets(job, {});
  REQUIRE(plan);
  CHECK(plan->cost == 1);
  CHECK(trouble_of(plan->layouts, job) == cutting::Trouble(2, 12, 2, -Measure{118} * 297));
}

TEST_CASE("a neat plan gives the same pieces from no more sheets, and is no more trouble") {
  std::size_t neater = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    Job job;
    cutting::Dice dice(seed);
    job.sheets = {{136, 176, std::nullopt, 1, false}};
    for (int i = 0; i < 3; ++i) {
      const auto side = [&] { return static_cast<Measure>(8 + dice.roll(60)); };
      job.kinds.push_back({side(), side(), true, true, true, static_cast<int>(1 + dice.roll(12))});
    }
    cutting::Effort effort;
    effort.neat = false;
    const auto plan = plan_sheets(job, effort);
    REQUIRE(plan);
    const std::vector<Layout> neat = made_neat(plan->layouts, job);
    CHECK(trouble_of(neat, job) <= trouble_of(plan->layouts, job));
    if (trouble_of(neat, job) < trouble_of(plan->layouts, job)) ++neater;
    std::int64_t sheets = 0;
    std::vector<std::int64_t> given(job.kinds.size(), 0);
    for (const Layout& layout : neat) {
      sheets += layout.times;
      const std::vector<int> gives = pieces_in(layout.root, job.kinds.size());
      for (std::size_t k = 0; k < given.size(); ++k) given[k] += std::int64_t{gives[k]} * layout.times;
    }
    CHECK(sheets <= plan->cost);
    for (std::size_t k = 0; k < given.size(); ++k) CHECK(given[k] == job.kinds[k].count);
  }
  CHECK(neater > 30);
}
