// What is to be cut, as a table: the base, the front where it is cut back, every layer and window.
#pragma once

#include <string>

#include "cli/report/telling.h"

namespace evenmat {

// What one needs to know of a piece to cut it, beside its size.
std::string cutting_note(const PlacedPiece& placed, const Base& base);

// Behind an empty line; empty if there is nothing to cut. `with_base`: the base and front too.
std::string cutting_text(const Telling& telling, const Pieces& pieces, bool with_base);

}  // namespace evenmat
