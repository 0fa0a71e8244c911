// Rules that leave room for an unsteady hand.
#pragma once

#include "model/card.h"
#include "solver/rule.h"

namespace evenmat {

// The rules with every inequality asking for as much more as errors of up to `error` can take from it. What
// holds under them holds whatever the hand does. Exact sizes and places stay as they are, but a layer aligned
// to an edge keeps off it by as much as its border asks for now. `rules` are those of `card`.
Rules tightened(Rules rules, const Card& card, const Rational& error);

}  // namespace evenmat
