// Ways to cut one sheet, mixed for all pieces: every way can be cut, and the bound that comes of them holds.
#include "solver/cutting/columns.h"

#include "solver/cutting/refill.h"
#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/every_cut.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::Column;
using cutting::ColumnEffort;
using cutting::Columns;
using cutting::generate_columns;
using cutting::whole_times;

namespace {

struct Start {
  std::vector<Column> ways;
  std::int64_t cost = 0;
};

std::optional<Start> start_of(const Job& job) {
  cutting::RefillOptions options;
  options.looks = 500;
  const auto filling = cutting::refill(job, counts_of(job), options);
  if (!filling) return {};
  Start start{{}, filling->cost};
  for (const cutting::FilledSheet& sheet : filling->sheets) {
    const Part tree = sheet.tree(job.blade);
    start.ways.push_back({sheet.sheet(), tree, counts_in(tree, job)});
  }
  return start;
}

Columns columns_of(const Job& job, const Start& start) {
  return generate_columns(job, start.ways, start.cost, ColumnEffort{});
}

void check_ways(const Columns& columns, const Job& job) {
  for (const Column& way : columns.all) {
    INFO(told(way.tree));
    CHECK(judged_sheet(way.tree, job, way.sheet) == sound);
    CHECK(way.gives == counts_in(way.tree, job));
  }
  CHECK(columns.times.size() <= columns.all.size());
}

// Where whole numbers of the ways are found, they are enough for all pieces, with the sheets there are.
void check_times(const std::vector<int>& times, const Columns& columns, const Job& job, std::int64_t below) {
  REQUIRE(times.size() == columns.all.size());
  std::vector<int> given(job.kinds.size(), 0);
  std::vector<int> used(job.sheets.size(), 0);
  std::int64_t cost = 0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    CHECK(times[i] >= 0);
    given = plus(given, columns.all[i].gives, times[i]);
    used[columns.all[i].sheet] += times[i];
    cost += times[i] * job.sheets[columns.all[i].sheet].cost;
  }
  for (std::size_t k = 0; k < given.size(); ++k) CHECK(given[k] >= job.kinds[k].count);
  for (std::size_t s = 0; s < used.size(); ++s) {
    if (job.sheets[s].have) CHECK(used[s] <= *job.sheets[s].have);
  }
  CHECK(cost < below);
}

}  // namespace

TEST_CASE("Every way to cut a sheet can be cut, and the bound is never above what all pieces cost") {
  int tight = 0;
  int jobs = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice);
    INFO(seed << ": " << told(job));
    const auto start = start_of(job);
    if (!start) continue;
    const Columns columns = columns_of(job, *start);
    check_ways(columns, job);
    const auto least = EveryPlan(job).least_cost();
    REQUIRE(least);
    CHECK(columns.at_least <= *least);
    ++jobs;
    if (columns.at_least == *least) ++tight;
  }
  CHECK(jobs > 200);
  CHECK(tight * 4 > jobs * 3);
}

TEST_CASE("Whole numbers of ways give all pieces for less than is asked, or there are none") {
  int found = 0;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice);
    INFO(seed << ": " << told(job));
    const auto start = start_of(job);
    if (!start) continue;
    Columns columns = columns_of(job, *start);
    const auto least = EveryPlan(job).least_cost();
    REQUIRE(least);
    CHECK_FALSE(whole_times(job, columns.all, *least, 1000));
    const std::int64_t below = start->cost + 1;
    if (const auto times = whole_times(job, columns.all, below, 1000)) {
      check_times(*times, columns, job, below);
      ++found;
    }
  }
  CHECK(found > 50);
}

// Two ways to cut a sheet, each of which alone wastes much.
TEST_CASE("Many copies are mixed from ways that go well together") {
  const Job job{{sheet(10, 10)}, {upright(pieces(300, 6, 10)), upright(pieces(300, 4, 10))}};
  std::vector<Column> ways;
  for (const std::size_t kind : {0U, 1U}) {
    Part piece;
    piece.what = Part::What::piece;
    piece.kind = kind;
    piece.width = job.kinds[kind].width;
    piece.height = 10;
    const Part rest{.x = piece.width, .width = 10 - piece.width, .height = 10};
    const Part tree{.what = Part::What::cut, .width = 10, .height = 10, .parts = {piece, rest}};
    std::vector<int> gives{0, 0};
    gives[kind] = 1;
    for (int i = 0; i < 300; ++i) ways.push_back({0, tree, gives});
  }
  const Columns columns = generate_columns(job, ways, 600, ColumnEffort{});
  check_ways(columns, job);
  CHECK(columns.at_least == 300);
  const auto times = whole_times(job, columns.all, 600, 1000);
  REQUIRE(times);
  check_times(*times, columns, job, 301);
}

TEST_CASE("The same job brings the same ways") {
  Dice dice(12);
  const Job job = small_job(dice, {.largest = 30, .kinds = 6, .count = 30, .limited = false});
  const auto start = start_of(job);
  REQUIRE(start);
  const Columns once = columns_of(job, *start);
  const Columns again = columns_of(job, *start);
  REQUIRE(once.all.size() == again.all.size());
  for (std::size_t i = 0; i < once.all.size(); ++i) CHECK(told(once.all[i].tree) == told(again.all[i].tree));
  CHECK(once.at_least == again.at_least);
}
