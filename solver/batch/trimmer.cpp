#include "solver/batch/trimmer.h"

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

}  // namespace

BatchTrimmer trimmer_of(const std::vector<BatchCard>& cards) {
  return {settled(cards, &Trimmer::longest, 12, 305), settled(cards, &Trimmer::blade_loss, 0, 0),
          settled(cards, &Trimmer::hold, 1, 25), settled(cards, &Trimmer::sliver, Rational(1, 8), 3)};
}

}  // namespace evenmat::batch
