// The versions of a card by number: 0 is the plain card, then its variants in order.
#pragma once

#include <cstddef>

#include "model/card.h"

namespace evenmat {

inline const Design& design_of(const Card& card, std::size_t version) {
  return version == 0 ? card.design : card.variants.at(version - 1).design;
}

}  // namespace evenmat
