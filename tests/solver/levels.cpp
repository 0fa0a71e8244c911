// Levels found by following circles of arcs, against every placing that there is.
#include "solver/search/levels.h"

#include "tests/catch.h"
#include "tests/solver/levels_by_trial.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

using Kind = Levels::Step::Kind;

// The first level that all entries can have, by trial of whole places `fine` to a unit.
std::optional<int> common_level(const std::vector<Arc>& arcs, int places, int fine) {
  std::optional<int> best;
  each_placing(places, 6 * fine, [&](const std::vector<int>& at) {
    const std::vector<int> levels = levels_at(arcs, at, fine);
    if (!levels.empty()) best = std::max(best.value_or(levels.front()), levels.front());
  });
  return best;
}

}  // namespace

TEST_CASE("one layer in a room lies in its middle") {
  // Its left edge, 4 wide in a room of 9: both spaces are 5/2.
  Levels levels(2, 2, 1, 0);
  levels.add({0, 1, 0, 0});
  levels.add({1, 0, 4 - 9, 1});
  const Levels::Step step = levels.next();
  CHECK(step.kind == Kind::raised);
  CHECK(step.level == part(5, 2));
  CHECK(step.entries.size() == 2);
  CHECK(levels.next().kind == Kind::free);
  REQUIRE(levels.least_places());
  CHECK(levels.least_places()->at(1) == part(5, 2));
}

TEST_CASE("a layer that is kept off the middle has the narrow space first, then the wide one") {
  Levels levels(2, 2, 1, 0);
  levels.add({0, 1, 0, 0});
  levels.add({1, 0, 4 - 9, 1});
  levels.add({1, 0, -1, -1});  // at most 1 from the left
  const Levels::Step narrow = levels.next();
  CHECK(narrow.kind == Kind::raised);
  CHECK(narrow.level == 1);
  CHECK(narrow.entries == std::vector<int>{0});
  const Levels::Step wide = levels.next();
  CHECK(wide.kind == Kind::raised);
  CHECK(wide.level == 4);
  CHECK(wide.entries == std::vector<int>{1});
}

TEST_CASE("more than the room holds is impossible") {
  Levels levels(3, 1, 1, 0);
  levels.add({0, 1, 4, -1});
  levels.add({1, 2, 4, -1});
  levels.add({2, 0, -7, -1});
  CHECK(levels.next().kind == Kind::impossible);
  CHECK_FALSE(levels.footing(std::nullopt));
  levels.add({0, 1, 0, 0});  // a space to be raised mends nothing
  CHECK(levels.next().kind == Kind::impossible);
}

TEST_CASE("what nothing holds back is free") {
  Levels levels(2, 1, 1, 0);
  levels.add({0, 1, 3, 0});
  CHECK(levels.next().kind == Kind::free);
}

TEST_CASE("two sizes that share an odd number of marks trade one off") {
  Levels levels(3, 2, 16, 1);  // marks of 1/16
  levels.add({0, 1, 0, 0});
  levels.add({1, 2, 0, 1});
  levels.add({2, 0, -7, -1});
  const Levels::Step step = levels.next();
  CHECK(step.kind == Kind::trade_off);
  CHECK(step.level == part(3, 16));
  CHECK(step.entries.size() == 2);
  CHECK(step.above == 1);
  levels.hold(0, part(3, 16));
  const Levels::Step rest = levels.next();
  CHECK(rest.kind == Kind::raised);
  CHECK(rest.level == part(4, 16));
}

TEST_CASE("three sizes that share eight marks: two of them can have three") {
  Levels levels(4, 3, 1, 1);
  for (int i = 0; i < 3; ++i) levels.add({i, i + 1, 0, i});
  levels.add({3, 0, -8, -1});
  const Levels::Step step = levels.next();
  CHECK(step.kind == Kind::trade_off);
  CHECK(step.level == 2);
  CHECK(step.above == 2);
}

TEST_CASE("an even number of marks is shared evenly") {
  Levels levels(3, 2, 1, 1);
  levels.add({0, 1, 0, 0});
  levels.add({1, 2, 0, 1});
  levels.add({2, 0, -8, -1});
  const Levels::Step step = levels.next();
  CHECK(step.kind == Kind::raised);
  CHECK(step.level == 4);
  CHECK(step.entries.size() == 2);
}

