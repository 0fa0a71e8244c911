// What the paper of a batch comes to, against plans worked out by hand and against the whole cut plan of the
// same batch; and that it does not matter who asks first.
#include "solver/costs/paper_costs.h"

#include <algorithm>
#include <thread>

#include "solver/costs/costs.h"
#include "tests/catch.h"
#include "tests/solver/cut_batches.h"
#include "tests/solver/random_cards.h"

using namespace evenmat;
using namespace evenmat::testing;
using exploring::PaperBound;
using exploring::PaperCosts;

namespace {

std::chrono::steady_clock::time_point in_a_minute() {
  return std::chrono::steady_clock::now() + std::chrono::minutes(1);
}

std::string told(const PaperCost& cost) {
  std::string text = cost.paper + ": " + std::to_string(cost.sheets) + " sheets, at least " +
                     std::to_string(cost.at_least) + (cost.proven ? ", proven" : "");
  if (cost.missing > 0) text += ", " + std::to_string(cost.missing) + " missing";
  if (cost.never) text += ", never";
  if (cost.cost) text += ", cost " + fraction_text(*cost.cost);
  text += ", " + fraction_text(cost.piece_area) + " of " + fraction_text(cost.sheet_area);
  if (cost.cards_a_sheet) text += ", " + std::to_string(*cost.cards_a_sheet) + " a sheet";
  return text + (cost.trouble.empty() ? "" : ", trouble");
}

Told costs_of(const std::string& text) {
  const SizedText one(text);
  REQUIRE(one.sized.verdict == Verdict::buildable);
  PaperCosts costs(one.card, in_a_minute());
  Told all;
  for (const PaperCost& cost : costs.of(one.sized, true)) all.push_back(told(cost));
  return all;
}

std::vector<PaperBound> bounds_of(const std::string& text) {
  const SizedText one(text);
  PaperCosts costs(one.card, in_a_minute());
  return costs.at_least(one.sized);
}

std::string mats(int cards, const std::string& size, const std::string& keys) {
  return batch_of(cards) + bare_base + layer_of("fern", "mat", size) + letters_of("fern", keys);
}

// As a random card with papers, of which there is more or less enough.
std::string with_papers(unsigned seed) {
  Dice dice(seed + 1);
  std::string text = random_card(seed);
  const std::string more = dice.one_in(2) ? fmt::format("have = {}\n", dice.between(1, 6)) : "";
  const std::string price = dice.one_in(3) ? "cost = 0.35\n" : "";
  text += paper("moss",
                "sheet = \"" + std::string(dice.one_in(2) ? "us letter" : "iso A4") + "\"\n" + more + price);
  std::size_t at = 0;
  for (const std::string head : {"[[layer]]\n", "[base]\n"}) {
    at = 0;
    while ((at = text.find(head, at)) != std::string::npos) {
      at += head.size();
      text.insert(at, "paper = \"moss\"\n");
    }
  }
  return text;
}

}  // namespace

TEST_CASE("what the paper comes to is what the whole batch takes and what of it becomes pieces") {
  // Five of 3 x 5 1/4 to a letter sheet, as an exhaustive search of letters gives too.
  CHECK(costs_of(mats(11, "3 x 5 1/4", "have = 5\n")) ==
        Told{"fern: 3 sheets, at least 3, proven, 693/4 of 561/2, 5 a sheet"});
}

TEST_CASE("sheets that are missing are among those the batch takes") {
  CHECK(costs_of(mats(11, "3 x 5 1/4", "have = 1\n")) ==
        Told{"fern: 3 sheets, at least 3, proven, 2 missing, 693/4 of 561/2, 5 a sheet"});
}

TEST_CASE("a layer larger than every sheet never comes out of its paper") {
  const std::string text =
      batch_of(2) + bare_base + layer_of("fern", "mat", "4 x 5") + paper("fern", "sheet = \"3 x 11\"\n");
  CHECK(costs_of(text) == Told{"fern: 0 sheets, at least 0, never, 0 of 0, 0 a sheet"});
  CHECK(bounds_of(text).front().never);
}

TEST_CASE("spare cards are cut too and do not count as cards of a sheet") {
  CHECK(costs_of("spare = 2\n" + mats(9, "3 x 5 1/4", "")) ==
        Told{"fern: 3 sheets, at least 3, proven, 693/4 of 561/2, 5 a sheet"});
}

