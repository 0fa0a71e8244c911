// A card with its open amounts stated: the same as its file would give with those values written in.
#pragma once

#include <vector>

#include "model/card.h"
#include "solver/explore/amounts.h"

namespace evenmat::exploring {

// `values`: by place of the amounts.
Card with_stated(const Card& card, const std::vector<Amount>& amounts, const std::vector<Rational>& values);

}  // namespace evenmat::exploring
