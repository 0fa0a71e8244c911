// Dives into mixes of ways: what they give is a plan or a part of one, with nothing too much.
#include "solver/cutting/dives.h"

#include "solver/cutting/refill.h"
#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::Cut;
using cutting::Dive;
using cutting::Dives;

namespace {

constexpr std::int64_t looks = 3'000'000;

// Of a plan of little effort: its ways, and what it costs.
std::optional<std::int64_t> begin(Dives& dives, const Job& job) {
  cutting::RefillOptions options;
  options.looks = 500;
  const auto filling = cutting::refill(job, counts_of(job), options);
  if (!filling) return {};
  for (const cutting::FilledSheet& sheet : filling->sheets) {
    const Part tree = sheet.tree(job.blade);
    dives.add({sheet.sheet(), tree, counts_in(tree, job)});
  }
  return filling->cost;
}

void check(const Dive& dive, const Job& job) {
  std::vector<int> given = dive.left;
  std::vector<int> used(job.sheets.size(), 0);
  for (const int left : dive.left) CHECK(left >= 0);
  for (const Cut& cut : dive.cuts) {
    INFO(told(cut.way.tree));
    CHECK(judged_sheet(cut.way.tree, job, cut.way.sheet) == sound);
    CHECK(cut.way.gives == counts_in(cut.way.tree, job));
    CHECK(cut.times > 0);
    given = plus(given, cut.way.gives, cut.times);
    used[cut.way.sheet] += cut.times;
  }
  CHECK(given == counts_of(job));
  for (std::size_t s = 0; s < used.size(); ++s) {
    if (job.sheets[s].have) CHECK(used[s] <= *job.sheets[s].have);
  }
}

std::string told(const Dive& dive) {
  std::string text;
  for (const Cut& cut : dive.cuts)
    text += std::to_string(cut.times) + " of " + testing::told(cut.way.tree) + "; ";
  return text;
}

}  // namespace

TEST_CASE("A dive gives whole sheets and says what is left, never more than is wanted or there") {
  int dived = 0;
  int whole = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.largest = 20, .kinds = 6, .count = 30});
    INFO(seed << ": " << told(job));
    Dives dives(job, {});
    const auto cost = begin(dives, job);
    if (!cost) continue;
    // Towards a plan as dear as the one known, which there is for certain.
    for (int i = 0; i < 3; ++i) {
      const auto dive = dives.next(*cost + 1, looks);
      if (!dive) continue;
      check(*dive, job);
      ++dived;
      if (dive->left == std::vector<int>(job.kinds.size(), 0)) ++whole;
    }
  }
  CHECK(dived > 300);
  CHECK(whole * 2 > dived);
}

TEST_CASE("Dives are the same each time, and go on from what was used before") {
  Dice dice(5);
  const Job job = small_job(dice, {.largest = 30, .kinds = 8, .count = 40, .limited = false});
  Dives once(job, {});
  Dives again(job, {});
  const auto cost = begin(once, job);
  REQUIRE(cost);
  REQUIRE(begin(again, job) == cost);
  for (int i = 0; i < 3; ++i) {
    const std::int64_t before = once.looks();
    const auto one = once.next(*cost + 1, looks);
    const auto other = again.next(*cost + 1, looks);
    REQUIRE(one);
    REQUIRE(other);
    CHECK(told(*one) == told(*other));
    CHECK(once.looks() == again.looks());
    CHECK(once.looks() > before);
  }
}

TEST_CASE("There is no dive towards what no mix of ways costs") {
  // Nine tenths of each sheet are needed for one piece.
  const Job job{{sheet(10, 10)}, {pieces(5, 9, 10)}};
  Dives dives(job, {});
  const auto cost = begin(dives, job);
  REQUIRE(cost == 5);
  CHECK_FALSE(dives.next(5, looks));
  const auto dive = dives.next(6, looks);
  REQUIRE(dive);
  check(*dive, job);
  CHECK(dive->left == std::vector<int>{0});
}
