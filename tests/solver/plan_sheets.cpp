// The planner by what it promises: plans that can be cut, as cheap as any where the job is small enough to
// try every plan, and bounds that hold.
#include "solver/cutting/plan_sheets.h"

#include <algorithm>

#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/every_cut.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::int64_t cost_of(const Job& job) {
  const auto plan = planned(job);
  INFO(told(job));
  REQUIRE(plan);
  return plan->cost;
}

// Inches in steps of a sixteenth.
constexpr Measure inches(Measure whole, Measure sixteenths = 0) { return 16 * whole + sixteenths; }
constexpr Measure half = 8, quarter = 4;
Job in_inches(std::vector<Sheet> sheets, std::vector<Kind> kinds) {
  return {std::move(sheets), std::move(kinds), 0, 2, inches(12)};
}
Sheet letter() { return sheet(inches(8, half), inches(11)); }

// Every rectangle that is left over, the largest first.
void gather_waste(const Part& part, std::vector<std::pair<Measure, Measure>>& out) {
  if (part.what == Part::What::waste) out.emplace_back(part.width, part.height);
  for (const Part& one : part.parts) gather_waste(one, out);
}
std::vector<std::pair<Measure, Measure>> left_of(const Part& root) {
  std::vector<std::pair<Measure, Measure>> all;
  gather_waste(root, all);
  std::sort(all.begin(), all.end(),
            [](const auto& a, const auto& b) { return a.first * a.second > b.first * b.second; });
  return all;
}

Job turned_over(Job job) {
  for (Sheet& one : job.sheets) std::swap(one.width, one.height);
  for (Kind& kind : job.kinds) std::swap(kind.width, kind.height);
  return job;
}

// Whether sheets without end take each kind: only then is a plan promised.
bool is_promised(const Job& job) {
  return std::all_of(job.kinds.begin(), job.kinds.end(), [&](const Kind& kind) {
    return std::any_of(job.sheets.begin(), job.sheets.end(),
                       [&](const Sheet& one) { return !one.have && cutting::fits(kind, one, job); });
  });
}

// Tells whether it has a plan that is not found.
bool check_small(unsigned seed, const SmallJobs& of) {
  Dice dice(seed);
  const Job job = small_job(dice, of);
  INFO(seed << ": " << told(job));
  const std::optional<std::int64_t> least = EveryPlan(job).least_cost();
  const auto plan = planned(job);
  if (is_promised(job)) CHECK(plan);
  if (plan) {
    REQUIRE(least);
    CHECK(plan->cost == *least);
    CHECK(plan->at_least <= *least);
  }
  return least && !plan;
}

}  // namespace

TEST_CASE("Small jobs are planned at the least cost that trying every plan finds") {
  int missed = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) missed += check_small(seed, {}) ? 1 : 0;
  CHECK(missed <= 3);  // where sheets are few, with no promise
}

TEST_CASE("Small jobs of one size without limits take the fewest sheets that trying every plan finds") {
  for (unsigned seed = 1; seed <= 100; ++seed)
    check_small(seed, {.sizes = 1, .largest = 10, .count = 11, .limits = false, .limited = false});
}

TEST_CASE("A job too large to try every plan of it gets a sound one") {
  for (unsigned seed = 1; seed <= 25; ++seed) {
    Dice dice(seed);
    Job job = small_job(dice, {.sizes = 3, .largest = 60, .kinds = 10, .count = 40});
    for (Sheet& one : job.sheets) {
      if (!one.offcut) one.have = {};
    }
    INFO(seed << ": " << told(job));
    const auto plan = planned(job);
    if (is_promised(job)) CHECK(plan);
  }
}

TEST_CASE("The same job gets the same plan") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    Dice dice(seed);
    Job job = small_job(dice, {.largest = 40, .kinds = 8, .count = 30, .limited = false});
    const auto once = planned(job);
    const auto again = planned(job);
    REQUIRE(once.has_value() == again.has_value());
    if (once) CHECK(told(*once) == told(*again));
  }
}

