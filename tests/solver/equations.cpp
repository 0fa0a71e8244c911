// Elimination keeps every solution and notices every contradiction.
#include "solver/exact/equations.h"

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

constexpr int count = 12;

int alike(Variable) { return 0; }

Sum of(Variable v, const Rational& factor = 1) { return Sum::of(v, factor); }

// A few of the variables, in a sum that is 0 at the point.
Sum random_sum(Dice& dice, const std::vector<Rational>& point) {
  Sum sum;
  for (int terms = dice.between(1, 4); terms > 0; --terms) {
    sum +=
        of(static_cast<Variable>(dice.between(0, count - 1)), part(dice.between(-6, 6), dice.between(1, 4)));
  }
  return sum - sum.at(point);
}

std::vector<Rational> random_point(Dice& dice) {
  std::vector<Rational> point;
  for (int i = 0; i < count; ++i) point.push_back(part(dice.between(-40, 40), dice.between(1, 16)));
  return point;
}

}  // namespace

TEST_CASE("two equations in two sizes settle both") {
  Equations equations;
  CHECK(equations.add(of(0) + of(1) - Sum(7), alike));
  CHECK(equations.add(of(0) - of(1) - Sum(2), alike));
  CHECK(equations.reduce(of(0)).constant() == part(9, 2));
  CHECK(equations.reduce(of(1)).constant() == part(5, 2));
  CHECK(equations.reduce(of(0) + of(1) * 3).is_constant());
  CHECK(equations.size() == 2);
}

TEST_CASE("what says nothing new is taken, what contradicts is refused and leaves no trace") {
  Equations equations;
  REQUIRE(equations.add(of(0) + of(1) - Sum(7), alike));
  CHECK(equations.add(of(0) * 2 + of(1) * 2 - Sum(14), alike));
  CHECK(equations.size() == 1);
  CHECK_FALSE(equations.add(of(0) + of(1) - Sum(8), alike));
  CHECK(equations.size() == 1);
  CHECK(equations.add(of(0) - Sum(3), alike));
  CHECK(equations.reduce(of(1)).constant() == 4);
}

TEST_CASE("what is to be kept is solved for last") {
  const auto keep_first = [](Variable v) { return v == 0 ? 1 : 0; };
  Equations equations;
  REQUIRE(equations.add(of(0) + of(1) + of(2) - Sum(7), keep_first));
  CHECK(equations.solved(2) != nullptr);  // the later one, when equal
  REQUIRE(equations.add(of(0) - of(1), keep_first));
  CHECK(equations.solved(1) != nullptr);
  CHECK(equations.solved(0) == nullptr);
}

TEST_CASE("elimination keeps a known solution, whatever the equations") {
  Dice dice(20);
  for (int round = 0; round < 200; ++round) {
    const std::vector<Rational> point = random_point(dice);
    Equations equations;
    std::vector<Sum> told;
    for (int i = dice.between(1, count + 4); i > 0; --i) {
      told.push_back(random_sum(dice, point));
      REQUIRE(equations.add(told.back(), alike));
    }
    INFO("round " << round);
    for (const Sum& sum : told) {
      const Sum reduced = equations.reduce(sum);
      CHECK((reduced.is_constant() && reduced.constant() == 0));
    }
    for (Variable v = 0; v < count; ++v) {
      const Sum reduced = equations.reduce(of(v));
      CHECK(reduced.at(point) == point[v]);
      for (const Term& term : reduced.terms()) CHECK(equations.solved(term.variable) == nullptr);
    }
    const Sum any = random_sum(dice, random_point(dice));
    CHECK(equations.reduce(any).at(point) == any.at(point));
  }
}

TEST_CASE("a mixture of equations, off by something, is refused") {
  Dice dice(21);
  for (int round = 0; round < 200; ++round) {
    const std::vector<Rational> point = random_point(dice);
    Equations equations;
    Sum mixture;
    for (int i = dice.between(2, 8); i > 0; --i) {
      const Sum sum = random_sum(dice, point);
      REQUIRE(equations.add(sum, alike));
      mixture.add(sum, part(dice.between(-3, 3), dice.between(1, 3)));
    }
    const std::size_t before = equations.size();
    CHECK(equations.add(mixture, alike));
    CHECK_FALSE(equations.add(mixture + Sum(part(1, 1000)), alike));
    CHECK(equations.size() == before);
  }
}
