// From the chosen values to a version of the card as it is told: every piece in its place, the front, the
// fold, what is seen, the card in the hand. Not what is free in it, nor how it was chosen.
#pragma once

#include <cstddef>
#include <vector>

#include "model/card.h"
#include "model/versions.h"
#include "solver/rule.h"
#include "solver/size_card.h"

namespace evenmat {

// The plain card, then the variants in order, each with its name and number of cards and nothing else yet.
std::vector<SizedVersion> versions_of(const Card& card);

// Sizes and places of the pieces, front, cut-back and fold.
void place_version(SizedVersion& version, const Card& card, const Rules& rules, std::size_t index,
                   const std::vector<Rational>& values);

// The same, with all that is told of the finished card. Undecided, with a warning, where a share that is to
// be seen or a limit of weight is not kept that no rule stands for.
void fill_version(SizedVersion& version, const Card& card, const Rules& rules, std::size_t index,
                  const std::vector<Rational>& values);

// Whether a version that is filled passes its limit of thickness.
bool is_too_thick(const Card& card, std::size_t index, const SizedVersion& version);

}  // namespace evenmat