TEST_CASE("Looking longer never makes a plan worse") {
  for (unsigned seed = 1; seed <= 8; ++seed) {
    Dice dice(seed);
    Job job{{sheet(60, 50)}, {}};
    for (int k = 0; k < 14; ++k)
      job.kinds.push_back(pieces(dice.between(1, 3), dice.between(8, 40), dice.between(8, 40)));
    std::int64_t before = 1'000'000;
    for (const std::int64_t looks : {0, 20'000, 400'000}) {
      const auto plan = planned(job, looks);
      REQUIRE(plan);
      CHECK(plan->cost <= before);
      before = plan->cost;
    }
  }
}

TEST_CASE("A sheet turned over with all its pieces costs the same") {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice);
    INFO(seed << ": " << told(job));
    const auto one = planned(job);
    const auto other = planned(turned_over(job));
    REQUIRE(one.has_value() == other.has_value());
    if (one) CHECK(one->cost == other->cost);
  }
}

TEST_CASE("A piece that may not turn lies as it stands") {
  // Three of 4 x 6 stand beside one another; turned, only two of them find room.
  Job job{{sheet(12, 6)}, {upright(pieces(3, 4, 6))}};
  CHECK(cost_of(job) == 1);
  std::swap(job.kinds[0].width, job.kinds[0].height);
  CHECK(cost_of(job) == 2);
  SECTION("and one that may, turned or not") {
    job.kinds[0].turned = true;
    CHECK(cost_of(job) == 1);
  }
  SECTION("and one that must be turned is turned") {
    job.kinds[0].turned = true;
    job.kinds[0].upright = false;
    const auto plan = planned(job);
    REQUIRE(plan);
    CHECK(plan->cost == 1);
    for (const Part& piece : pieces_of(plan->layouts.front().root)) CHECK(piece.turned);
  }
}

TEST_CASE("What cannot be cut gets no plan") {
  SECTION("a piece larger than every sheet") {
    CHECK_FALSE(planned({{sheet(10, 8), sheet(7, 12)}, {pieces(1, 2, 2), pieces(1, 8, 11)}}));
  }
  SECTION("a piece that would fit if it might turn") {
    CHECK_FALSE(planned({{sheet(10, 8)}, {upright(pieces(1, 8, 10))}}));
  }
  SECTION("a piece beside which a sliver would be left") {
    Job job{{sheet(10, 8)}, {pieces(1, 9, 8)}, 0, 2};
    CHECK_FALSE(planned(job));
    job.sliver = 1;
    CHECK(planned(job));
  }
  SECTION("a piece beside which there is no room for the blade") {
    Job job{{sheet(10, 8)}, {pieces(1, 9, 8)}, 2};
    CHECK_FALSE(planned(job));
    job.blade = 1;  // takes all that is left
    CHECK(planned(job));
  }
  SECTION("a sheet that is longer than any cut, either way") {
    Job job{{sheet(10, 8)}, {pieces(1, 4, 4)}, 0, 0, 7};
    CHECK_FALSE(planned(job));
    job.longest = 8;
    CHECK(planned(job));
  }
  SECTION("a sheet that is a piece needs no cut") {
    CHECK(cost_of({{sheet(10, 8)}, {pieces(3, 8, 10)}, 2, 3, 1}) == 3);
  }
  SECTION("too few sheets") {
    Job job{{sheet(10, 8, 2)}, {pieces(5, 5, 8)}};
    CHECK_FALSE(planned(job));
    job.kinds[0].count = 4;
    CHECK(cost_of(job) == 2);
    job.blade = 1;
    CHECK_FALSE(planned(job));
  }
  SECTION("offcuts alone, of which it may not be cut") {
    Job job{{offcut(10, 8, 3)}, {pieces(1, 5, 5)}};
    CHECK(cost_of(job) == 0);
    job.kinds[0].from_offcuts = false;
    CHECK_FALSE(planned(job));
  }
}

TEST_CASE("Offcuts are used up before a sheet is opened") {
  Job job{{sheet(20, 10), offcut(5, 10, 2)}, {pieces(2, 5, 8), pieces(2, 10, 10)}};
  job.kinds[1].from_offcuts = false;
  CHECK(cost_of(job) == 1);
  job.sheets[1].have = 1;
  CHECK(cost_of(job) == 2);
}

