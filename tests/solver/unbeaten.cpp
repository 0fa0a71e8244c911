// Which of several cards no other beats, against comparing each with each by the words of the promise.
#include "solver/costs/unbeaten.h"

#include <algorithm>

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;
using exploring::order;
using exploring::unbeaten;

namespace {

Costs costs_of(int fern, int moss) {
  Costs costs;
  for (const auto& [name, sheets] : {std::pair("fern", fern), std::pair("moss", moss)}) {
    PaperCost paper;
    paper.paper = name;
    paper.sheets = sheets;
    costs.papers.push_back(paper);
  }
  costs.sheets = fern + moss;
  return costs;
}

using Places = std::vector<std::size_t>;

bool beats(const Costs& a, const Costs& b) {
  bool better = false;
  bool worse = false;
  const auto count = [&](const Rational& of_a, const Rational& of_b) {
    better = better || of_a < of_b;
    worse = worse || of_a > of_b;
  };
  for (std::size_t i = 0; i < a.papers.size(); ++i) count(a.papers[i].sheets, b.papers[i].sheets);
  count(a.missing, b.missing);
  count(*a.cost, *b.cost);
  count(*a.waste, *b.waste);
  count(-*a.border, -*b.border);
  count(-*a.seen, -*b.seen);
  count(*a.thickness, *b.thickness);
  return better && !worse;
}

Costs random_costs(Dice& dice) {
  Costs costs = costs_of(dice.between(1, 3), dice.between(1, 3));
  costs.missing = dice.between(0, 1);
  costs.cost = part(dice.between(1, 3), 4);
  costs.waste = part(dice.between(1, 5), 9);
  costs.border = part(dice.between(1, 4), 16);
  costs.seen = part(dice.between(1, 3), 7);
  costs.thickness = part(dice.between(1, 2), 100);
  return costs;
}

}  // namespace

TEST_CASE("a card that takes more of one paper and less of another is not beaten") {
  CHECK(unbeaten({costs_of(2, 3), costs_of(3, 2), costs_of(3, 3)}) == std::vector<bool>{true, true, false});
}

TEST_CASE("of two cards with the same figures neither beats the other") {
  CHECK(unbeaten({costs_of(2, 3), costs_of(2, 3)}) == std::vector<bool>{true, true});
}

TEST_CASE("a card with a wider border and more to see is not beaten by one that is thinner") {
  Costs wide = costs_of(2, 2);
  wide.border = part(1, 4);
  wide.seen = part(1, 2);
  wide.thickness = part(1, 10);
  Costs thin = costs_of(2, 2);
  thin.border = part(1, 8);
  thin.seen = part(1, 3);
  thin.thickness = part(1, 20);
  CHECK(unbeaten({wide, thin}) == std::vector<bool>{true, true});
  thin.thickness = part(1, 10);
  CHECK(unbeaten({wide, thin}) == std::vector<bool>{true, false});
}

TEST_CASE("a card that cannot be cut at all does not beat by taking no sheets") {
  Costs never = costs_of(0, 1);
  never.papers.front().never = true;
  CHECK(unbeaten({never, costs_of(7, 1)}) == std::vector<bool>{false, true});
  CHECK(order(Best::sheets, {never, costs_of(7, 1)}) == Places{1, 0});
}

TEST_CASE("the unbeaten cards are those that comparing each with each leaves") {
  Dice dice(5);
  for (int round = 0; round < 200; ++round) {
    std::vector<Costs> all;
    for (int i = dice.between(1, 30); i > 0; --i) all.push_back(random_costs(dice));
    std::vector<bool> expected;
    for (const Costs& one : all) {
      expected.push_back(
          std::none_of(all.begin(), all.end(), [&](const Costs& other) { return beats(other, one); }));
    }
    CHECK(unbeaten(all) == expected);
  }
}

TEST_CASE("cards stand in order of what is asked for and equal ones as they came") {
  std::vector<Costs> all{costs_of(3, 1), costs_of(1, 1), costs_of(2, 2), costs_of(1, 1)};
  CHECK(order(Best::sheets, all) == Places{1, 3, 0, 2});
  all[2].border = part(1, 8);
  all[0].border = part(1, 4);
  CHECK(order(Best::border, all) == Places{0, 2, 1, 3});
  all[3].waste = part(1, 3);
  all[1].waste = part(1, 2);
  CHECK(order(Best::waste, all) == Places{3, 1, 0, 2});
}
