// What of a card is cut from paper: the base's blank and each layer, one by one, with the size it is cut at.
// Not how many of them, nor which are alike.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/cut_batch.h"

namespace evenmat::batch {

// The design of a version: the plain card's, or a variant's.
const Design& design_of(const BatchCard& card, std::size_t version);

// Lengths that a card maker rounds by unit: so many inches, or millimetres where the card is in those; in the
// unit of the batch.
Rational usual(const BatchCard& card, Unit batch, const Rational& inches, const Rational& millimetres);

// The unit of the batch.
inline Unit unit_of(const std::vector<BatchCard>& cards) { return cards.front().card->unit; }

// A layer that is cut from a sheet, if only its paper is known: neither ink nor ready-made.
bool is_cut(const Piece& piece);

// Lengths in the unit of the batch.
struct CutThing {
  std::size_t card = 0;
  std::size_t version = 0;
  const PlacedPiece* layer = nullptr;          // none: the base's blank
  const Stated<std::string>* paper = nullptr;  // as the card names it
  int copies = 1;
  Rough rough = Rough::none;
  Size finished;
  Size size;  // as it is cut from the sheet, upright as the card maker sees its face
  bool scored = false;
  bool scores_down = false;  // scores run from top to bottom
};

// Of every version, in the order of the files; what states no paper is left out.
std::vector<CutThing> things_cut(const std::vector<BatchCard>& cards);

}  // namespace evenmat::batch