TEST_CASE("Cheaper paper is taken, though it takes more sheets of it") {
  Job job{{sheet(20, 10, {}, 5), sheet(10, 10, {}, 2)}, {pieces(4, 10, 10)}};
  CHECK(cost_of(job) == 8);
  job.sheets[1].have = 3;
  CHECK(cost_of(job) == 5 + 4);
  job.sheets[1].cost = 3;
  CHECK(cost_of(job) == 10);
}

TEST_CASE("What the blade takes is gone between two parts, and nowhere else") {
  Job job{{sheet(11, 5)}, {pieces(2, 5, 5)}, 1};
  CHECK(cost_of(job) == 1);
  job.sheets[0].width = 10;
  CHECK(cost_of(job) == 2);
}

// By area they would fit two sheets.
TEST_CASE("Pieces of which a sheet holds only one are proven to take a sheet each") {
  const auto plan = planned({{sheet(10, 10)}, {pieces(7, 6, 6), pieces(20, 2, 2)}});
  REQUIRE(plan);
  CHECK(plan->cost == 7);
  CHECK(plan->at_least == 7);
}

TEST_CASE("Sixteen hundred pieces of eight kinds are planned with proof, and ten times as many") {
  for (const int cards : {200, 2000}) {
    Job job = in_inches({letter()}, {});
    job.kinds = {
        pieces(cards, inches(8, half), inches(5, half)), pieces(cards, inches(4), inches(5, quarter)),
        pieces(cards, inches(3, 12), inches(5)),         pieces(cards, inches(3, half), inches(2, quarter)),
        pieces(cards, inches(3), inches(1, quarter)),    pieces(cards, inches(2, 12), inches(1)),
        pieces(cards, inches(1, half), inches(1, half)), pieces(cards, inches(4), inches(0, half))};
    const auto plan = planned(job);
    REQUIRE(plan);
    INFO(plan->cost << " of at least " << plan->at_least);
    CHECK(plan->cost == plan->at_least);
    // By area alone.
    Measure area = 0;
    for (const Kind& kind : job.kinds) area += kind.count * kind.width * kind.height;
    CHECK(plan->cost * letter().width * letter().height >= area);
  }
}

TEST_CASE("Twice the pieces of all kinds cost at most twice as much, and no less") {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    Dice dice(seed);
    Job job = small_job(dice, {.limited = false});
    INFO(seed << ": " << told(job));
    const auto once = planned(job);
    if (!once) continue;
    for (Kind& kind : job.kinds) kind.count *= 2;
    const auto twice = planned(job);
    REQUIRE(twice);
    CHECK(twice->cost <= 2 * once->cost);
    CHECK(twice->cost >= once->cost);
  }
}

// Common practice, no source.
TEST_CASE("A letter sheet gives two blanks of 5 1/2 x 8 1/2") {
  Job job = in_inches({letter()}, {pieces(2, inches(5, half), inches(8, half))});
  const auto plan = planned(job);
  REQUIRE(plan);
  CHECK(plan->cost == 1);
  CHECK(left_of(plan->layouts.front().root).empty());
  job.kinds[0].count = 3;
  CHECK(cost_of(job) == 2);
}

// Common practice, no source.
TEST_CASE("A 12 in square of print gives two strips 5 1/4 tall with 1 1/2 left") {
  Job job = in_inches({sheet(inches(12), inches(12))}, {upright(pieces(2, inches(12), inches(5, quarter)))});
  const auto plan = planned(job);
  REQUIRE(plan);
  CHECK(plan->cost == 1);
  CHECK(left_of(plan->layouts.front().root) == std::vector{std::pair(inches(12), inches(1, half))});
  job.kinds[0].count = 3;
  CHECK(cost_of(job) == 2);
}

