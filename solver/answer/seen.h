// How much of a layer is seen as it is looked at.
#pragma once

#include "solver/size_card.h"

namespace evenmat {

// Through an opening in a face, or on the reveal, with the card closed; else looking at its face.
const Rational& share_seen(const SizedVersion& version, const PlacedPiece& placed);

}  // namespace evenmat
