// The weight of paper, in the ways its packets state it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/rational.h"

namespace evenmat {

// Reads `216 gsm` or a basis weight, `80 lb cover`; exact grams per square metre. A basis weight is that
// of 500 sheets of the kind's basic size (common practice of US mills), 1 lb = 453.59237 g (International
// yard and pound agreement, 1959). On failure `trouble` says why in a maker's words.
struct WeightReading {
  std::optional<Rational> grams_per_square_metre;
  std::string trouble;
};
WeightReading read_weight(std::string_view text);

}  // namespace evenmat
