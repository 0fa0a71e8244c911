// Filling by taking out and putting back: what comes of it is whole, or nothing.
#include "solver/cutting/refill.h"

#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/every_cut.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::FilledSheet;
using cutting::Filling;
using cutting::refill;
using cutting::RefillOptions;

namespace {

RefillOptions with_looks(std::int64_t looks, std::uint64_t seed = 1) {
  RefillOptions options;
  options.looks = looks;
  options.seed = seed;
  return options;
}

SheetPlan plan_of(const Filling& filling, const Job& job) {
  SheetPlan plan;
  plan.cost = filling.cost;
  for (const FilledSheet& sheet : filling.sheets)
    plan.layouts.push_back({sheet.sheet(), 1, sheet.tree(job.blade)});
  return plan;
}

// Filled with all pieces, and checked.
std::optional<Filling> filled(const Job& job, const RefillOptions& options,
                              const std::optional<Filling>& start = {}) {
  std::optional<Filling> filling = refill(job, counts_of(job), options, start);
  INFO(told(job));
  if (filling) CHECK(judged(plan_of(*filling, job), job) == sound);
  return filling;
}

Job many_kinds(unsigned seed) {
  Dice dice(seed);
  Job job{{sheet(60, 50)}, {}};
  for (int k = 0; k < 12; ++k)
    job.kinds.push_back(pieces(dice.between(1, 3), dice.between(8, 40), dice.between(8, 40)));
  return job;
}

}  // namespace

TEST_CASE("A filling has all pieces on sheets that can be cut, or there is none") {
  int some = 0;
  int none = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.sizes = 3, .largest = 24, .kinds = 6, .count = 16});
    ++(filled(job, with_looks(5'000, seed)) ? some : none);
  }
  CHECK(some > 100);
  CHECK(none > 20);
}

TEST_CASE("No filling is cheaper than trying every plan says, nor is there one where it says there is none") {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.largest = 10, .count = 7});
    const auto filling = filled(job, with_looks(10'000));
    if (!filling) continue;
    const auto least = EveryPlan(job).least_cost();
    REQUIRE(least);
    CHECK(filling->cost >= *least);
  }
}

TEST_CASE("As many pieces are put in as are asked for, whatever the job says") {
  const Job job{{sheet(10, 10)}, {pieces(1, 5, 5), pieces(1, 10, 4)}};
  const std::vector<int> counts{9, 0};
  const auto filling = refill(job, counts, with_looks(1'000));
  REQUIRE(filling);
  CHECK(filling->cost == 3);
  std::vector<int> given{0, 0};
  for (const FilledSheet& sheet : filling->sheets) given = plus(given, counts_in(sheet.tree(0), job));
  CHECK(given == counts);
}

TEST_CASE("The same seed and looks fill the same sheets in the same way") {
  const Job job = many_kinds(4);
  const auto once = filled(job, with_looks(100'000, 7));
  const auto again = filled(job, with_looks(100'000, 7));
  REQUIRE(once);
  REQUIRE(again);
  CHECK(told(plan_of(*once, job)) == told(plan_of(*again, job)));
}

TEST_CASE("What is begun from a filling never costs more than it") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const Job job = many_kinds(seed);
    const auto start = filled(job, with_looks(0));
    REQUIRE(start);
    std::int64_t before = start->cost;
    for (const std::int64_t looks : {0, 3'000, 100'000}) {
      const auto better = filled(job, with_looks(looks), start);
      REQUIRE(better);
      CHECK(better->cost <= before);
      before = better->cost;
    }
  }
}

TEST_CASE("Each better filling is told, but none below what no plan can cost") {
  int told_of = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const Job job = many_kinds(seed);
    std::vector<std::int64_t> costs;
    RefillOptions options = with_looks(50'000);
    options.better = [&](std::int64_t cost) { costs.push_back(cost); };
    const auto start = filled(job, with_looks(0));
    const auto filling = filled(job, options);
    REQUIRE(start);
    REQUIRE(filling);
    std::int64_t before = start->cost;
    for (const std::int64_t cost : costs) {
      CHECK(cost < before);
      before = cost;
    }
    CHECK(filling->cost == before);
    if (costs.empty()) continue;
    ++told_of;
    costs.clear();
    options.at_least = start->cost;
    const auto settled = filled(job, options);
    REQUIRE(settled);
    CHECK(settled->cost == start->cost);
    CHECK(costs.empty());
  }
  CHECK(told_of > 1);
}

TEST_CASE("Every sheet seen on the way can be cut") {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.largest = 24, .kinds = 6, .count = 16});
    RefillOptions options = with_looks(3'000);
    int seen = 0;
    options.seen = [&](const FilledSheet& sheet) {
      if (++seen > 100) return;
      CHECK(judged_sheet(sheet.tree(job.blade), job, sheet.sheet()) == sound);
    };
    filled(job, options);
  }
}

// The 6 x 6 want to lie beside one another with one strip below both, though that spoils more at first.
TEST_CASE("A sheet is at times begun in the way that seems worse") {
  const Job job{{sheet(12, 8, 2)}, {pieces(5, 2, 5), pieces(3, 6, 6)}, 0, 2};
  for (const unsigned seed : {1U, 2U, 3U}) {
    const auto filling = filled(job, with_looks(1'000'000, seed));
    REQUIRE(filling);
    CHECK(filling->cost == 2);
  }
}
