#include "solver/why/spots.h"

#include <algorithm>

namespace evenmat {

Spot spot_to_show(const Card& card, const Rules& rules, const Rule& rule) {
  if (rule.spot.line > 0) return rule.spot;
  const Design& design = rule.version == 0 ? card.design : card.variants[rule.version - 1].design;
  Spot last;
  for (const auto& choice : rule.choices) {
    for (const Relation& relation : choice) {
      for (const Term& term : relation.sum.terms()) {
        const Rectangle& rectangle = rules.rectangles[term.variable / 4];
        if (rectangle.kind == Rectangle::Kind::face) continue;
        for (const Piece& piece : design.pieces) {
          if (piece.name.value == rectangle.name) last = std::max(last, piece.name.spot);
        }
      }
    }
  }
  return last;
}

}  // namespace evenmat