TEST_CASE("all pieces that one card wants of a paper are on the sheet before it counts as a card") {
  const std::string two =
      layer_of("fern", "mat", "3 x 5 1/4") + layer_of("fern", "band", "3 x 5 1/4", "over = [\"mat\"]\n");
  CHECK(costs_of(batch_of(1) + bare_base + two + letters_of("fern")) ==
        Told{"fern: 1 sheets, at least 1, proven, 63/2 of 187/2, 2 a sheet"});
}

TEST_CASE("cards of a sheet are not told where sheets are of two sizes or the card has a variant") {
  const std::string both = mats(4, "3 x 5 1/4", "have = 1\n");
  CHECK(costs_of(both + paper("fern", "sheet = \"6 x 6\"\nhave = 9\n")).front().find("a sheet") ==
        std::string::npos);
  CHECK(costs_of(both + "[[variant]]\nname = \"other\"\ncards = 2\n").front().find("a sheet") ==
        std::string::npos);
  CHECK(costs_of(both + "[[variant]]\nname = \"other\"\ncards = 4\n").front().find("5 a sheet") !=
        std::string::npos);
}

TEST_CASE("with costs stated the least cost counts and not the fewest sheets") {
  const std::string text = batch_of(5) + bare_base + layer_of("fern", "mat", "3 x 5 1/4") +
                           letters_of("fern", "cost = 2\n") +
                           paper("fern", "sheet = \"3 x 5 1/4\"\ncost = 0.25\n");
  CHECK(costs_of(text) == Told{"fern: 5 sheets, at least 5, proven, cost 5/4, 315/4 of 315/4"});
}

TEST_CASE("of two sizes that are not enough the further sheets of the one that wants fewest are told") {
  // A letter sheet gives five: two more of those do beside the one there is, or eleven more of the small
  // size.
  const std::string text =
      mats(12, "3 x 5 1/4", "have = 1\n") + paper("fern", "sheet = \"3 x 5 1/4\"\nhave = 1\n");
  CHECK(costs_of(text) == Told{"fern: 3 sheets, at least 3, proven, 2 missing, 189 of 561/2"});
}

TEST_CASE("pieces that come out of the work's own offcuts are no part of what a sheet becomes") {
  const std::string base =
      "[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\ncut-back = \"1\"\npaper = \"moss\"\n";
  const std::string text = batch_of(2) + base + layer_of("moss", "band", "7/8 x 5") + letters_of("moss");
  CHECK(costs_of(text) == Told{"moss: 1 sheets, at least 1, proven, 187/2 of 187/2"});
  CHECK(bounds_of(text).front() == PaperBound{"moss", false, 0, 1, 0});  // for the bases
}

TEST_CASE("the cost of a batch is what its cut plan says wherever both are proven") {
  int compared = 0;
  for (unsigned seed = 0; seed < 50; ++seed) {
    const std::string text = with_papers(seed);
    const SizedText one(text);
    if (one.sized.verdict != Verdict::buildable) continue;
    const std::vector<BatchCard> cards{{"", &one.card, &one.sized}};
    if (!mistakes_in_batch(cards, {}, {}).empty()) continue;
    INFO(text);
    PaperCosts costs(one.card, in_a_minute());
    const CutBatch cut = cut_batch(cards, {}, {});
    const std::vector<PaperCost> papers = costs.of(one.sized);
    REQUIRE(papers.size() == 1);
    const PaperPlan& plan = plan_of(cut, "moss");
    const PaperCost& told = papers.front();
    if (cut.verdict == CutVerdict::planned) {
      CHECK(told.missing == 0);
      CHECK(told.at_least <= plan.sheets);
      CHECK(told.sheets >= plan.at_least);
      CHECK(told.piece_area <= told.sheet_area);
      if (told.proven && plan.proven) CHECK((told.sheets == plan.sheets && told.cost == plan.cost));
    } else if (cut.verdict == CutVerdict::short_of_paper && !plan.missing.front().too_large) {
      CHECK(told.missing >= plan.missing.front().at_least);
      if (plan.missing.front().at_least == plan.missing.front().sheets && told.proven)
        CHECK(told.missing == plan.missing.front().sheets);
    }
    ++compared;
  }
  CHECK(compared > 25);
}

