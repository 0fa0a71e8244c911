// Narrower trims than the trimmer's: where they would save sheets that is told, and what is told holds.
#include <fmt/format.h>

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/cut_batches.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// Postcards of iso A6; `keys` are those of their paper, iso A4.
std::string postcards(int cards, const std::string& keys = {}, const std::string& sliver = {}) {
  return "unit = \"mm\"\n" + batch_of(cards) +
         "[base]\nfold = \"flat\"\nfront = \"iso A6\"\npaper = \"moss\"\n" +
         paper("moss", "sheet = \"iso A4\"\n" + keys) +
         (sliver.empty() ? "" : "[trimmer]\nsliver = \"" + sliver + "\"\n");
}

}  // namespace

TEST_CASE(
    "two A6 cards one above the other leave 1 mm of A4: that so narrow a trim would save sheets is told") {
  const PaperPlan moss = plan_of(cut_up(postcards(12)), "moss");
  CHECK(moss.sheets == 4);
  REQUIRE(moss.with_narrower_trims);
  CHECK(moss.with_narrower_trims->sheets == 3);
  CHECK(moss.with_narrower_trims->sliver == 1);
  // And so it is.
  const PaperPlan narrower = plan_of(cut_up(postcards(12, "", "1")), "moss");
  CHECK(narrower.sheets == 3);
  CHECK_FALSE(narrower.with_narrower_trims);
}

TEST_CASE("where it would save none, narrower trims are not spoken of") {
  CHECK_FALSE(plan_of(cut_up(postcards(3)), "moss").with_narrower_trims);
  CHECK_FALSE(plan_of(cut_up(postcards(12, "", "0")), "moss").with_narrower_trims);
  const CutBatch halves = cut_up(batch_of(10) + base_of("moss") + letters_of("moss"));
  CHECK_FALSE(plan_of(halves, "moss").with_narrower_trims);
}

TEST_CASE("a batch that is short of paper is told how few sheets would do with narrower trims") {
  for (const int have : {2, 3}) {
    const CutBatch cut = cut_up(postcards(12, "have = " + std::to_string(have) + "\n"));
    CHECK(cut.verdict == CutVerdict::short_of_paper);
    const PaperPlan& moss = plan_of(cut, "moss");
    REQUIRE(moss.with_narrower_trims);
    CHECK(moss.with_narrower_trims->sheets == 3);
    CHECK(moss.with_narrower_trims->sliver == 1);
  }
}

TEST_CASE("with two sizes of sheets narrower trims are told where what there is would do") {
  const std::string small = paper("moss", "sheet = \"50 x 50\"\nhave = 1\n");
  const PaperPlan enough = plan_of(cut_up(postcards(12) + small), "moss");
  CHECK(enough.sheets == 4);
  REQUIRE(enough.with_narrower_trims);
  CHECK(enough.with_narrower_trims->sheets == 3);
  const CutBatch lacking = cut_up(postcards(12, "have = 3\n") + small);
  CHECK(lacking.verdict == CutVerdict::short_of_paper);
  REQUIRE(plan_of(lacking, "moss").with_narrower_trims);
  CHECK(plan_of(lacking, "moss").with_narrower_trims->sheets == 3);
}

TEST_CASE("whatever trim is named, stating it gives a plan with no more sheets than are promised") {
  int told = 0;
  for (int width = 33; width < 48; ++width) {
    const std::string card =
        fmt::format("{}[base]\nfold = \"flat\"\nfront = \"{}/16 x 3 11/16\"\npaper = \"moss\"\n{}[trimmer]\n",
                    batch_of(20), width, letters_of("moss"));
    for (const std::string loss : {"blade-loss = 0\n", "blade-loss = \"1/32\"\n"}) {
      const PaperPlan moss = plan_of(cut_up(fmt::format("{}{}sliver = \"3/4\"\n", card, loss)), "moss");
      if (!moss.with_narrower_trims) continue;
      ++told;
      INFO(width);
      CHECK(moss.with_narrower_trims->sheets < moss.sheets);
      const std::string stated = fraction_text(moss.with_narrower_trims->sliver);
      CHECK(plan_of(cut_up(fmt::format("{}{}sliver = \"{}\"\n", card, loss, stated)), "moss").sheets <=
            moss.with_narrower_trims->sheets);
    }
  }
  CHECK(told > 3);
}
