// In which order a batch is cut where the work itself gives paper to cut from.
#include "tests/catch.h"
#include "tests/solver/cut_batches.h"

using namespace evenmat;
using namespace evenmat::testing;

TEST_CASE("strips of a cut-back are cut after the bases they come off, whatever setting they share") {
  // Sheets of 8 x 12 want a setting of 4 for the other card, and so do the strips for their tags.
  const std::string strips =
      "cards = 4\n[base]\nfold = \"side\"\nfront = \"4 x 5\"\ncut-back = \"1 1/2\"\npaper = \"moss\"\n" +
      layer("tag", "inside", "size = \"1 1/2 x 4\"\npaper = \"moss\"\n") +
      paper("moss", "sheet = \"8 x 10\"\nhave = 2\n") + paper("moss", "sheet = \"8 x 12\"\nhave = 2\n");
  Batch batch({strips, "cards = 6\n[base]\nfold = \"flat\"\nfront = \"8 x 4\"\npaper = \"moss\"\n"});
  const CutBatch cut = cut_up(batch);
  const PaperPlan& moss = plan_of(cut, "moss");
  std::size_t last_of_sheets = 0;
  std::size_t first_of_offcuts = moss.steps.size() + 1;
  for (const CutStep& step : moss.steps) {
    for (const SheetWork& work : step.works) {
      if (moss.stock[moss.plan[work.laid].sheet].is_offcut()) {
        first_of_offcuts = std::min(first_of_offcuts, step.number);
      } else {
        last_of_sheets = step.number;
      }
    }
  }
  REQUIRE(first_of_offcuts <= moss.steps.size());
  CHECK(last_of_sheets < first_of_offcuts);
}
