// How even the borders, margins and frames of a card look that an unsteady hand has cut and placed.
#pragma once

#include <vector>

#include "solver/check_hand.h"
#include "solver/rule.h"
#include "solver/why/hand_errors.h"

namespace evenmat {

// Of everything that what is stated keeps as far from one edge of what it is on as from the opposite one:
// exact and even borders, margins and frames, and what is centred. `values`: of the card as it is sized, by
// variable.
//
// Two sides look even while the narrower is at least half as wide as the wider: common practice, no source.
// With sides that can each be off by w, wished alike, that takes 2 (b - w) >= b + w: a border of 3 w.
std::vector<Unevenness> evenness_of(const Card& card, const Rules& rules, const std::vector<Rational>& values,
                                    const HandErrors& errors, const Rational& error);

}  // namespace evenmat
