#include "model/length.h"

#include "model/number_scan.h"
#include "model/words.h"

namespace evenmat {
namespace {

// International yard and pound agreement, 1959: 1 yd = 0.9144 m, so 1 in = 25.4 mm.
const Rational& millimetres_per_inch() {
  static const Rational ratio = Rational(127) / 5;
  return ratio;
}

std::string mixed_fraction(const Rational& value) {
  const Integer whole = floor(value);
  const Rational part = value - Rational(whole);
  if (part == 0) return whole.str();
  return whole == 0 ? fraction_text(part) : whole.str() + " " + fraction_text(part);
}

// A count of the last of so many places as a decimal without needless zeros.
std::string decimal_text(const Integer& count, std::size_t places) {
  std::string digits = count.str();
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  std::string text = digits.substr(0, digits.size() - places) + "." + digits.substr(digits.size() - places);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

Rational ten_to(std::size_t places) {
  Rational power = 1;
  for (std::size_t i = 0; i < places; ++i) power *= 10;
  return power;
}

std::string decimal_or_rounded(const Rational& value, std::size_t places) {
  const Rational counts = value * ten_to(places);
  if (boost::multiprecision::denominator(counts) == 1)
    return decimal_text(boost::multiprecision::numerator(counts), places);
  return "about " + decimal_text(floor(counts + Rational(1) / 2), places);
}

}  // namespace

Rational convert(const Rational& length, Unit from, Unit to) {
  if (from == to) return length;
  return from == Unit::inch ? Rational(length * millimetres_per_inch())
                            : Rational(length / millimetres_per_inch());
}

std::string_view unit_name(Unit unit) { return unit == Unit::inch ? "in" : "mm"; }

LengthReading read_length(std::string_view text, Unit unit) {
  std::string_view rest = trimmed(text);
  bool negative = false;
  if (rest.starts_with("-") || rest.starts_with("+")) {
    negative = rest.front() == '-';
    rest = trimmed(rest.substr(1));
  } else if (rest.starts_with("\u2212")) {  // the true minus sign
    negative = true;
    rest = trimmed(rest.substr(3));
  }
  const NumberScan scan = scan_number(rest, unit);
  if (scan.bytes > 0 && !scan.trouble.empty()) return {std::nullopt, scan.trouble};
  if (scan.bytes == 0 || scan.bytes != rest.size()) {
    const bool comma = scan.bytes > 0 && rest[scan.bytes] == ',';
    return {std::nullopt,
            in_quotes(trimmed(text)) + " is not a length. " +
                (comma ? "Decimals take a point: 4.25." : "Write it like 4 1/4, 4.25 or 105 mm.")};
  }
  return {negative ? Rational(-scan.value) : scan.value, {}};
}

std::string length_text(const Rational& value, Unit unit) {
  if (value < 0) {
    const std::string size = length_text(-value, unit);
    const std::string about = "about ";
    return size.starts_with(about) ? about + "-" + size.substr(about.size()) : "-" + size;
  }
  if (unit == Unit::millimetre) return decimal_or_rounded(value, 3);
  return boost::multiprecision::denominator(value) <= 1000 ? mixed_fraction(value)
                                                           : decimal_or_rounded(value, 3);
}

std::string thickness_text(const Rational& thickness, Unit unit) {
  return decimal_or_rounded(thickness, unit == Unit::inch ? 4 : 3);
}

std::string thickness_with_unit(const Rational& thickness, Unit unit) {
  return thickness_text(thickness, unit) + " " + std::string(unit_name(unit));
}

std::string length_with_unit(const Rational& value, Unit unit) {
  return length_text(value, unit) + " " + std::string(unit_name(unit));
}

}  // namespace evenmat