TEST_CASE("no card with larger pieces takes less than the bound of the smallest") {
  for (unsigned seed = 0; seed < 60; ++seed) {
    Dice dice(seed);
    const int width = dice.between(20, 60);
    const int height = dice.between(20, 60);
    const std::string keys = dice.one_in(2) ? "have = 3\n" : "cost = 0.2\n";
    const std::string trimmer =
        dice.one_in(2)
            ? ""
            : fmt::format("[trimmer]\nblade-loss = \"1/{}\"\nlongest = \"9\"\n", 8 * dice.between(1, 4));
    const auto text = [&](int w, int h) {
      return mats(17, fmt::format("{}/16 x {}/16", w, h), keys) + trimmer;
    };
    const PaperBound bound = bounds_of(text(width, height)).front();
    for (int i = 0; i < 6; ++i) {
      const SizedText larger(text(width + dice.between(0, 6), height + dice.between(0, 6)));
      PaperCosts costs(larger.card, in_a_minute());
      const PaperCost cost = costs.of(larger.sized).front();
      INFO(text(width, height) << larger.size("mat"));
      if (cost.never) continue;
      CHECK_FALSE(bound.never);
      CHECK(cost.sheets >= bound.sheets);
      CHECK(cost.missing >= bound.missing);
      CHECK(cost.cost.value_or(0) >= bound.cost);
    }
  }
}

TEST_CASE("costs of many sizes are the same whoever asks first") {
  const std::string text = "spare = 1\n" + batch_of(12) + base_of("moss") + layer_of("fern", "mat", "3 x 5") +
                           layer_of("moss", "panel", "2 3/4 x 4 1/2", "over = [\"mat\"]\n") +
                           letters_of("moss", "have = 12\n") + letters_of("fern", "have = 3\n");
  const SizedText one(text);
  std::vector<SizedCard> sizes;
  for (int i = 0; i < 24; ++i) {
    SizedCard& sized = sizes.emplace_back(one.sized);
    sized.versions.front().pieces[0].width += part(i % 6, 16);
    sized.versions.front().pieces[1].height -= part(i / 6, 16);
  }
  const auto ask = [&](PaperCosts& costs, std::size_t which) {
    Told all;
    for (const PaperCost& cost : costs.of(sizes[which], true)) all.push_back(told(cost));
    return all;
  };
  PaperCosts alone(one.card, in_a_minute());
  std::vector<Told> in_order;
  for (std::size_t i = 0; i < sizes.size(); ++i) in_order.push_back(ask(alone, i));
  PaperCosts shared(one.card, in_a_minute());
  std::vector<Told> upwards(sizes.size());
  std::vector<Told> downwards(sizes.size());
  std::thread other([&] {
    for (std::size_t i = sizes.size(); i-- > 0;) downwards[i] = ask(shared, i);
  });
  for (std::size_t i = 0; i < sizes.size(); ++i) upwards[i] = ask(shared, i);
  other.join();
  CHECK(upwards == in_order);
  CHECK(downwards == in_order);
  CHECK(std::adjacent_find(in_order.begin(), in_order.end(), std::not_equal_to<>()) != in_order.end());
}

TEST_CASE("a card's figures are those of its mats and panels in the versions that are made") {
  const SizedText one(batch_of(4) + "[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\npaper = \"moss\"\n" +
                      layer("mat", "front", "role = \"mat\"\nborder = \"1/8\"\npaper = \"moss\"\n") +
                      layer("panel", "mat", "role = \"panel\"\nborder = \"1/16\"\npaper = \"moss\"\n") +
                      layer("words", "panel", "size = \"2 x 1\"\nfrom-left = \"1/32\"\npaper = \"moss\"\n") +
                      letters_of("moss", "thickness = \"0.01\"\n"));
  PaperCosts paper_costs(one.card, in_a_minute());
  const Costs costs = exploring::costs_of(one.sized, paper_costs.of(one.sized));
  CHECK(costs.border == part(1, 16));
  CHECK(costs.seen == 1 - 2 / (part(31, 8) * part(41, 8)));
  CHECK(costs.thickness == part(5, 100));
  CHECK(costs.enough);
  CHECK(costs.sheets == costs.papers.front().sheets);
  CHECK(costs.waste == 1 - costs.papers.front().piece_area / costs.papers.front().sheet_area);
}
