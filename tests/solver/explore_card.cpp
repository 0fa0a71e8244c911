// Which of the cards within a card's wishes are shown, in which order, and what is said of them all.
#include "solver/explore_card.h"

#include <algorithm>
#include <string>
#include <vector>

#include "solver/cut_batch.h"
#include "tests/catch.h"
#include "tests/solver/sized.h"

namespace evenmat {
namespace {

using testing::card_of;
using testing::layer;

const std::string front = "mark = \"1/16\"\n[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n";

std::string sheets(const std::string& name, const std::string& more = "") {
  return "[[paper]]\nname = \"" + name + "\"\nsheet = \"8 1/2 x 11\"\n" + more;
}

// A mat and a print of papers of their own, the mat's border and the print's open: 28 cards.
std::string two_papers(const std::string& cards = "12") {
  return "cards = " + cards + "\n" + front +
         layer("mat", "front", "role = \"mat\"\nborder = \"1/16 to 1/4\"\npaper = \"slate\"\n") +
         layer("print", "mat", "role = \"panel\"\nborder = \"1/16 to 7/16\"\npaper = \"fern\"\n") +
         sheets("slate") + sheets("fern", "thickness = \"1/100\"\n");
}

std::vector<std::string> amounts_of(const ExploredCard& explored) {
  std::vector<std::string> all;
  for (const Alternative& alternative : explored.alternatives) {
    std::string one;
    for (const Rational& amount : alternative.amounts)
      one += (one.empty() ? "" : " ") + fraction_text(amount);
    all.push_back(one);
  }
  return all;
}

ExploreOptions showing(std::size_t count) {
  ExploreOptions options;
  options.show = count;
  return options;
}

using Strings = std::vector<std::string>;

TEST_CASE("few cards are all shown by their amounts and the card as sized is among them") {
  const Card card = card_of(front + layer("clay mat", "front", "border = \"1/16 to 1/4\"\n"));
  const ExploredCard explored = explore_card(card, {});
  CHECK(explored.verdict == Verdict::buildable);
  CHECK(explored.count == 4);
  CHECK(explored.complete);
  CHECK(amounts_of(explored) == Strings{"1/16", "1/8", "3/16", "1/4"});
  CHECK(explored.alternatives[1].as_sized);
  CHECK_FALSE(explored.alternatives[0].as_sized);
  REQUIRE(explored.open.size() == 1);
  CHECK(explored.open.front().least == Rational(1, 16));
  CHECK(explored.open.front().most == Rational(1, 4));
}

TEST_CASE("of many cards those farthest apart are shown never two alike") {
  const Card card = card_of(two_papers());
  const ExploredCard all = explore_card(card, showing(0));
  CHECK(all.count == 28);
  CHECK(all.alternatives.size() == 28);
  const ExploredCard some = explore_card(card, showing(4));
  CHECK(some.count == 28);
  CHECK(some.compared == 28);
  const Strings shown = amounts_of(some);
  // The card as sized, then the one that differs most from it in all its sizes and amounts, and so on.
  CHECK(std::find(shown.begin(), shown.end(), "1/8 1/16") != shown.end());
  CHECK(std::find(shown.begin(), shown.end(), "1/4 7/16") != shown.end());
  CHECK(std::is_sorted(some.alternatives.begin(), some.alternatives.end(),
                       [](const Alternative& a, const Alternative& b) { return a.amounts < b.amounts; }));
  for (std::size_t i = 1; i < shown.size(); ++i) CHECK(shown[i] != shown[i - 1]);
  CHECK(shown.size() == 4);
}

TEST_CASE("more cards than are counted are told to be more") {
  std::string layers;
  std::string on = "front";
  for (const char* name : {"a", "b", "c", "d", "e"}) {
    layers += layer(name, on, "border = \"1/16 to 5/16\"\n");
    on = name;
  }
  const ExploredCard explored =
      explore_card(card_of("mark = \"1/32\"\n" + front.substr(front.find("[base]")) + layers), {});
  CHECK_FALSE(explored.complete);
  CHECK(explored.count == most_counted);
  CHECK(explored.alternatives.size() == 8);
  CHECK(explored.compared == 8);
  // The ends of every amount are known all the same.
  for (const OpenAmount& open : explored.open) {
    CHECK(open.least == Rational(1, 16));
    CHECK(open.most == Rational(5, 16));
  }
}

TEST_CASE("each card costs what cutting its batch costs") {
  const Card card = card_of(two_papers());
  const ExploredCard all = explore_card(card, showing(0));
  for (std::size_t i = 0; i < all.alternatives.size(); i += 3) {
    const Alternative& one = all.alternatives[i];
    const CutBatch cut = cut_batch({{"", &card, &one.sized}}, {}, {});
    REQUIRE(cut.papers.size() == one.costs.papers.size());
    for (std::size_t p = 0; p < cut.papers.size(); ++p) {
      CHECK(one.costs.papers[p].paper == cut.papers[p].paper);
      CHECK(one.costs.papers[p].sheets == cut.papers[p].sheets);
      CHECK(one.costs.papers[p].proven == cut.papers[p].proven);
    }
  }
}

TEST_CASE("the best by a count comes first and no card listed has a better one") {
  const Card card = card_of(two_papers());
  const ExploredCard all = explore_card(card, showing(0));
  const auto least = [&](const auto& figure) {
    auto best = figure(all.alternatives.front().costs);
    for (const Alternative& one : all.alternatives) best = std::min(best, figure(one.costs));
    return best;
  };
  ExploreOptions options = showing(3);
  options.best = Best::sheets;
  CHECK(explore_card(card, options).alternatives.front().costs.sheets ==
        least([](const Costs& costs) { return costs.sheets; }));
  options.best = Best::waste;
  const ExploredCard by_waste = explore_card(card, options);
  CHECK(by_waste.alternatives.size() == 3);
  CHECK(*by_waste.alternatives.front().costs.waste == least([](const Costs& costs) { return *costs.waste; }));
  CHECK(*by_waste.alternatives[0].costs.waste <= *by_waste.alternatives[1].costs.waste);
  options.best = Best::border;
  CHECK(explore_card(card, options).alternatives.front().costs.border == Rational(1, 4));
}

TEST_CASE("an unbeaten card is beaten by none of those listed and every other by one") {
  const ExploredCard all = explore_card(card_of(two_papers()), showing(0));
  const auto beats = [](const Costs& a, const Costs& b) {
    // Each count so that less is better.
    const auto counts = [](const Costs& costs) {
      std::vector<Rational> figures;
      for (const PaperCost& paper : costs.papers) figures.emplace_back(paper.sheets);
      figures.insert(figures.end(), {*costs.waste, -*costs.border, -*costs.seen});
      return figures;
    };
    const std::vector<Rational> left = counts(a);
    const std::vector<Rational> right = counts(b);
    bool better = false;
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (left[i] > right[i]) return false;
      better = better || left[i] < right[i];
    }
    return better;
  };
  std::size_t unbeaten = 0;
  for (const Alternative& one : all.alternatives) {
    const bool beaten = std::any_of(all.alternatives.begin(), all.alternatives.end(),
                                    [&](const Alternative& other) { return beats(other.costs, one.costs); });
    CHECK(one.unbeaten != beaten);
    unbeaten += one.unbeaten ? 1 : 0;
  }
  CHECK(unbeaten > 0);
  CHECK(unbeaten < all.alternatives.size());
}

TEST_CASE("a sweep holds one amount at each of its values and leaves the rest to the choosing order") {
  const Card card = card_of(two_papers());
  ExploreOptions options;
  options.sweep = {"mat", "border"};
  const ExploredCard swept = explore_card(card, options);
  CHECK(amounts_of(swept) == Strings{"1/16", "1/8", "3/16", "1/4"});
  for (const Alternative& row : swept.alternatives) {
    // The print keeps the usual border of a layer on a layer.
    const auto& pieces = row.sized.versions.front().pieces;
    CHECK(pieces[1].from_left == Rational(1, 16));
    CHECK(pieces[0].from_left == row.amounts.front());
    REQUIRE(row.costs.papers.size() == 2);
    CHECK(row.costs.papers.front().cards_a_sheet);
  }
  // Jumps are what differs from one row to the next, and nothing else.
  std::size_t jumps = 0;
  for (std::size_t row = 1; row < swept.alternatives.size(); ++row) {
    for (std::size_t p = 0; p < 2; ++p) {
      const PaperCost& before = swept.alternatives[row - 1].costs.papers[p];
      const PaperCost& now = swept.alternatives[row].costs.papers[p];
      if (now.sheets == before.sheets && now.cards_a_sheet == before.cards_a_sheet) continue;
      REQUIRE(jumps < swept.jumps.size());
      CHECK(swept.jumps[jumps].row == row);
      CHECK(swept.jumps[jumps].paper == now.paper);
      CHECK(swept.jumps[jumps].sheets == now.sheets - before.sheets);
      ++jumps;
    }
  }
  CHECK(jumps == swept.jumps.size());
  CHECK(jumps > 0);
}

TEST_CASE("a sweep of a border that differs from side to side tells only cards with it alike on all sides") {
  // 4 x 5 in a front of 4 1/4 x 5 1/2: 1/8 and 1/4.
  const std::string layers = layer("mat", "front", "size = \"4 x 5\"\n") + layer("print", "mat");
  const Card open = card_of(front + layers);
  ExploreOptions options;
  options.sweep = {"print", "border"};
  for (const Alternative& row : explore_card(open, options).alternatives) {
    const PlacedPiece& print = row.sized.versions.front().pieces[1];
    for (const Rational& side : {print.from_left, print.from_right, print.from_top, print.from_bottom})
      CHECK(side == row.amounts.front());
  }
  options.sweep = {"mat", "width"};
  const ExploredCard settled = explore_card(open, options);
  CHECK(settled.open.empty());
  CHECK_FALSE(settled.nothing_open.empty());
}

TEST_CASE("cards are handed on in the order in which they are shown each with its costs") {
  ExploreOptions options = showing(8);
  std::vector<std::vector<Rational>> told;
  options.found = [&](const ExploredCard& so_far, std::size_t which) {
    CHECK(which == told.size());
    CHECK(so_far.alternatives[which].costs.papers.size() == 2);
    CHECK(so_far.count == 28);
    told.push_back(so_far.alternatives[which].amounts);
  };
  const ExploredCard explored = explore_card(card_of(two_papers()), options);
  REQUIRE(told.size() == explored.alternatives.size());
  for (std::size_t i = 0; i < told.size(); ++i) CHECK(told[i] == explored.alternatives[i].amounts);
}

TEST_CASE("the same card is explored alike every time whatever core does what") {
  const Card card = card_of(two_papers());
  const ExploredCard once = explore_card(card, showing(6));
  for (int again = 0; again < 5; ++again) {
    const ExploredCard other = explore_card(card, showing(6));
    CHECK(amounts_of(other) == amounts_of(once));
    for (std::size_t i = 0; i < once.alternatives.size(); ++i) {
      CHECK(other.alternatives[i].unbeaten == once.alternatives[i].unbeaten);
      CHECK(other.alternatives[i].costs.sheets == once.alternatives[i].costs.sheets);
      CHECK(other.alternatives[i].sized.lengths == once.alternatives[i].sized.lengths);
    }
  }
}

TEST_CASE("a card that cannot be built has no others") {
  const ExploredCard explored =
      explore_card(card_of(front + layer("mat", "front", "size = \"5 x 5\"\n")), {});
  CHECK(explored.verdict == Verdict::conflict);
  CHECK(explored.alternatives.empty());
}

TEST_CASE("when time is short the card as sized is shown all the same") {
  ExploreOptions options = showing(0);
  options.limit = 0.02;
  const ExploredCard explored = explore_card(card_of(two_papers("400")), options);
  if (explored.verdict == Verdict::buildable) {
    CHECK(std::any_of(explored.alternatives.begin(), explored.alternatives.end(),
                      [](const Alternative& one) { return one.as_sized; }));
    CHECK(explored.time_ran_out == (explored.alternatives.size() < 28));
  }
}

TEST_CASE("a print behind a window is seen as far as the window shows it") {
  // 2 x 2 seen of 2 1/2 x 2 1/2.
  const Card card = card_of(
      front + "[[window]]\nname = \"pane\"\nin = \"front\"\nsize = \"2 x 2\"\nfrom-left = \"1 to 1 1/4\"\n" +
      layer("print", "pane", "role = \"panel\"\nsize = \"2 1/2 x 2 1/2\"\ntuck = \"1/4\"\n"));
  const ExploredCard explored = explore_card(card, {});
  REQUIRE(explored.alternatives.size() > 1);
  for (const Alternative& one : explored.alternatives) CHECK(one.costs.seen == Rational(16, 25));
}

TEST_CASE("papers that cannot be counted leave the sizes and say why") {
  const Card card = card_of(front + layer("mat", "front", "border = \"1/16 to 1/4\"\npaper = \"slate\"\n") +
                            "[[paper]]\nname = \"slate\"\n");
  const ExploredCard explored = explore_card(card, {});
  CHECK(explored.count == 4);
  CHECK(explored.no_costs.size() == 1);
  CHECK(explored.alternatives.front().costs.papers.empty());
}

}  // namespace
}  // namespace evenmat
