// The card as it will be: closed, opened out, each face alone, and from the side.
#pragma once

#include <cstddef>
#include <vector>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// Of these versions (0: the plain card), one after the other. Each must have been sized.
Drawing card_drawing(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions,
                     PageSize size);

}  // namespace evenmat
