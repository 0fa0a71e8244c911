// The sheet whose pieces are worth the most, held against every cut there is.
#include "solver/cutting/best_sheet.h"

#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/every_cut.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::BestSheet;

namespace {

std::int64_t worth_of(const Part& root, const std::vector<std::int32_t>& worths) {
  std::int64_t sum = 0;
  for (const Part& piece : pieces_of(root)) sum += worths.at(piece.kind);
  return sum;
}

std::vector<std::int32_t> any_worths(const Job& job, Dice& dice) {
  std::vector<std::int32_t> worths;
  for (std::size_t k = 0; k < job.kinds.size(); ++k)
    worths.push_back(dice.one_in(6) ? 0 : dice.between(1, 40));
  return worths;
}

// By area, more or less: so that there is no easy choice.
std::vector<std::int32_t> close_worths(const Job& job, Dice& dice) {
  std::vector<std::int32_t> worths;
  for (const Kind& kind : job.kinds)
    worths.push_back(static_cast<std::int32_t>(kind.width * kind.height * 10) + dice.between(0, 15));
  return worths;
}

void check_tree(const BestSheet& best, const Job& job, std::size_t on, std::int64_t most,
                const std::vector<std::int32_t>& worths) {
  const Part root = best.tree();
  INFO(told(root));
  CHECK(worth_of(root, worths) == most);
  CHECK(judged_sheet(root, job, on) == sound);
}

}  // namespace

TEST_CASE("The most that a sheet can be worth is what trying every cut finds, and its tree is worth it") {
  for (unsigned seed = 1; seed <= 3000; ++seed) {
    Dice dice(seed);
    Job job = small_job(dice, {.largest = 14, .limits = seed % 4 != 0});
    for (Kind& kind : job.kinds) kind.count = 200;  // more than a sheet can hold
    INFO(seed << ": " << told(job));
    for (std::size_t s = 0; s < job.sheets.size(); ++s) {
      BestSheet best(job, s);
      REQUIRE(best.is_possible());
      REQUIRE(best.is_strict());
      for (const auto& worths : {any_worths(job, dice), close_worths(job, dice), any_worths(job, dice)}) {
        const std::int32_t most = best.most(worths);
        CHECK(most == most_worth(job, s, worths));
        check_tree(best, job, s, most, worths);
      }
    }
  }
}

TEST_CASE("No set of the pieces there are is worth more than a sheet at its best") {
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice);
    INFO(seed << ": " << told(job));
    const EveryPlan every(job);
    for (std::size_t s = 0; s < job.sheets.size(); ++s) {
      BestSheet best(job, s);
      const std::vector<std::int32_t> worths = close_worths(job, dice);
      const std::int32_t most = best.most(worths);
      CHECK(most <= most_worth(job, s, worths));
      for (const std::vector<int>& counts : every.given(s)) {
        std::int64_t worth = 0;
        for (std::size_t k = 0; k < counts.size(); ++k) worth += std::int64_t{counts[k]} * worths[k];
        CHECK(worth <= most);
      }
      check_tree(best, job, s, most, worths);
    }
  }
}

TEST_CASE("A sheet asked for other worths and back again is worth what it was") {
  Dice dice(5);
  const Job job = small_job(dice);
  BestSheet best(job, 0);
  const auto once = close_worths(job, dice);
  const auto other = any_worths(job, dice);
  const std::int32_t most = best.most(once);
  const std::string tree = told(best.tree());
  CHECK(best.most(other) == BestSheet(job, 0).most(other));
  CHECK(best.most(once) == most);
  CHECK(told(best.tree()) == tree);
}

TEST_CASE("A sheet that no piece fits is worth nothing and stays whole") {
  Job job{{sheet(10, 8)}, {pieces(1, 11, 3), pieces(3, 9, 9)}};
  BestSheet best(job, 0);
  CHECK(best.most({100, 7}) == 0);
  CHECK(best.tree().what == Part::What::waste);
  CHECK(judged_sheet(best.tree(), job, 0) == sound);
  SECTION("nor one that a sliver would be left of") {
    job.sliver = 3;
    job.kinds = {pieces(1, 8, 8)};
    BestSheet narrow(job, 0);
    CHECK(narrow.most({9}) == 0);
    job.sliver = 2;
    CHECK(BestSheet(job, 0).most({9}) == 9);
  }
  SECTION("nor one that no cut can be made across") {
    job.longest = 7;
    job.kinds = {pieces(20, 2, 2)};
    CHECK(BestSheet(job, 0).most({9}) == 0);
    job.longest = 8;
    CHECK(BestSheet(job, 0).most({9}) == 20 * 9);
  }
}

TEST_CASE("A piece may be worth as much as a sheet ever may") {
  const Job job{{sheet(100, 100)}, {pieces(1, 60, 60), pieces(4, 30, 30)}};
  CHECK(BestSheet(job, 0).most({BestSheet::most_worth - 5, 1}) == BestSheet::most_worth);
}

TEST_CASE("A sheet with too many places to cut is not asked at all") {
  const Job job{{sheet(5'000'000, 5'000'000)}, {pieces(3, 1'000'000, 700'000)}};
  CHECK_FALSE(BestSheet(job, 0).is_possible());
}

// Large pieces of many sizes: few sums of sizes, but very many differences.
TEST_CASE("Where limits are left out for want of time, no sheet that keeps them is worth more") {
  for (unsigned seed = 1; seed <= 3; ++seed) {
    Dice dice(seed);
    Job job{{sheet(2000, 1900)}, {}, 2, 12, 1950};
    for (int k = 0; k < 6; ++k)
      job.kinds.push_back(pieces(9, dice.between(500, 900), dice.between(500, 900)));
    BestSheet best(job, 0);
    REQUIRE(best.is_possible());
    REQUIRE_FALSE(best.is_strict());
    const auto worths = close_worths(job, dice);
    const std::int32_t most = best.most(worths);
    CHECK(worth_of(best.tree(), worths) == most);
    INFO(told(best.tree()));

    // Rows of pieces, each as high as its highest, piece by piece what the dice say.
    for (int trial = 0; trial < 2000; ++trial) {
      Measure y = 0;
      std::int64_t worth = 0;
      for (int row = 0; row < 4; ++row) {
        const auto k = static_cast<std::size_t>(dice.between(0, 5));
        const Measure high = job.kinds[k].height;
        if (y + high > 1900) break;
        Measure x = 0;
        for (int piece = 0; piece < 5; ++piece) {
          const auto j = piece == 0 ? k : static_cast<std::size_t>(dice.between(0, 5));
          if (job.kinds[j].height > high || x + job.kinds[j].width > 2000) continue;
          x += job.kinds[j].width + job.blade;
          worth += worths[j];
        }
        y += high + job.blade;
      }
      CHECK(worth <= most);
    }
    // And with limits that ask for more, it is worth the same: they are left out.
    job.sliver = 200;
    CHECK(BestSheet(job, 0).most(worths) == most);
  }
}
