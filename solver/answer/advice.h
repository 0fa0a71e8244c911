// Warnings a maker would thank for, about a card that can be built.
#pragma once

#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// In file order.
std::vector<Remark> advice(const Card& card, const Design& design, const SizedVersion& sized);

}  // namespace evenmat
