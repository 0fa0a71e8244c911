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

Rounded on_ruler(const Rational& length, Unit unit) {
  const bool inch = unit == Unit::inch;
  if (is_multiple(length, inch ? Rational(1) / 64 : Rational(1) / 10)) return {length, true};
  const Rational step = inch ? Rational(1) / 32 : Rational(1) / 2;
  return {round_down(length + step / 2, step), false};
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

std::string ruler_length(const Rational& length, Unit unit) {
  const Rounded one = on_ruler(length, unit);
  return (one.exact ? "" : "about ") + length_text(one.value, unit);
}

std::string ruler_size(const Size& size, Unit unit) {
  const Rounded width = on_ruler(size.width, unit);
  const Rounded height = on_ruler(size.height, unit);
  return (width.exact && height.exact ? "" : "about ") + size_words({width.value, height.value}, unit);
}

}  // namespace evenmat
