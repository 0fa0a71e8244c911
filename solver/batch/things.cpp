#include "solver/batch/things.h"

#include "model/versions.h"

namespace evenmat::batch {
namespace {

Size in_unit(const Rational& width, const Rational& height, Unit from, Unit to) {
  return {convert(width, from, to), convert(height, from, to)};
}

// Where a die or scissors follow, those are named: it is stamped before them all the same.
Rough rough_of(const Piece& piece) {
  if (piece.cut == Cut::die) return Rough::die;
  if (piece.cut == Cut::by_hand) return Rough::by_hand;
  return piece.stamp_first ? Rough::stamp_first : Rough::none;
}

CutThing base_of(const BatchCard& card, const Folding& folding, Unit unit) {
  CutThing thing;
  thing.finished = in_unit(folding.blank.width, folding.blank.height, card.card->unit, unit);
  thing.size = thing.finished;
  thing.scored = !folding.scores.empty();
  thing.scores_down = folding.across;
  return thing;
}

CutThing layer_of(const BatchCard& card, const PlacedPiece& placed, Unit unit) {
  CutThing thing;
  thing.layer = &placed;
  thing.copies = placed.piece->copies ? placed.piece->copies->value : 1;
  thing.rough = rough_of(*placed.piece);
  thing.finished = in_unit(placed.width, placed.height, card.card->unit, unit);
  thing.size = thing.finished;
  if (const auto rough = rough_size(*card.card, placed))
    thing.size = in_unit(rough->width, rough->height, card.card->unit, unit);
  return thing;
}

}  // namespace

const Design& design_of(const BatchCard& card, std::size_t version) {
  return evenmat::design_of(*card.card, version);
}

Rational usual(const BatchCard& card, Unit batch, const Rational& inches, const Rational& millimetres) {
  const Unit own = card.card->unit;
  return convert(own == Unit::inch ? inches : millimetres, own, batch);
}

bool is_cut(const Piece& piece) {
  return piece.kind == Piece::Kind::layer && !piece.stamped && piece.cut != Cut::ready_made;
}

std::vector<CutThing> things_cut(const std::vector<BatchCard>& cards) {
  std::vector<CutThing> things;
  for (std::size_t c = 0; c < cards.size(); ++c) {
    const BatchCard& card = cards[c];
    for (std::size_t v = 0; v < card.sized->versions.size(); ++v) {
      const auto add = [&](CutThing thing, const Maybe<std::string>& paper) {
        if (!paper || thing.size.width <= 0 || thing.size.height <= 0) return;
        thing.card = c;
        thing.version = v;
        thing.paper = &*paper;
        things.push_back(std::move(thing));
      };
      const SizedVersion& version = card.sized->versions[v];
      add(base_of(card, version.folding, unit_of(cards)), design_of(card, v).base.paper);
      for (const PlacedPiece& placed : version.pieces) {
        if (is_cut(*placed.piece)) add(layer_of(card, placed, unit_of(cards)), placed.piece->paper);
      }
    }
  }
  return things;
}

}  // namespace evenmat::batch

namespace evenmat {

// Common practice, no source: a hand wants 1/8 in (3 mm) all round, a die and a stamp that is trimmed to as
// much in all.
std::optional<Size> rough_size(const Card& card, const PlacedPiece& layer) {
  if (!batch::is_cut(*layer.piece) || batch::rough_of(*layer.piece) == Rough::none) return std::nullopt;
  const Rational larger = card.unit == Unit::inch ? Rational(1, 4) : Rational(6);
  return Size{layer.width + larger, layer.height + larger};
}

}  // namespace evenmat