TEST_CASE("the first level is the highest that all entries can have at once") {
  Dice dice(40);
  constexpr int fine = 12;  // circles of at most four places: halves, thirds and quarters are whole
  int impossible = 0;
  for (int round = 0; round < 600; ++round) {
    INFO("round " << round);
    const int places = dice.between(2, 3);
    int entries = 0;
    const std::vector<Arc> arcs = random_arcs(dice, places, entries);
    Levels levels(places, entries, 1, 0);
    for (const Arc& arc : arcs) levels.add(arc);
    const Levels::Step step = levels.next();
    const auto best = common_level(arcs, places, fine);
    if (!best) {
      CHECK(step.kind == Kind::impossible);
      ++impossible;
      continue;
    }
    REQUIRE(step.kind == Kind::raised);
    CHECK(step.level == part(*best, fine));
    CHECK_FALSE(step.entries.empty());
  }
  CHECK(impossible > 5);
}

TEST_CASE("on a grid the first level is the highest multiple, four places") {
  Dice dice(41);
  for (int round = 0; round < 600; ++round) {
    INFO("round " << round);
    int entries = 0;
    const std::vector<Arc> arcs = random_arcs(dice, 4, entries);
    Levels levels(4, entries, 8, 1);
    for (const Arc& arc : arcs) levels.add(arc);
    const Levels::Step step = levels.next();
    const auto best = common_level(arcs, 4, 1);
    CHECK((step.kind == Kind::impossible) == !best);
    if (!best) continue;
    REQUIRE((step.kind == Kind::raised || step.kind == Kind::trade_off));
    CHECK(step.level == part(*best, 8));
    CHECK(is_multiple(step.level, part(1, 8)));
  }
}

TEST_CASE("entries settled by a level cannot be above it, and those traded off can, one at a time") {
  Dice dice(42);
  int traded = 0;
  for (int round = 0; round < 1000; ++round) {
    INFO("round " << round);
    const int places = dice.between(3, 4);
    int entries = 0;
    const std::vector<Arc> arcs = random_arcs(dice, places, entries);
    Levels levels(places, entries, 1, 1);
    for (const Arc& arc : arcs) levels.add(arc);
    const Levels::Step step = levels.next();
    if (step.kind != Kind::raised && step.kind != Kind::trade_off) continue;
    const int level = static_cast<int>(floor(step.level));
    std::vector<bool> above(static_cast<std::size_t>(entries), false);
    std::size_t most = 0;
    each_placing(places, 6, [&](const std::vector<int>& at) {
      const std::vector<int> now = levels_at(arcs, at, 1);
      if (now.empty() || now.front() < level) return;
      std::size_t count = 0;
      for (const Arc& arc : arcs) {
        if (arc.entry < 0 || beyond(arc, at, 1) <= level) continue;
        above[static_cast<std::size_t>(arc.entry)] = true;
        if (std::find(step.entries.begin(), step.entries.end(), arc.entry) != step.entries.end()) ++count;
      }
      most = std::max(most, count);
    });
    for (const int entry : step.entries) {
      CHECK(above[static_cast<std::size_t>(entry)] == (step.kind == Kind::trade_off));
    }
    if (step.kind == Kind::trade_off) {
      ++traded;
      CHECK(most < step.entries.size());
      CHECK(most <= static_cast<std::size_t>(step.above));
    }
  }
  CHECK(traded > 10);
}

TEST_CASE("a footing bears more arcs exactly when a placing with them is left") {
  Dice dice(43);
  int borne = 0;
  int refused = 0;
  for (int round = 0; round < 1000; ++round) {
    INFO("round " << round);
    int entries = 0;
    std::vector<Arc> arcs = random_arcs(dice, 4, entries);
    Levels levels(4, entries, 1, 0);
    for (const Arc& arc : arcs) levels.add(arc);
    const int level = dice.between(-2, 2);
    const auto footing = levels.footing(Rational(level));
    const auto least = [&] { return common_level(arcs, 4, 1); };
    CHECK(footing.has_value() == (least().has_value() && *least() >= level));
    if (!footing) continue;
    std::vector<Arc> more;
    for (int i = dice.between(1, 2); i > 0; --i) {
      const int from = dice.between(0, 3);
      more.push_back({from, (from + dice.between(1, 3)) % 4, dice.between(-2, 4), -1});
    }
    const bool bears = footing->bears(levels.for_footing(more, Rational(level)));
    arcs.insert(arcs.end(), more.begin(), more.end());
    CHECK(bears == (least().has_value() && *least() >= level));
    (bears ? borne : refused)++;
  }
  CHECK(borne > 20);
  CHECK(refused > 20);
}

TEST_CASE("lengths too fine for whole numbers are refused, not rounded") {
  const Rational fine = part(1, 1) / Rational(Integer(1) << 100);
  CHECK_THROWS_AS(wide_of(fine, Integer(1) << 100 << 90), TooFine);
  CHECK(integer_of(wide_of(part(-7, 16), 16)) == -7);
  const Integer large = (Integer(1) << 88) + 5;
  CHECK(integer_of(wide_of(Rational(large), 1)) == large);
  CHECK(integer_of(wide_of(Rational(-large), 1)) == -large);
}
