// What an unsteady hand does to a card, as `check --hand` tells it. Plain text of at most 80 columns.
#pragma once

#include <string>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "model/card.h"
#include "solver/check_hand.h"

namespace evenmat {

// A card that can be built; `error`: by how much each cut edge and each placement may be off.
std::string hand_text(const Source& source, const Card& card, const HandCheck& hand, const Rational& error,
                      const Style& style);

}  // namespace evenmat
