// What the trade leaves so that folded paper lies flat: what a card file states of it, and what is usual.
#include <algorithm>

#include "model/papers.h"
#include "model/reading/parts.h"

namespace evenmat::reading {
namespace {

Rational usual(Unit unit, const Rational& inches, const Rational& millimetres) {
  return unit == Unit::inch ? inches : millimetres;
}

}  // namespace

StatedAllowance read_allowance(const Value& value, Context& context) {
  Table table(value, "the allowances", context);
  StatedAllowance allowance;
  allowance.doors = table.length("doors", Bound::not_negative);
  allowance.flap = table.length("flap", Bound::not_negative);
  allowance.fold = table.length("fold", Bound::not_negative);
  allowance.envelope = table.length("envelope", Bound::not_negative);
  table.finish();
  return allowance;
}

Allowance allowance_of(const Maybe<std::string>& paper, const Stock& stock, Unit unit) {
  const Rational sixteenth = Rational(1) / 16;
  const Maybe<Rational> thickness = stated_of_paper(stock.papers, paper, &Paper::thickness);
  const Rational twice = thickness ? Rational(2 * thickness->value) : Rational(0);
  const StatedAllowance& stated = stock.allowance;
  Allowance allowance;
  allowance.doors = stated.doors ? stated.doors->value : std::max(usual(unit, sixteenth, 1), twice);
  allowance.flap = stated.flap ? stated.flap->value : std::max(usual(unit, sixteenth, 2), twice);
  allowance.fold = stated.fold ? stated.fold->value : Rational(0);
  return allowance;
}

Rational ease_of(const StatedAllowance& allowance, Unit unit) {
  return allowance.envelope ? allowance.envelope->value : usual(unit, Rational(1) / 16, Rational(3) / 2);
}

}  // namespace evenmat::reading
