// No answer depends on the prover's seed, on the order of the rules, or on names.
#include <algorithm>
#include <numeric>
#include <string>

#include "solver/search/choose.h"
#include "solver/size_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/random_cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// Cards with something loose on them, so that the prover has a say.
const std::vector<unsigned> handful = {18, 121, 169, 202};

// The same rules and aims told in another order, save where file order has a meaning.
Rules shuffled(const Rules& rules, unsigned seed) {
  Dice dice(seed);
  Rules other = rules;
  std::vector<std::size_t> order(rules.rules.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  dice.shuffle(order);
  std::vector<std::size_t> now(order.size());
  for (std::size_t place = 0; place < order.size(); ++place) {
    other.rules[place] = rules.rules[order[place]];
    now[order[place]] = place;
  }
  for (Separation& separation : other.separations) separation.rule = now[separation.rule];
  dice.shuffle(other.separations);
  std::vector<std::size_t> free;  // aims that may change places
  for (std::size_t i = 0; i < rules.aims.size(); ++i) {
    const Step step = rules.aims[i].step;
    if (step != Step::larger_first && step != Step::least_place) free.push_back(i);
  }
  std::vector<std::size_t> moved = free;
  dice.shuffle(moved);
  for (std::size_t i = 0; i < free.size(); ++i) other.aims[free[i]] = rules.aims[moved[i]];
  return other;
}

void same_answer(const Choosing& a, const Choosing& b) {
  CHECK(a.outcome == b.outcome);
  CHECK(a.values == b.values);
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

}  // namespace

TEST_CASE("twenty seeds of the prover, one answer") {
  for (const unsigned card : handful) {
    INFO(random_card(card));
    const Rules rules = rules_of(card_of(random_card(card)));
    const Choosing first = choose(rules, {.seed = 0});
    for (unsigned seed = 1; seed < 20; ++seed) same_answer(choose(rules, {.seed = seed}), first);
  }
}

TEST_CASE("twenty seeds of the prover, one answer, where it settles everything by itself") {
  const Rules rules = rules_of(card_of(random_card(47)));
  const Choosing first = choose(rules, {.seed = 0});
  for (unsigned seed = 0; seed < 20; ++seed) {
    same_answer(choose(rules, {.seed = seed, .shortcuts = false}), first);
  }
}

TEST_CASE("rules in any order, one answer") {
  for (const unsigned card : handful) {
    INFO(random_card(card));
    const Rules rules = rules_of(card_of(random_card(card)));
    const Choosing first = choose(rules, {});
    CHECK(first.outcome == Outcome::found);
    for (unsigned seed = 0; seed < 4; ++seed) same_answer(choose(shuffled(rules, seed), {}), first);
  }
}

TEST_CASE("of many small cards, the rules in any order, one answer") {
  for (unsigned card = 200; card < 240; ++card) {
    INFO("seed " << card << "\n" << random_card(card));
    const Rules rules = rules_of(card_of(random_card(card)));
    same_answer(choose(shuffled(rules, card), {}), choose(rules, {}));
  }
}

TEST_CASE("two names changed for each other change nothing but names") {
  for (unsigned card = 0; card < 30; ++card) {
    const std::string text = random_card(card);
    if (text.find("\"piece 2\"") == std::string::npos) continue;
    INFO(text);
    const std::string other =
        replaced(replaced(replaced(text, "piece 1", "neither"), "piece 2", "piece 1"), "neither", "piece 2");
    same_answer(choose(rules_of(card_of(other)), {}), choose(rules_of(card_of(text)), {}));
  }
}
