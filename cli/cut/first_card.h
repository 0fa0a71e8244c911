// The first card of a batch is cut and tried before the rest: which sheets and steps give its pieces.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// Behind an empty line; empty when there is no more than one card to cut.
std::string first_card_text(const CutTelling& telling);

}  // namespace evenmat
