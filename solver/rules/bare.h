// Layers of which nothing is stated but what they are on: they keep the usual border.
#pragma once

#include "model/card.h"

namespace evenmat::writing {

// Neither artwork, border, place nor size is stated at all, nor does another piece say where it lies to this
// one.
bool states_nothing(const Design& design, const Piece& piece);

}  // namespace evenmat::writing
