// Templates: every piece at its true size, a box for each, with rulers to check the print by. What is larger
// than a page is tiled.
#pragma once

#include <cstddef>
#include <vector>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// Of these versions (0: the plain card); a piece that several have alike is there once.
Drawing templates(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions,
                  PageSize size);

}  // namespace evenmat
