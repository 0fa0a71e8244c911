// The Taylor series of cosine at an angle rounded towards the side where cosine is larger: partial sums
// that end on a positive term bound it from above (alternating series, terms falling from the second on
// for angles up to a right angle). Sine is the cosine of the complement.
#include "solver/tilt.h"

namespace evenmat {
namespace {

// pi lies between these (its first 40 digits, from memory).
const char* const pi_below =
    "3141592653589793238462643383279502884197/1000000000000000000000000000000000000000";

// An upper bound of cos for 0 < degrees < 90.
Rational cos_above(const Rational& degrees) {
  const Rational x = degrees * Rational(pi_below) / 180;  // a little small, where cosine is larger
  Rational term = 1;
  Rational total = 1;
  for (int n = 2; n <= 40; n += 2) {
    term *= -(x * x) / (n * (n - 1));
    total += term;
  }
  return round_up(total, Rational(1, Integer("1000000000000")));
}

}  // namespace

TiltBounds tilt_bounds(const Rational& degrees) {
  Rational turned = degrees - round_down(degrees, 180);  // |cos| and |sin| repeat each half turn
  if (turned > 90) turned = 180 - turned;
  if (turned == 0) return {1, 0};
  if (turned == 90) return {0, 1};
  return {cos_above(turned), cos_above(90 - turned)};
}

}  // namespace evenmat
