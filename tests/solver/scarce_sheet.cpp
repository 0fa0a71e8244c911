// Sheets worth much with no more pieces than are wanted, held against the exact search that heeds no numbers.
#include "solver/cutting/scarce_sheet.h"

#include <algorithm>

#include "solver/cutting/tree_shape.h"
#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::BestSheet;
using cutting::ScarceSheet;

namespace {

std::vector<std::int32_t> some_worths(Dice& dice, const Job& job) {
  std::vector<std::int32_t> worths;
  for (const Kind& kind : job.kinds)
    worths.push_back(static_cast<std::int32_t>(kind.width * kind.height * 10 + dice.between(0, 40)));
  return worths;
}

std::int64_t worth_of(const Part& tree, const std::vector<std::int32_t>& worths, const Job& job) {
  const std::vector<int> gives = counts_in(tree, job);
  std::int64_t worth = 0;
  for (std::size_t k = 0; k < gives.size(); ++k) worth += std::int64_t{worths[k]} * gives[k];
  return worth;
}

}  // namespace

TEST_CASE("A scarce sheet gives no more than is wanted, is worth more than is asked, best first") {
  int found = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice);
    INFO(seed << ": " << told(job));
    for (std::size_t s = 0; s < job.sheets.size(); ++s) {
      BestSheet best(job, s);
      REQUIRE(best.is_possible());
      const std::vector<std::int32_t> worths = some_worths(dice, job);
      std::vector<int> wanted = counts_of(job);
      for (int& count : wanted) count = dice.between(0, count);
      const std::int32_t most = best.most(worths);
      ScarceSheet scarce(job, s, best);
      for (const std::size_t fillings : {1U, 2U, 3U}) {
        std::int64_t last = most;
        for (const Part& way : scarce.ways(worths, wanted, most / 2, {5, fillings})) {
          INFO(told(way));
          CHECK(judged_sheet(way, job, s) == sound);
          const std::vector<int> gives = counts_in(way, job);
          for (std::size_t k = 0; k < gives.size(); ++k) CHECK(gives[k] <= wanted[k]);
          const std::int64_t worth = worth_of(way, worths, job);
          CHECK(worth > most / 2);
          CHECK(worth <= last);
          last = worth;
          ++found;
        }
      }
    }
  }
  CHECK(found > 300);
}

TEST_CASE("Where there are pieces enough, a scarce sheet is worth as much as any") {
  int found = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    Dice dice(seed);
    Job job = small_job(dice);
    for (Kind& kind : job.kinds) kind.count = 200;
    INFO(seed << ": " << told(job));
    for (std::size_t s = 0; s < job.sheets.size(); ++s) {
      BestSheet best(job, s);
      REQUIRE(best.is_possible());
      const std::vector<std::int32_t> worths = some_worths(dice, job);
      const std::int32_t most = best.most(worths);
      if (most == 0) continue;
      ScarceSheet scarce(job, s, best);
      const std::vector<Part> ways = scarce.ways(worths, counts_of(job), most - 1, {1, 1});
      REQUIRE(ways.size() == 1);
      CHECK(worth_of(ways.front(), worths, job) == most);
      ++found;
    }
  }
  CHECK(found > 200);
}
