#include "cli/worksheet/units.h"

#include <fmt/format.h>

#include "cli/cut/telling.h"

namespace evenmat {
namespace {

struct Rounded {
  Rational value;  // in the other unit
  bool exact = true;
};

Rounded rounded(const Rational& length, Unit unit) {
  const Unit other = other_unit(unit);
  const Rational step = other == Unit::inch ? Rational(1) / 16 : Rational(1) / 2;
  const Rational whole = convert(length, unit, other);
  const Rational nearest = round_down(whole + step / 2, step);
  return {nearest, nearest == whole};
}

}  // namespace

Unit other_unit(Unit unit) { return unit == Unit::inch ? Unit::millimetre : Unit::inch; }

std::string other_length(const Rational& length, Unit unit) {
  const Rounded one = rounded(length, unit);
  return (one.exact ? "" : "about ") + length_text(one.value, other_unit(unit));
}

std::string other_size(const Size& size, Unit unit) {
  const Rounded width = rounded(size.width, unit);
  const Rounded height = rounded(size.height, unit);
  return (width.exact && height.exact ? "" : "about ") +
         size_words({width.value, height.value}, other_unit(unit));
}

}  // namespace evenmat
