// One open size or place, against every value on fine marks.
#include "solver/search/one_variable.h"

#include <algorithm>

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

constexpr int fine = 60;  // where sums of small slopes cross: halves to sixths

struct One {
  System system{1, 1};
  Block block;
  int low = 0;
  int high = 0;
  bool whole = false;

  One(Dice& dice, bool on_marks) : low(dice.between(0, 3)), high(low + dice.between(1, 6)), whole(on_marks) {
    if (whole) system.set_whole(0);
    system.add(at_least(Sum::of(0), Sum(low)));
    system.add(at_most(Sum::of(0), Sum(high)));
    REQUIRE(system.settle());
    block = system.split({}).front();
  }

  [[nodiscard]] std::vector<Rational> values() const {
    const int step = whole ? fine : 1;
    std::vector<Rational> all;
    for (int at = low * fine; at <= high * fine; at += step) all.push_back(part(at, fine));
    return all;
  }
};

std::vector<Sum> random_sums(Dice& dice, int most) {
  std::vector<Sum> sums;
  for (int i = dice.between(1, most); i > 0; --i) {
    sums.push_back(Sum::of(0, dice.any_of<int>({-3, -2, -1, 1, 2, 3})) + Sum(part(dice.between(-18, 18), 2)));
  }
  return sums;
}

Rational distance(const std::vector<Sum>& sums, const Rational& at) {
  Rational total = 0;
  for (const Sum& sum : sums) total += abs(sum.at({at}));
  return total;
}

std::vector<Rational> rank(const std::vector<Sum>& raised, const std::vector<Sum>& in_order,
                           const Rational& at) {
  std::vector<Rational> found;
  for (const Sum& sum : raised) found.push_back(sum.at({at}));
  std::sort(found.begin(), found.end());
  for (const Sum& sum : in_order) found.push_back(sum.at({at}));
  return found;
}

}  // namespace

TEST_CASE("nearest to what is wished for: both ends of the values that are best") {
  Dice dice(70);
  for (int round = 0; round < 600; ++round) {
    INFO("round " << round);
    const One one(dice, dice.one_in(2));
    REQUIRE(is_interval(one.block));
    const std::vector<Sum> sums = random_sums(dice, 4);
    const Interval best = nearest_zero(one.system, one.block, sums);
    REQUIRE((best.low && best.high));
    CHECK(distance(sums, *best.low) == distance(sums, *best.high));
    if (one.whole) CHECK((is_multiple(*best.low, 1) && is_multiple(*best.high, 1)));
    bool least = true;
    bool all = true;
    for (const Rational& at : one.values()) {
      const bool in = *best.low <= at && at <= *best.high;
      const Rational here = distance(sums, at);
      least = least && here >= distance(sums, *best.low);
      all = all && in == (here == distance(sums, *best.low));
    }
    CHECK(least);
    CHECK(all);
  }
}

TEST_CASE("the smallest raised, then the next: no value on fine marks is better") {
  Dice dice(71);
  for (int round = 0; round < 600; ++round) {
    INFO("round " << round);
    const One one(dice, dice.one_in(2));
    const std::vector<Sum> raised = random_sums(dice, 4);
    const std::vector<Sum> in_order = random_sums(dice, 2);
    const auto best = raised_highest(one.system, one.block, raised, in_order);
    REQUIRE(best);
    CHECK((one.low <= *best && *best <= one.high));
    if (one.whole) CHECK(is_multiple(*best, 1));
    const std::vector<Rational> reached = rank(raised, in_order, *best);
    bool highest = true;
    for (const Rational& at : one.values()) highest = highest && rank(raised, in_order, at) <= reached;
    CHECK(highest);
  }
}

TEST_CASE("an open size between two marks takes the better of the two") {
  System system(1, 1);
  system.set_whole(0);
  system.add(at_least(Sum::of(0), 0));
  system.add(at_most(Sum::of(0), 9));
  REQUIRE(system.settle());
  const Block block = system.split({}).front();
  const auto near = [&](const Rational& wish) {
    return nearest_zero(system, block, {Sum::of(0) - Sum(wish)});
  };
  CHECK(near(part(17, 4)).low == Rational(4));
  CHECK(near(part(19, 4)).low == Rational(5));
  CHECK(near(part(9, 2)).low == Rational(4));  // as near as 5, and both are left
  CHECK(near(part(9, 2)).high == Rational(5));
}
