// The largest total of loose boxes in boxes: known values, and the prover's word on small nests.
#include "solver/search/nested_boxes.h"

#include <algorithm>

#include "solver/search/system_of.h"
#include "tests/bench/nest.h"
#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

void all_hold(const Rules& rules, const LargestTotal& found) {
  CHECK(found.total == total_of(rules).at(found.values));
  for (std::size_t i = 0; i < rules.rules.size(); ++i) {
    INFO("rule " << i);
    CHECK(holds(rules.rules[i], found.values));
  }
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    for (Variable v = 4 * i + 2; v < 4 * i + 4; ++v) CHECK(is_multiple(found.values[v], rules.mark));
  }
}

// The same rules with a total that must be above `total`.
bool more_is_possible(const Rules& rules, const Rational& total) {
  System system = system_of(rules);
  system.add(at_least(total_of(rules), total + rules.mark));
  Prover prover(60, 0);
  return possible(system, prover);
}

Rule rule_of(std::vector<std::vector<Relation>> choices) {
  Rule rule;
  rule.choices = std::move(choices);
  return rule;
}

Sum width(std::size_t i) { return Sum::of(variable(i, Measure::width)); }
Sum height(std::size_t i) { return Sum::of(variable(i, Measure::height)); }

Rules with(Rules rules, const Relation& relation) {
  rules.rules.push_back(rule_of({{relation}}));
  return rules;
}

}  // namespace

TEST_CASE("the largest totals of 12 and of 20 boxes") {
  const Rules twelve = nest(12);
  const auto of_twelve = largest_total(twelve);
  REQUIRE(of_twelve);
  CHECK(of_twelve->total == part(1155, 16));
  all_hold(twelve, *of_twelve);
  const Rules twenty = nest(20);
  const auto of_twenty = largest_total(twenty);
  REQUIRE(of_twenty);
  CHECK(of_twenty->total == part(1418, 16));
  all_hold(twenty, *of_twenty);
}

TEST_CASE("of few boxes the prover agrees that no total is larger") {
  for (std::size_t n = 1; n <= 5; ++n) {
    INFO(n << " boxes");
    const Rules rules = nest(n);
    const auto found = largest_total(rules);
    REQUIRE(found);
    all_hold(rules, *found);
    CHECK_FALSE(more_is_possible(rules, found->total));
    CHECK(more_is_possible(rules, found->total - rules.mark));
  }
}

TEST_CASE("one box in the front takes all but the border, two share one side") {
  CHECK(largest_total(nest(2))->total == part(39, 4) + 4 + part(21, 4));
  // Beside each other, or one below the other: 4 twice and 5 1/4 less a gap, or 5 1/4 twice and 4 less a gap.
  CHECK(largest_total(nest(3))->total == part(39, 4) + part(21, 2) + 4 - part(1, 16));
}

TEST_CASE("other least sizes: the prover agrees as well") {
  Dice dice(60);
  for (int round = 0; round < 12; ++round) {
    INFO("round " << round);
    Rules rules = nest(static_cast<std::size_t>(dice.between(3, 5)), 4);
    for (std::size_t i = 1; i < rules.rectangles.size(); ++i) {
      rules = with(rules, at_least(width(i), part(dice.between(4, 44), 16)));
      rules = with(rules, at_least(height(i), part(dice.between(4, 44), 16)));
    }
    const auto found = largest_total(rules);
    if (!found) {
      CHECK_FALSE(more_is_possible(rules, 0));
      continue;
    }
    all_hold(rules, *found);
    CHECK_FALSE(more_is_possible(rules, found->total));
  }
}

TEST_CASE("what does not fit has no total") {
  CHECK_FALSE(largest_total(with(nest(3), at_least(width(1), 4 + part(1, 16)))));
  const Rules both = with(with(nest(3), at_least(width(1), 3)), at_least(width(2), 3));
  CHECK(largest_total(both));  // one below the other
  CHECK_FALSE(largest_total(with(with(both, at_least(height(1), 3)), at_least(height(2), 3))));
}

TEST_CASE("rules of another kind are refused") {
  const Rules rules = nest(4);
  REQUIRE(largest_total(rules));
  SECTION("a ratio") { CHECK_FALSE(largest_total(with(rules, equals(width(1) * 3, height(1) * 4)))); }
  SECTION("a size that is most") { CHECK_FALSE(largest_total(with(rules, at_most(width(1), 2)))); }
  SECTION("a size that is stated") { CHECK_FALSE(largest_total(with(rules, equals(width(1), 2)))); }
  SECTION("two layers alike") { CHECK_FALSE(largest_total(with(rules, equals(width(1), width(2))))); }
  SECTION("a length between the marks") {
    CHECK_FALSE(largest_total(with(rules, at_least(width(1), part(1, 3)))));
  }
  SECTION("a tilt") {
    Rules tilted = rules;
    tilted.rectangles[2].box_cos = part(4, 5);
    tilted.rectangles[2].box_sin = part(3, 5);
    CHECK_FALSE(largest_total(tilted));
  }
  SECTION("a size that is exempt from the marks") {
    Rules exempt = rules;
    exempt.rectangles[2].width_on_marks = false;
    CHECK_FALSE(largest_total(exempt));
  }
  SECTION("a choice of fewer sides") {
    Rules fewer = rules;
    for (Rule& rule : fewer.rules) {
      if (rule.choices.size() == 4) rule.choices.pop_back();
    }
    CHECK_FALSE(largest_total(fewer));
  }
  SECTION("neighbours that may overlap") {
    Rules overlapping = rules;
    std::erase_if(overlapping.rules, [](const Rule& rule) { return rule.choices.size() == 4; });
    CHECK_FALSE(largest_total(overlapping));
  }
}

TEST_CASE("four boxes in one are dealt with, five are refused, for they may need no straight cut") {
  const Rules four = nest(5, 4);
  const auto found = largest_total(four);
  REQUIRE(found);
  all_hold(four, *found);
  CHECK_FALSE(largest_total(nest(6, 5)));
}
