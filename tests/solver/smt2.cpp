// Rules written down for other solvers: all of them, and nothing but them.
#include <algorithm>

#include "solver/size_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/random_cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

std::size_t sizes_on_marks(const Rules& rules) {
  std::size_t count = 0;
  for (const Rectangle& rectangle : rules.rectangles) {
    count += (rectangle.width_on_marks ? 1U : 0U) + (rectangle.height_on_marks ? 1U : 0U);
  }
  return count;
}

}  // namespace

TEST_CASE("every rule is written once, every choice of it, and the question last") {
  for (unsigned seed = 0; seed < 40; ++seed) {
    INFO("seed " << seed);
    const Rules rules = rules_of(card_of(random_card(seed)));
    const std::string text = smt2_text(rules);
    CHECK(text.starts_with("(set-logic QF_LIRA)\n"));
    CHECK(text.ends_with("\n(check-sat)\n"));
    CHECK(times(text, "(assert (or false ") == rules.rules.size());
    CHECK(times(text, "(assert ") == rules.rules.size() + sizes_on_marks(rules));
    CHECK(times(text, " Int)\n") == sizes_on_marks(rules));
    CHECK(times(text, " Real)") == rules.variables());
    std::size_t choices = 0;
    for (const Rule& rule : rules.rules) choices += rule.choices.size();
    CHECK(times(text, "(and true") == choices);
    CHECK(times(text, "(") == times(text, ")"));
  }
}

TEST_CASE("numbers are written exactly, below nothing as well") {
  Rules rules;
  rules.mark = part(1, 16);
  rules.rectangles.resize(1);
  Rule rule;
  rule.choices = {{at_most(Sum::of(2, part(-2, 3)), 7)}, {equals(Sum::of(0), part(1, 2))}};
  rules.rules.push_back(rule);
  const std::string text = smt2_text(rules);
  CHECK(text.find("(assert (or false (and true (<= (+ (- 7.0) (* (- (/ 2.0 3.0)) v2)) 0.0)) "
                  "(and true (= (+ (- (/ 1.0 2.0)) (* 1.0 v0)) 0.0))))\n") != std::string::npos);
}

TEST_CASE("preferences are left out") {
  Rules rules = rules_of(card_of(random_card(1)));
  const std::string text = smt2_text(rules);
  rules.aims.clear();
  rules.separations.clear();
  CHECK(smt2_text(rules) == text);
}

TEST_CASE("names in a card cannot reach beyond their line") {
  const std::string text = smt2_text(rules_of(
      card_of(side_fold + "[[layer]]\nname = \"x\\n(assert false)\"\non = \"front\"\nsize = \"1 x 1\"\n")));
  CHECK(text.find("(assert false)") == std::string::npos);
}
