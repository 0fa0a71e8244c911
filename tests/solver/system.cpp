// Rules made ready for the search allow exactly what they allowed before.
#include "solver/exact/system.h"

#include <algorithm>

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

Sum of(Variable v, const Rational& factor = 1) { return Sum::of(v, factor); }

bool holds_whole(const std::vector<Relation>& relations, const std::vector<Rational>& values) {
  return std::all_of(relations.begin(), relations.end(),
                     [&](const Relation& relation) { return holds(relation, values); });
}

bool holds_some(const OpenChoice& choice, const std::vector<Rational>& values) {
  return std::any_of(choice.options.begin(), choice.options.end(),
                     [&](const Option& option) { return holds_whole(option.relations, values); });
}

// Rules over three sizes from 0 to 4, the first two on marks of 1.
struct Small {
  static constexpr Variable count = 3;
  std::vector<Relation> relations;
  std::vector<OpenChoice> choices;

  [[nodiscard]] System system() const {
    System made(1, count);
    made.set_whole(0);
    made.set_whole(1);
    for (const Relation& relation : relations) made.add(relation);
    for (const OpenChoice& choice : choices) made.add(choice);
    return made;
  }
  [[nodiscard]] bool allows(const std::vector<Rational>& values) const {
    return holds_whole(relations, values) &&
           std::all_of(choices.begin(), choices.end(),
                       [&](const OpenChoice& choice) { return holds_some(choice, values); });
  }
};

Relation random_relation(Dice& dice, int equal_in) {
  Sum sum(part(dice.between(-12, 12), 2));
  for (int terms = dice.between(1, 3); terms > 0; --terms) {
    sum += of(static_cast<Variable>(dice.between(0, 2)), dice.any_of<int>({-2, -1, -1, 1, 1, 2}));
  }
  return {sum, dice.one_in(equal_in)};
}

Small random_small(Dice& dice) {
  Small small;
  for (Variable v = 0; v < Small::count; ++v) {
    small.relations.push_back(at_least(of(v), 0));
    small.relations.push_back(at_most(of(v), 4));
  }
  for (int i = dice.between(1, 3); i > 0; --i) small.relations.push_back(random_relation(dice, 4));
  for (int i = dice.between(0, 3); i > 0; --i) {
    OpenChoice choice;
    choice.rule = static_cast<std::size_t>(i);
    for (std::size_t option = 0; option < 3; ++option) {
      choice.options.push_back({{random_relation(dice, 6)}, option});
      if (dice.one_in(3)) choice.options.back().relations.push_back(random_relation(dice, 6));
    }
    small.choices.push_back(std::move(choice));
  }
  return small;
}

// Every point on the marks, the third size on half marks as well.
template <typename Use>
void each_point(Use use) {
  for (int a = 0; a <= 4; ++a) {
    for (int b = 0; b <= 4; ++b) {
      for (int c = 0; c <= 8; ++c) use(std::vector<Rational>{a, b, part(c, 2)});
    }
  }
}

// What is left of the rules once they are ready.
bool ready_allows(const System& system, const std::vector<Block>& blocks,
                  const std::vector<Rational>& values) {
  for (Variable v = 0; v < Small::count; ++v) {
    if (system.reduce(of(v)).at(values) != values[v]) return false;
  }
  return std::all_of(blocks.begin(), blocks.end(), [&](const Block& block) {
    return holds_whole(block.relations, values) &&
           std::all_of(block.choices.begin(), block.choices.end(),
                       [&](const OpenChoice& choice) { return holds_some(choice, values); }) &&
           std::all_of(block.whole.begin(), block.whole.end(),
                       [&](const Sum& sum) { return is_multiple(sum.at(values), 1); });
  });
}

}  // namespace

TEST_CASE("made ready, rules allow the same points as before") {
  Dice dice(30);
  int possible = 0;
  int impossible = 0;
  for (int round = 0; round < 400; ++round) {
    const Small small = random_small(dice);
    System system = small.system();
    const bool settled = system.settle();
    const std::vector<Block> blocks = settled ? system.split({}) : std::vector<Block>{};
    (settled ? possible : impossible)++;
    bool same = true;
    bool bounded = true;
    each_point([&](const std::vector<Rational>& values) {
      const bool before = small.allows(values);
      same = same && before == (settled && ready_allows(system, blocks, values));
      for (Variable v = 0; before && settled && v < Small::count; ++v) {
        const Interval range = system.range(system.reduce(of(v)));
        bounded =
            bounded && (!range.low || *range.low <= values[v]) && (!range.high || values[v] <= *range.high);
      }
    });
    INFO("round " << round);
    CHECK(same);
    CHECK(bounded);
  }
  CHECK(possible > 50);
  CHECK(impossible > 50);
}

TEST_CASE("the option that is told as the only one left is the one that every card takes") {
  Dice dice(31);
  int decided = 0;
  for (int round = 0; round < 1000; ++round) {
    const Small small = random_small(dice);
    System system = small.system();
    if (!system.settle()) continue;
    for (const OpenChoice& choice : small.choices) {
      const auto only = system.decided(*choice.rule);
      if (!only) continue;
      ++decided;
      bool taken = true;
      each_point([&](const std::vector<Rational>& values) {
        taken = taken && (!small.allows(values) || holds_whole(choice.options[*only].relations, values));
      });
      CHECK(taken);
    }
  }
  CHECK(decided > 20);
}

TEST_CASE("a cut size that its rules put between the marks cannot be") {
  System system(part(1, 16), 2);
  system.set_whole(0);
  system.add(equals(of(0) + of(1), 3));
  system.add(equals(of(1), part(1, 3)));
  CHECK_FALSE(system.settle());
}

TEST_CASE("bounds of a cut size are its outermost marks") {
  System system(part(1, 8), 1);
  system.set_whole(0);
  system.add(at_least(of(0), part(1, 3)));
  system.add(at_most(of(0), part(9, 10)));
  REQUIRE(system.settle());
  CHECK(system.bound(0).low == part(3, 8));
  CHECK(system.bound(0).high == part(7, 8));
}

TEST_CASE("rules that share nothing come apart, unless they are asked to stay together") {
  System system(1, 4);
  for (Variable v = 0; v < 4; ++v) {
    system.add(at_least(of(v), 0));
    system.add(at_most(of(v), 9));
  }
  system.add(at_most(of(0) + of(1), 5));
  REQUIRE(system.settle());
  CHECK(system.split({}).size() == 3);
  const std::vector<Block> blocks = system.split({of(3) - of(1), of(2), Sum(7)});
  REQUIRE(blocks.size() == 2);
  CHECK(blocks[0].variables == std::vector<Variable>{0, 1, 3});
  CHECK(blocks[0].aim_of == std::vector<std::size_t>{0});
  CHECK(blocks[1].aim_of == std::vector<std::size_t>{1});
}

TEST_CASE("a choice taken out is no longer asked for") {
  System system(1, 1);
  system.add(at_least(of(0), 0));
  system.add(at_most(of(0), 9));
  system.add(OpenChoice{{{{equals(of(0), 2)}, 0}, {{equals(of(0), 5)}, 1}}, 7});
  REQUIRE(system.settle());
  CHECK(system.choices().size() == 1);
  CHECK_FALSE(system.take_choice(6));
  CHECK(system.take_choice(7)->options.size() == 2);
  CHECK(system.choices().empty());
}
