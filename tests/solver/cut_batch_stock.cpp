// What batches are cut from: sheets that cost differently, paper left over, and what the work itself gives
// up.
#include "tests/catch.h"
#include "tests/solver/cut_batches.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::string sheet(const std::string& size, const std::string& keys) {
  return paper("moss", "sheet = \"" + size + "\"\n" + keys);
}

// Two to a letter sheet, one to a half, and two to a square of 12 in.
std::string bases(int cards) { return batch_of(cards) + base_of("moss"); }

}  // namespace

TEST_CASE("where a sheet states its cost the plan costs least, even with more sheets") {
  const std::string halves = sheet("8 1/2 x 5 1/2", "cost = 0.3\n");
  const CutBatch dear = cut_up(bases(4) + sheet("8 1/2 x 11", "cost = 0.75\n") + halves);
  CHECK(plan_of(dear, "moss").sheets == 4);
  CHECK(plan_of(dear, "moss").cost == part(6, 5));
  CHECK(plan_of(dear, "moss").cost_at_least == part(6, 5));
  CHECK(plan_of(dear, "moss").proven);
  const CutBatch cheap = cut_up(bases(4) + sheet("8 1/2 x 11", "cost = 0.55\n") + halves);
  CHECK(plan_of(cheap, "moss").sheets == 2);
  CHECK(plan_of(cheap, "moss").cost == part(11, 10));
}

TEST_CASE("of two plans that cost the same the one with fewer sheets is chosen") {
  const CutBatch cut =
      cut_up(bases(4) + sheet("8 1/2 x 5 1/2", "cost = 1\n") + sheet("8 1/2 x 11", "cost = 2\n"));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.cost == 4);
  CHECK(moss.sheets == 2);
  CHECK(moss.at_least == 2);
}

TEST_CASE("a sheet that states no cost where another does costs nothing") {
  const CutBatch cut =
      cut_up(bases(4) + sheet("8 1/2 x 11", "cost = 2\n") + sheet("8 1/2 x 5 1/2", "have = 2\n"));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.cost == 2);
  CHECK(moss.sheets == 3);
  CHECK(moss.proven);
}

TEST_CASE("cheap sheets are used up before dear ones are begun") {
  Batch batch(bases(7) + sheet("8 1/2 x 11", "cost = 1\nhave = 2\n") + sheet("12 x 12", "cost = 1.5\n"));
  batch.options.limit = 2;
  const CutBatch cut = cut_up(batch);
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.cost == 5);
  CHECK(moss.sheets == 4);
  int cheap = 0;
  for (const LaidSheet& laid : moss.plan) cheap += laid.sheet == 0 ? laid.times : 0;
  CHECK(cheap == 2);
}

TEST_CASE("costs too fine to be counted in steps of their own still give a true bound") {
  const CutBatch cut = cut_up(bases(5) + sheet("8 1/2 x 11", "cost = 12345.6789\n") +
                              sheet("8 1/2 x 5 1/2", "cost = 6172.83\n"));
  const PaperPlan& moss = plan_of(cut, "moss");
  REQUIRE(moss.cost);
  CHECK(*moss.cost == part(3086415, 100));  // five halves, each a hair cheaper than half a sheet
  CHECK(*moss.cost_at_least <= *moss.cost);
  CHECK(*moss.cost_at_least > 30800);
}

TEST_CASE("paper left over from an earlier job is used like any other, and counts as a sheet") {
  Batch batch(bases(5) + sheet("8 1/2 x 11", "have = 2\n"));
  batch.also("left.toml", sheet("9 x 6", "have = 1\n"));
  const CutBatch cut = cut_up(batch);
  CHECK(cut.verdict == CutVerdict::planned);
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 3);
  CHECK(moss.proven);
  CHECK(moss.plan.back().leftovers.size() == 2);
  CHECK(moss.stock[moss.plan.back().sheet].from == CutSheet::From::more);
}

