// The order of work by which a flat blank becomes the base of a card, and how the base lies then, as
// sentences for reports and JSON alike. What is cut and glued beside the base is not here.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// Whole sentences, lengths with the card's unit. All empty while no card is found.
struct Making {
  std::vector<std::string> order;  // of work, a step each, from cutting the blank on
  // How the leaves lie over each other closed, what faces you when it is opened out, which faces are the
  // other way up. Empty for a flat base.
  std::vector<std::string> lies;
};

Making making_of(const Card& card, const Design& design, const SizedVersion& version);

}  // namespace evenmat
