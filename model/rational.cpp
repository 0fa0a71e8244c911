#include "model/rational.h"

namespace evenmat {

Integer floor(const Rational& value) {
  const Integer over = boost::multiprecision::numerator(value);
  const Integer under = boost::multiprecision::denominator(value);
  Integer quotient = over / under;  // rounds towards zero
  if (over < 0 && quotient * under != over) quotient -= 1;
  return quotient;
}

Rational round_down(const Rational& value, const Rational& step) {
  return Rational(floor(value / step)) * step;
}

Rational round_up(const Rational& value, const Rational& step) { return -round_down(-value, step); }

bool is_multiple(const Rational& value, const Rational& step) {
  return boost::multiprecision::denominator(Rational(value / step)) == 1;
}

std::string fraction_text(const Rational& value) { return value.str(); }

}  // namespace evenmat
