// Why a card cannot be built, to look at: what clashes hatched where it sticks out or overlaps, the amount
// that is missing on it, and the story below.
#pragma once

#include <optional>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/check_card.h"
#include "solver/nearest_card.h"

namespace evenmat {

// What is drawn beside the story.
struct ClashPicture {
  std::optional<NearestCard> nearest;
  // Where nothing is out of its place: the card as it would be without what is to be seen of its layers and
  // without its limits.
  std::optional<SizedCard> unlimited;
};

// The card without `show` and without limits; sizes, places and rules as they are.
Card without_limits(Card card);

Drawing clash_drawing(const Card& card, const CheckedCard& checked, const ClashPicture& picture,
                      PageSize size);

}  // namespace evenmat