TEST_CASE("the strips that cut-back fronts give up feed the greetings") {
  // Every strip is 1 x 5 1/2: two greetings each.
  const auto greetings = [](const std::string& back) {
    return batch_of(4) + base_of("moss") + back +
           layer("greeting", "inside", "paper = \"moss\"\nsize = \"1 x 2 3/4\"\n") + letters_of("moss");
  };
  const CutBatch with = cut_up(greetings("cut-back = \"1\"\n"));
  const PaperPlan& moss = plan_of(with, "moss");
  CHECK(moss.sheets == 2);
  CHECK(moss.proven);
  int strips = 0;
  for (const LaidSheet& laid : moss.plan) {
    if (moss.stock[laid.sheet].from == CutSheet::From::cut_back) strips += laid.times;
  }
  CHECK(strips == 2);
  const CutBatch without = cut_up(greetings(""));
  CHECK(plan_of(without, "moss").sheets == 3);
  CHECK(plan_of(without, "moss").proven);
}

TEST_CASE("what costs nothing because it came of the work costs nothing where sheets cost") {
  const CutBatch cut = cut_up(batch_of(4) + base_of("moss") + "cut-back = \"1\"\n" +
                              layer("greeting", "inside", "paper = \"moss\"\nsize = \"1 x 2 3/4\"\n") +
                              letters_of("moss", "cost = 0.4\n"));
  CHECK(plan_of(cut, "moss").cost == part(4, 5));
  CHECK(plan_of(cut, "moss").proven);
}

TEST_CASE("a card cut from leftovers alone") {
  Batch batch(bases(3) + sheet("8 1/2 x 11", "have = 0\n"));
  batch.also("left.toml", sheet("8 1/2 x 6", "have = 2\n") + sheet("9 x 9", "have = 1\n"));
  const CutBatch cut = cut_up(batch);
  CHECK(cut.verdict == CutVerdict::planned);
  CHECK(plan_of(cut, "moss").sheets == 3);
  CHECK(plan_of(cut, "moss").proven);
}

TEST_CASE("a sheet of which the grain runs the wrong way is not used for bases, but for layers") {
  const std::string grains = sheet("8 1/2 x 11", "have = 1\ngrain = \"short\"\n") +
                             sheet("11 x 8 1/2", "have = 2\ngrain = \"long\"\n");
  // The fold runs down the base's 5 1/2.
  Batch batch(batch_of(2) + base_of("moss") + layer_of("moss", "mat", "4 x 5 1/4") + grains);
  batch.along_the_grain();
  const CutBatch cut = cut_up(batch);
  CHECK(cut.verdict == CutVerdict::planned);
}

TEST_CASE("batches of all sorts are planned without a fault") {
  unsigned state = 7;
  const auto next = [&](unsigned below) {
    state = state * 1664525U + 1013904223U;
    return (state >> 16U) % below;
  };
  const auto eighths = [&](unsigned least, unsigned most) {
    const unsigned count = least + next(most - least + 1);
    return std::to_string(count) + "/8";
  };
  for (int round = 0; round < 24; ++round) {
    std::string text = batch_of(1 + static_cast<int>(next(9))) + base_of(next(2) == 0 ? "moss" : "ivory");
    if (next(2) == 0) text += "cut-back = \"" + eighths(6, 12) + "\"\n";
    const unsigned layers = 1 + next(3);
    for (unsigned i = 0; i < layers; ++i) {
      const std::string on = next(2) == 0 && i == 0 ? "back" : "inside";
      std::string stated = "paper = \"moss\"\nborder = \"at least 0\"\nsize = \"";
      stated += eighths(4, 10);
      stated += " x ";
      stated += eighths(4, 16);
      stated += next(3) == 0 ? "\"\ncut = \"by hand\"\n" : "\"\n";
      text += layer("layer " + std::to_string(i), on, stated);
    }
    std::string keys = next(4) == 0 ? "up = true\n" : "";
    if (next(3) == 0) keys += "trim-first = \"1/4\"\n";
    if (next(2) == 0) keys += "cost = 0.35\n";
    if (next(2) == 0) keys += "have = 3\n";
    text += letters_of("moss", keys);
    text += letters_of("ivory", next(2) == 0 ? "have = 2\n" : "");
    if (next(2) == 0) text += paper("moss", "sheet = \"12 x 9\"\nhave = 2\n");
    if (next(3) == 0) text += "[trimmer]\nblade-loss = \"1/32\"\n";
    INFO(text);
    Batch batch(text);
    batch.options.most = next(4) == 0;
    batch.options.limit = 1;
    cut_up(batch);
  }
}
