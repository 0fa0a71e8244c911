// What does not hold in a card that cannot be built, once its lengths are chosen, and where on it that is.
#pragma once

#include <cstddef>
#include <vector>

#include "model/card.h"
#include "solver/nearest_card.h"
#include "solver/rule.h"

namespace evenmat {

// Every rule of one version that does not hold with these values, the largest miss first: one for each rule,
// measured where it comes nearest to holding. What is given is left out where what is stated tells it, with
// at least as much of the same place.
std::vector<Miss> misses_of(const Rules& rules, std::size_t version, const Design& design,
                            const std::vector<Rational>& values);

}  // namespace evenmat
