#include "solver/batch/trimmer.h"

#include <algorithm>

namespace evenmat::batch {
namespace {

Rational settled(const std::vector<BatchCard>& cards, Maybe<Rational> Trimmer::*key,
                 const Rational& usual_inches, const Rational& usual_millimetres) {
  const Unit unit = cards.front().card->unit;
  for (const BatchCard& one : cards) {
    if (const Maybe<Rational>& stated = one.card->trimmer.*key)
      return convert(stated->value, one.card->unit, unit);
  }
  return unit == Unit::inch ? usual_inches : usual_millimetres;
}

// A trimmer that takes the sheets of millimetre cards takes them beside cards in inches too.
Rational longest(const std::vector<BatchCard>& cards) {
  const Rational own = settled(cards, &Trimmer::longest, 12, 305);
  const bool stated = std::any_of(cards.begin(), cards.end(),
                                  [](const BatchCard& one) { return one.card->trimmer.longest.has_value(); });
  const bool metric = std::any_of(cards.begin(), cards.end(),
                                  [](const BatchCard& one) { return one.card->unit == Unit::millimetre; });
  return stated || !metric ? own : std::max(own, convert(305, Unit::millimetre, cards.front().card->unit));
}

}  // namespace

BatchTrimmer trimmer_of(const std::vector<BatchCard>& cards) {
  return {longest(cards), settled(cards, &Trimmer::blade_loss, 0, 0), settled(cards, &Trimmer::hold, 1, 25),
          settled(cards, &Trimmer::sliver, Rational(1, 8), 3)};
}

}  // namespace evenmat::batch
