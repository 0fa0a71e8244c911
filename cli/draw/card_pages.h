// The card as it will be: closed, opened out, each face alone, and from the side.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// What there is to see of a card: "closed", "open" and "side", then its faces by their names.
std::vector<std::string> view_names(const Card& card);

// Of these versions (0: the plain card), one after the other; each must have been sized. `views`: these
// alone, of `view_names`; none: all that have something to show.
Drawing card_drawing(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions,
                     const std::vector<std::string>& views, PageSize size);

}  // namespace evenmat
