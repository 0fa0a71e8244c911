// Where in the file to point for a rule.
#pragma once

#include "model/card.h"
#include "solver/rule.h"

namespace evenmat {

// Its own spot; for a rule that no wish speaks of the name of the layer or window it is about: of those in it
// the one that comes last in the file. No spot for one about faces alone.
Spot spot_to_show(const Card& card, const Rules& rules, const Rule& rule);

}  // namespace evenmat
