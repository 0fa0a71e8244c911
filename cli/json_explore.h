// What `explore` answers as one JSON object: the list of cards, or the sizes that suit the paper. Lengths,
// shares and costs are exact fractions, as strings. Every function ends its text with a line end.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "model/card.h"
#include "solver/explore_card.h"
#include "solver/fit_card.h"

namespace evenmat {

// A card of the list that was written as a card file.
struct WrittenCard {
  std::size_t number = 0;
  std::string file;
};

std::string json_explored(const Card& card, const ExploredCard& explored,
                          const std::optional<WrittenCard>& written);

std::string json_fit(const Card& card, const FitCard& fit, bool most,
                     const std::optional<WrittenCard>& written);

}  // namespace evenmat
