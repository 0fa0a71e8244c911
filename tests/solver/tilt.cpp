// The box of a tilted layer is never too small for it, and hardly too large.
#include "solver/tilt.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

long double inexact(const Rational& value) { return value.convert_to<long double>(); }

// What the floating point functions cannot tell apart.
constexpr long double blur = 1e-15L;
constexpr long double promised = 1e-12L;

void near_above(const Rational& bound, long double truth) {
  CHECK(inexact(bound) >= truth - blur);
  CHECK(inexact(bound) <= truth + promised + blur);
}

void near_above_both(const Rational& degrees) {
  INFO(fraction_text(degrees) << " degrees");
  const TiltBounds bounds = tilt_bounds(degrees);
  const long double angle = inexact(degrees) * std::numbers::pi_v<long double> / 180;
  near_above(bounds.cos, std::fabs(std::cos(angle)));
  near_above(bounds.sin, std::fabs(std::sin(angle)));
}

}  // namespace

TEST_CASE("a tilted box is bounded from above, by less than could be measured") {
  for (const int degrees : {0, 5, -5, 15, 30, 45, 60, 75, 85, 90, 95, 135, 180, 200, 270, 300, 360, 725}) {
    near_above_both(degrees);
  }
  near_above_both(part(719, 2));
  near_above_both(part(-719, 2));
  near_above_both(part(1, 1000));
  near_above_both(part(89999, 1000));
  for (int step = 1; step < 400; ++step) near_above_both(part(360 * step - 20000, 397));
}

TEST_CASE("square to the page, a box is exact") {
  for (const int half_turns : {-2, -1, 0, 1, 2, 3}) {
    CHECK(tilt_bounds(180 * half_turns).cos == 1);
    CHECK(tilt_bounds(180 * half_turns).sin == 0);
    CHECK(tilt_bounds(180 * half_turns + 90).cos == 0);
    CHECK(tilt_bounds(180 * half_turns + 90).sin == 1);
  }
}

TEST_CASE("what the square of a bound tells needs no floating point") {
  const Rational slack = part(3, 1'000'000'000'000);
  for (int degrees = 1; degrees < 90; ++degrees) {
    INFO(degrees);
    const auto [cos, sin] = tilt_bounds(degrees);
    CHECK(cos * cos + sin * sin >= 1);
    CHECK(cos * cos + sin * sin <= 1 + slack);
  }
  CHECK(tilt_bounds(30).sin >= part(1, 2));
  CHECK(2 * tilt_bounds(45).cos * tilt_bounds(45).cos >= 1);
  CHECK(4 * tilt_bounds(30).cos * tilt_bounds(30).cos >= 3);
}

TEST_CASE("a layer tilted left takes the room of one tilted right") {
  for (const int degrees : {1, 5, 30, 89}) {
    const TiltBounds right = tilt_bounds(degrees);
    for (const int same : {-degrees, 180 - degrees, 180 + degrees, 360 - degrees}) {
      CHECK(tilt_bounds(same).cos == right.cos);
      CHECK(tilt_bounds(same).sin == right.sin);
    }
    CHECK(tilt_bounds(90 - degrees).cos == right.sin);
  }
}
