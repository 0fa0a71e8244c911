// The greatest common measure of a set of lengths, and whole steps of it.
#include "solver/batch/grid.h"

#include <algorithm>

namespace evenmat::batch {
namespace {

cutting::Measure whole(const Rational& steps) { return floor(steps).convert_to<cutting::Measure>(); }

}  // namespace

Rational common_measure(const Rational& a, const Rational& b) {
  using boost::multiprecision::denominator;
  using boost::multiprecision::numerator;
  const Integer over = boost::multiprecision::gcd(numerator(a), numerator(b));
  const Integer under = boost::multiprecision::lcm(denominator(a), denominator(b));
  return {over, under};
}

cutting::Measure Grid::on(const Rational& length) const { return whole(length / step); }

// A limit beyond all sheets is as good as one a step beyond them.
cutting::Measure Grid::at_least(const Rational& limit) const {
  return whole(round_up(std::min(Rational(limit / step), Rational(most_steps + 1)), 1));
}

cutting::Measure Grid::at_most(const Rational& limit) const {
  return whole(std::min(Rational(limit / step), Rational(most_steps + 1)));
}

Rational Grid::back(cutting::Measure steps) const { return step * steps; }

std::optional<Grid> grid_of(const std::vector<Rational>& lengths) {
  Rational step = 0;
  Rational longest = 0;
  for (const Rational& length : lengths) {
    if (length == 0) continue;
    step = step == 0 ? length : common_measure(step, length);
    longest = std::max(longest, length);
    if (longest / step > most_steps) return std::nullopt;
  }
  return Grid{step};
}

}  // namespace evenmat::batch
