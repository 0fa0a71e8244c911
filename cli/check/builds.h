// A card that can be built, as `check` tells it: what each rule has to spare, how thick it is closed and
// where it goes in, what says nothing new, what gives way, and what is worth a second look. Plain text of at
// most 80 columns.
#pragma once

#include <string>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "model/card.h"
#include "solver/check_card.h"

namespace evenmat {

std::string builds_text(const Source& source, const Card& card, const CheckedCard& checked,
                        const Style& style);

}  // namespace evenmat
