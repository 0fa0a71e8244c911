// What is chosen: by exact shortcuts or by the prover alone, the same.
#include "solver/search/choose.h"

#include <string>

#include "solver/size_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/random_cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

struct Count {
  int built = 0;
  int impossible = 0;
  int undecided = 0;
};

// Everything settled without the prover where it can be, against everything proven.
void compare(unsigned first, unsigned last, Count& count) {
  for (unsigned seed = first; seed <= last; ++seed) {
    const std::string text = random_card(seed);
    INFO("seed " << seed << "\n" << text);
    const Rules rules = rules_of(card_of(text));
    const Choosing quick = choose(rules, {.limit = 20});
    const Choosing proven = choose(rules, {.limit = 20, .shortcuts = false});
    if (quick.outcome == Outcome::out_of_time || proven.outcome == Outcome::out_of_time) {
      ++count.undecided;
      continue;
    }
    REQUIRE(quick.outcome == proven.outcome);
    ++(quick.outcome == Outcome::found ? count.built : count.impossible);
    for (Variable v = 0; v < proven.values.size(); ++v) {
      INFO("variable " << v % 4 << " of " << rules.rectangles[v / 4].name);
      CHECK(quick.values[v] == proven.values[v]);
    }
    for (const Rule& rule : rules.rules) {
      INFO(rule.says);
      CHECK((proven.values.empty() || holds(rule, proven.values)));
    }
  }
}

void compare_fifty(unsigned first) {
  Count count;
  compare(first, first + 49, count);
  CHECK(count.undecided <= 1);  // under three in a hundred
  CHECK(count.built >= 25);     // else there is little to compare
  CHECK(count.impossible >= 1);
}

}  // namespace

// In parts, to be run beside each other.
TEST_CASE("the exact shortcuts and the prover choose the same: cards 0 to 49") { compare_fifty(0); }
TEST_CASE("the exact shortcuts and the prover choose the same: cards 50 to 99") { compare_fifty(50); }
TEST_CASE("the exact shortcuts and the prover choose the same: cards 100 to 149") { compare_fifty(100); }
TEST_CASE("the exact shortcuts and the prover choose the same: cards 150 to 199") { compare_fifty(150); }
