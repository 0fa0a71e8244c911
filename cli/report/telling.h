// What every part of a report tells about: one version of a card, with signs from the ruler that all versions
// share; and what the parts say alike.
#pragma once

#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/ruler.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

struct Telling {
  const SizedVersion& version;
  const Design& design;
  const Card& card;
  Ruler& ruler;
  const Style& style;
};

using Pieces = std::vector<const PlacedPiece*>;

// "the front" for a face, the name as it is for a layer or window.
std::string name_of_below(const Piece& piece, const Base& base);

}  // namespace evenmat
