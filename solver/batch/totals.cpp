// What a batch uses beside paper: foam, adhesive and supplies.
#include <algorithm>

#include "solver/batch/gather.h"
#include "solver/batch/things.h"

namespace evenmat::batch {
namespace {

void add_supplies(const Card& card, const Rational& made, BatchTotals& totals) {
  for (const Supply& supply : card.supplies) {
    const Rational used = made * (supply.per_card ? supply.per_card->value : Rational(1));
    const auto same = std::find_if(totals.supplies.begin(), totals.supplies.end(),
                                   [&](const auto& other) { return other.first == supply.name.value; });
    if (same == totals.supplies.end()) {
      totals.supplies.emplace_back(supply.name.value, used);
    } else {
      same->second += used;
    }
  }
}

// A raised layer counts as if it were all foam beneath, which is the most it can take.
void add_layer(const PlacedPiece& placed, const Rational& made, Unit own, Unit unit, BatchTotals& totals) {
  const Piece& piece = *placed.piece;
  if (piece.kind != Piece::Kind::layer || piece.stamped) return;
  const Rational of_it = made * (piece.copies ? piece.copies->value : 1);
  const Rational width = convert(placed.width, own, unit);
  const Rational height = convert(placed.height, own, unit);
  if (piece.raised && piece.raised->value > 0) {
    totals.foam += of_it * width * height;
  } else {
    totals.adhesive += of_it * 2 * (width + height);
  }
}

}  // namespace

BatchTotals totals(const std::vector<BatchCard>& cards, const Counts& counts) {
  BatchTotals totals;
  for (std::size_t c = 0; c < cards.size(); ++c) {
    Rational in_all = 0;
    for (std::size_t v = 0; v < counts[c].size(); ++v) {
      in_all += counts[c][v];
      for (const PlacedPiece& placed : cards[c].sized->versions[v].pieces)
        add_layer(placed, counts[c][v], cards[c].card->unit, unit_of(cards), totals);
    }
    add_supplies(*cards[c].card, in_all, totals);
  }
  return totals;
}

}  // namespace evenmat::batch
