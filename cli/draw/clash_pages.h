// Why a card cannot be built, to look at: what clashes hatched where it sticks out or overlaps, the amount
// that is missing on it, and the story below.
#pragma once

#include <optional>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/check_card.h"
#include "solver/nearest_card.h"

namespace evenmat {

// `nearest`: none where nothing is out of its place; then the story alone.
Drawing clash_drawing(const Card& card, const CheckedCard& checked, const std::optional<NearestCard>& nearest,
                      PageSize size);

}  // namespace evenmat