// Common practice, no source. A mat shows 1/8 all round its greeting: 1 1/4 x 3.
TEST_CASE("A sheet's strip of 1 1/4 cut at 3 gives mats for 1 x 2 3/4 greetings") {
  const Measure border = 2;
  const Kind mats = pieces(1, inches(2, 12) + 2 * border, inches(1) + 2 * border);
  const auto given = [&](Measure strip, int count) {
    Job job = in_inches({sheet(strip, inches(1, quarter), 1)}, {mats});
    job.kinds[0].count = count;
    return planned(job);
  };
  CHECK(given(inches(8, half), 2));
  CHECK_FALSE(given(inches(8, half), 3));
  CHECK(given(inches(12), 4));
  CHECK_FALSE(given(inches(12), 5));
  const auto plan = given(inches(11), 3);
  REQUIRE(plan);
  CHECK(left_of(plan->layouts.front().root) == std::vector{std::pair(inches(2), inches(1, quarter))});
}

TEST_CASE("What is told while planning only gets better, and ends with the plan") {
  Dice dice(3);
  Job job{{sheet(60, 50)}, {}};
  for (int k = 0; k < 14; ++k) job.kinds.push_back(pieces(2, dice.between(8, 40), dice.between(8, 40)));
  std::vector<std::pair<std::int64_t, std::int64_t>> told_of;
  cutting::Effort effort;
  effort.looks = 200'000;
  effort.at_work = [&](std::int64_t cost, std::int64_t at_least) { told_of.emplace_back(cost, at_least); };
  const auto plan = cutting::plan_sheets(job, effort);
  REQUIRE(plan);
  REQUIRE_FALSE(told_of.empty());
  for (std::size_t i = 1; i < told_of.size(); ++i) {
    CHECK(told_of[i].first <= told_of[i - 1].first);
    CHECK(told_of[i].second >= told_of[i - 1].second);
  }
  CHECK(told_of.back() == std::pair(plan->cost, plan->at_least));
}

TEST_CASE("Where there is no time, the plan in hand is given and said to be so") {
  Dice dice(3);
  Job job{{sheet(60, 50)}, {}};
  for (int k = 0; k < 14; ++k) job.kinds.push_back(pieces(2, dice.between(8, 40), dice.between(8, 40)));
  cutting::Effort effort;
  effort.limit = 0;
  const auto plan = cutting::plan_sheets(job, effort);
  REQUIRE(plan);
  CHECK(judged(*plan, job) == sound);
  CHECK(plan->time_ran_out == (plan->cost > plan->at_least));
}

TEST_CASE("a thousand great sheets are no bound that three pieces could meet") {
  constexpr Measure side = Measure{1} << 29;
  Job job;
  job.sheets = {{side, side, 1000, 1, false}};
  job.kinds = {{side, side / 2, true, true, true, 3}};
  const auto plan = plan_sheets(job, {});
  REQUIRE(plan);
  CHECK(plan->cost == 2);
  CHECK(plan->at_least == 2);
}

TEST_CASE("a piece that would leave too narrow a trim fits in the company of one that fills it") {
  Job job;
  job.sheets = {{140, 100, std::nullopt, 1, false}};
  job.kinds = {{120, 60, true, false, true, 1}, {20, 70, true, false, true, 1}};
  job.sliver = 30;
  CHECK_FALSE(fits(job.kinds[0], job.sheets[0], job));
  CHECK(can_hold(job, 0, 0));
  job.kinds[1].width = 21;
  CHECK_FALSE(can_hold(job, 0, 0));
}

TEST_CASE("a plan is found at once for more pieces than could be put in one by one") {
  Job job;
  job.sheets = {{136, 176, 700'000, 2, false}, {88, 136, std::nullopt, 3, false}};
  job.kinds = {{136, 88, true, true, true, 1'000'000}, {48, 84, true, true, true, 900'000}};
  job.sliver = 2;
  const auto plan = plan_sheets(job, {});
  REQUIRE(plan);
  std::vector<std::int64_t> given(2, 0);
  for (const Layout& layout : plan->layouts) {
    const std::vector<int> gives = pieces_in(layout.root, 2);
    for (std::size_t k = 0; k < 2; ++k) given[k] += std::int64_t{gives[k]} * layout.times;
  }
  CHECK(given == std::vector<std::int64_t>{1'000'000, 900'000});
  CHECK(plan->at_least <= plan->cost);
}
