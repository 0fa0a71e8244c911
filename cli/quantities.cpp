#include "cli/quantities.h"

#include <fmt/format.h>

namespace evenmat {
namespace {

Rational power_of_ten(int places) {
  Rational power = 1;
  for (int i = 0; i < places; ++i) power *= 10;
  return power;
}

// To the nearest, halves up; needs value >= 0.
std::string decimal(const Rational& value, int places) {
  const Rational power = power_of_ten(places);
  const Integer units = floor(value * power + Rational(1) / 2);
  const Integer whole = floor(power);
  if (places == 0) return units.str();
  return fmt::format("{}.{:0>{}}", Integer(units / whole).str(), Integer(units % whole).str(), places);
}

}  // namespace

std::string share_text(const Rational& share) {
  if (share == 0) return "nothing";
  if (denominator(share) <= 8) return fraction_text(share);
  const Rational percents = share * 100;
  if (percents < 1) return "less than 1 %";
  if (share < 1 && percents > 99) return "more than 99 %";
  return fmt::format("{}{} %", denominator(percents) == 1 ? "" : "about ", decimal(percents, 0));
}

std::string weight_text(const Rational& grams, Unit unit) {
  std::string metric = grams > 0 && grams < Rational(1) / 20 ? "less than 0.1 g" : decimal(grams, 1) + " g";
  if (unit == Unit::millimetre) return metric;
  // The avoirdupois ounce, exactly (international yard and pound, 1959).
  const Rational ounce = Rational(28'349'523'125) / Rational(1'000'000'000);
  return fmt::format("{} ({} oz)", metric, decimal(grams / ounce, 2));
}

}  // namespace evenmat
