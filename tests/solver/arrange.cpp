// The best of all arrangements, against every placing that there is.
#include "solver/search/arrange.h"

#include "tests/catch.h"
#include "tests/solver/levels_by_trial.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const auto no_hurry = [] { return true; };

// One of two or three arcs, or pairs of them.
ArcChoice random_choice(Dice& dice, int places) {
  ArcChoice choice;
  for (int option = dice.between(2, 3); option > 0; --option) {
    choice.options.emplace_back();
    for (int i = dice.between(1, 2); i > 0; --i) {
      const int from = dice.between(0, places - 1);
      choice.options.back().push_back(
          {from, (from + dice.between(1, places - 1)) % places, dice.between(-1, 3), -1});
    }
  }
  return choice;
}

Arrangement random_arrangement(Dice& dice, Wide grid) {
  Arrangement made;
  made.places = dice.between(3, 4);
  made.arcs = random_arcs(dice, made.places, made.entries);
  made.grid = grid;
  for (int i = dice.between(0, 3); i > 0; --i) made.choices.push_back(random_choice(dice, made.places));
  return made;
}

template <typename Number>
bool chosen_hold(const Arrangement& made, const std::vector<Number>& at, const Number& unit) {
  return std::all_of(made.choices.begin(), made.choices.end(), [&](const ArcChoice& choice) {
    return std::any_of(choice.options.begin(), choice.options.end(), [&](const std::vector<Arc>& arcs) {
      return std::all_of(arcs.begin(), arcs.end(),
                         [&](const Arc& arc) { return beyond(arc, at, unit) >= 0; });
    });
  });
}

// The best levels of whole placings `fine` to a unit; empty if there is no placing.
std::vector<int> best_levels(const Arrangement& made, int fine) {
  std::vector<int> best;
  each_placing(made.places, 6 * fine, [&](const std::vector<int>& at) {
    const std::vector<int> levels = levels_at(made.arcs, at, fine);
    if (levels > best && chosen_hold(made, at, fine)) best = levels;
  });
  return best;
}

std::vector<Rational> parts(const std::vector<int>& levels, int fine) {
  std::vector<Rational> all;
  for (const int level : levels) all.push_back(part(level, fine));
  return all;
}

}  // namespace

TEST_CASE("on the marks, the arrangement found is the best of all") {
  Dice dice(50);
  int none = 0;
  for (int round = 0; round < 3000; ++round) {
    INFO("round " << round);
    const Arrangement made = random_arrangement(dice, 1);
    const auto found = arrange(made, std::nullopt, no_hurry);
    const std::vector<int> best = best_levels(made, 1);
    if (best.empty()) {
      CHECK_FALSE(found);
      ++none;
      continue;
    }
    REQUIRE(found);
    CHECK(found->levels == parts(best, 1));
    CHECK(levels_at(made.arcs, found->places, Rational(1)) == found->levels);
    CHECK(chosen_hold(made, found->places, Rational(1)));
  }
  CHECK(none > 10);
}

TEST_CASE("off the marks, the arrangement found holds, and no placing on fine marks is better") {
  Dice dice(51);
  for (int round = 0; round < 600; ++round) {
    INFO("round " << round);
    Arrangement made = random_arrangement(dice, 0);
    const int fine = made.places == 3 ? 12 : 4;
    const auto found = arrange(made, std::nullopt, no_hurry);
    const std::vector<int> best = best_levels(made, fine);
    CHECK(found.has_value() == !best.empty());
    if (best.empty() || !found) continue;
    CHECK(found->levels >= parts(best, fine));
    CHECK(levels_at(made.arcs, found->places, Rational(1)) == found->levels);
    CHECK(chosen_hold(made, found->places, Rational(1)));
  }
}

TEST_CASE("of arrangements that are as good, the one whose places come first") {
  Dice dice(52);
  for (int round = 0; round < 2000; ++round) {
    INFO("round " << round);
    Arrangement made = random_arrangement(dice, 1);
    made.grid = 0;
    for (int place = 1; place < made.places; ++place) made.least.push_back(place);
    // Spaces that are whole in the best arrangement: only entries of whole length from the origin.
    for (Arc& arc : made.arcs) {
      if (arc.entry >= 0) arc.from = 0;
      if (arc.entry >= 0 && arc.to == 0) arc.to = 1;
    }
    std::vector<int> best;
    std::vector<int> first;
    each_placing(made.places, 6, [&](const std::vector<int>& at) {
      const std::vector<int> levels = levels_at(made.arcs, at, 1);
      if (levels.empty() || levels < best || !chosen_hold(made, at, 1)) return;
      if (levels == best && at >= first) return;
      best = levels;
      first = at;
    });
    const auto found = arrange(made, std::nullopt, no_hurry);
    CHECK(found.has_value() == !best.empty());
    if (best.empty() || !found) continue;
    CHECK(found->levels == parts(best, 1));
    CHECK(found->places == parts(first, 1));
  }
}

TEST_CASE("where levels are given, an arrangement no worse is found if there is one") {
  Dice dice(53);
  for (int round = 0; round < 2000; ++round) {
    INFO("round " << round);
    const Arrangement made = random_arrangement(dice, 1);
    const std::vector<int> best = best_levels(made, 1);
    if (best.empty()) continue;
    const auto found = arrange(made, parts(best, 1), no_hurry);
    REQUIRE(found);
    CHECK(found->levels == parts(best, 1));
    std::vector<int> better = best;
    ++better.back();
    CHECK_FALSE(arrange(made, parts(better, 1), no_hurry));
    std::vector<int> worse = best;
    --worse.front();
    REQUIRE(arrange(made, parts(worse, 1), no_hurry));
    CHECK(arrange(made, parts(worse, 1), no_hurry)->levels >= parts(worse, 1));
  }
}

TEST_CASE("stopped half way, the best so far is told, and as proven only when it was all tried") {
  Dice dice(54);
  int unproven = 0;
  for (int round = 0; round < 1000; ++round) {
    INFO("round " << round);
    const Arrangement made = random_arrangement(dice, 1);
    const std::vector<int> best = best_levels(made, 1);
    bool proven = best.empty();
    for (int patience = 0; patience < 200 && !proven; ++patience) {
      int asked = 0;
      const auto found = arrange(made, std::nullopt, [&] { return asked++ < patience; });
      if (!found) continue;
      proven = found->proven;
      if (proven) CHECK(found->levels == parts(best, 1));
      if (!proven) ++unproven;
      CHECK(found->levels <= parts(best, 1));
      CHECK(levels_at(made.arcs, found->places, Rational(1)) == found->levels);
      CHECK(chosen_hold(made, found->places, Rational(1)));
    }
    CHECK(proven);
  }
  CHECK(unproven > 10);
}
