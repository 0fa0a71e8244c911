// Every point of a grid that satisfies its relations, against trying all.
#include "solver/explore/walk.h"

#include "tests/catch.h"
#include "tests/solver/dice.h"

namespace evenmat::exploring {
namespace {

using evenmat::testing::Dice;

struct Problem {
  std::vector<Axis> axes;
  std::vector<AxisSum> lines;
};

Problem problem(unsigned seed) {
  Dice dice(seed);
  Problem made;
  const int axes = dice.between(1, 4);
  for (int i = 0; i < axes; ++i) {
    Axis axis;
    Rational value(dice.between(-6, 6), 16);
    for (int n = dice.between(1, 6); n > 0; --n) {
      axis.values.push_back(value);
      value += Rational(dice.between(1, 3), 16);
    }
    made.axes.push_back(std::move(axis));
  }
  for (int n = dice.between(0, 4); n > 0; --n) {
    AxisSum line;
    for (int i = 0; i < axes; ++i) line.factors.emplace_back(dice.between(-2, 2), dice.between(1, 3));
    line.constant = Rational(dice.between(-8, 4), 7);
    made.lines.push_back(std::move(line));
  }
  return made;
}

bool holds(const Problem& problem, const Place& place) {
  return std::all_of(problem.lines.begin(), problem.lines.end(), [&](const AxisSum& line) {
    Rational sum = line.constant;
    for (std::size_t i = 0; i < place.size(); ++i) sum += line.factors[i] * problem.axes[i].values[place[i]];
    return sum <= 0;
  });
}

// All places, the first axis moving slowest.
std::vector<Place> every_place(const std::vector<Axis>& axes) {
  std::vector<Place> places{{}};
  for (const Axis& axis : axes) {
    std::vector<Place> longer;
    for (const Place& place : places) {
      for (std::size_t i = 0; i < axis.values.size(); ++i) {
        longer.push_back(place);
        longer.back().push_back(i);
      }
    }
    places = std::move(longer);
  }
  return places;
}

TEST_CASE("a walk visits every point that satisfies its relations once and in order") {
  std::size_t visited = 0;
  for (unsigned seed = 0; seed < 300; ++seed) {
    const Problem made = problem(seed);
    std::vector<Place> wanted;
    for (const Place& place : every_place(made.axes)) {
      if (holds(made, place)) wanted.push_back(place);
    }
    const auto walk = Walk::over(made.axes, made.lines);
    REQUIRE(walk);
    std::vector<Place> found;
    walk->each(walk->all(), [&](const Place& place) {
      found.push_back(place);
      return true;
    });
    INFO(seed);
    CHECK(found == wanted);
    visited += found.size();
  }
  CHECK(visited > 1000);
}

TEST_CASE("a walk ends when its visitor has seen enough, and asks its tests as soon as it can") {
  const Axis axis{{0, 1, 2, 3}};
  auto walk = Walk::over({axis, axis}, {});
  REQUIRE(walk);
  std::size_t asked = 0;
  walk->add({0, [&](const Place& place) {
               ++asked;
               return place[0] % 2 == 1;
             }});
  std::vector<Place> found;
  walk->each(walk->all(), [&](const Place& place) {
    found.push_back(place);
    return found.size() < 5;
  });
  CHECK(found == std::vector<Place>{{1, 0}, {1, 1}, {1, 2}, {1, 3}, {3, 0}});
  CHECK(asked == 4);
}

TEST_CASE("numbers too fine for whole ones of 128 bits are refused and not rounded") {
  const Rational fine = Rational(1) / (Integer(1) << 120);
  CHECK_FALSE(Walk::over({Axis{{Rational(1, 3), 1}}}, {AxisSum{{fine}, -1}}));
}

}  // namespace
}  // namespace evenmat::exploring
