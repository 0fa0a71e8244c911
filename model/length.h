// Lengths as makers write and read them: fractions, decimals, units. Values are exact rationals in
// whatever unit the card states; 1 in = 25.4 mm exactly.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/rational.h"

namespace evenmat {

enum class Unit { inch, millimetre };

// Width before height, origin top left, x right, y down.
struct Size {
  Rational width;
  Rational height;
  friend bool operator==(const Size&, const Size&) = default;
};

Rational convert(const Rational& length, Unit from, Unit to);

// "in" or "mm".
std::string_view unit_name(Unit unit);

// Reads `4 1/4`, `4-1/4`, `17/4`, `4.25`, `4 1/4 in`, `4 1/4"`, `105 mm`, `10.5 cm`, `4¼`; a bare
// number is in `unit`, the value returned is in `unit`. On failure `value` is absent and `trouble`
// says in a maker's words what is wrong. Numbers of more than 30 digits are refused.
struct LengthReading {
  std::optional<Rational> value;
  std::string trouble;
};
LengthReading read_length(std::string_view text, Unit unit);

// The number alone, as the maker's ruler shows it. Inches: a mixed fraction when the denominator
// divides 64 ("4 1/8", "0", "-1/16"), else any fraction with a denominator up to 1000, else a decimal
// marked as rounded ("about 1.684"). Millimetres: exact decimals of up to three places ("99", "4.5"),
// else a decimal marked as rounded ("about 33.333").
std::string length_text(const Rational& value, Unit unit);

// The same with the unit: "4 1/8 in", "99 mm".
std::string length_with_unit(const Rational& value, Unit unit);

// As calipers show it, of 0 or more: inches to four places, millimetres to three ("0.024", "about 0.3333").
std::string thickness_text(const Rational& thickness, Unit unit);
std::string thickness_with_unit(const Rational& thickness, Unit unit);  // "0.024 in"

}  // namespace evenmat
