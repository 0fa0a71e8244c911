// A card whose sizes were measured, held against its rules, as `check --tolerance` tells it. Plain text of at
// most 80 columns.
#pragma once

#include <string>

#include "cli/answer.h"
#include "model/card.h"
#include "solver/check_hand.h"

namespace evenmat {

// Of a card whose every size is stated.
std::string measured_text(const Card& card, const MeasuredCard& measured, const Rational& tolerance,
                          const Style& style);

}  // namespace evenmat
