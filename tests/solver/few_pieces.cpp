// What a few pieces cost at least, held against every plan there is.
#include "solver/cutting/few_pieces.h"

#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/every_cut.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::least_cost_of_few;

TEST_CASE("A few pieces cost no less than all plans of them, and as much where no limits are left out") {
  int known = 0;
  int exact = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.limits = seed % 2 == 0});
    INFO(seed << ": " << told(job));
    const auto bound = least_cost_of_few(job);
    if (!bound) continue;
    ++known;
    const auto least = EveryPlan(job).least_cost();
    if (least) CHECK(*bound <= *least);
    // A rest that is too narrow for the blade is a trim that is left out, too.
    if (job.sliver > 0 || job.longest > 0 || job.blade > 0) continue;
    ++exact;
    if (least) {
      CHECK(*bound == *least);
    } else {
      std::int64_t all = 0;
      for (const Sheet& one : job.sheets) all += one.cost * one.have.value_or(0);
      CHECK(*bound > all);
    }
  }
  CHECK(known > 300);
  CHECK(exact > 100);
}

TEST_CASE("Many pieces are too many to look at all that they can be cut from") {
  Job job{{sheet(100, 100)}, {}};
  for (int k = 1; k <= 12; ++k) job.kinds.push_back(pieces(50, 10 + k, 20 + k));
  CHECK_FALSE(least_cost_of_few(job));
}
