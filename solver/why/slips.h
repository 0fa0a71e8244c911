// Which rules an unsteady hand may break in a card that keeps them on paper, and by how much.
#pragma once

#include <vector>

#include "solver/check_hand.h"
#include "solver/rule.h"
#include "solver/search/prover.h"
#include "solver/why/hand_errors.h"

namespace evenmat {

// `values`: of the card as it is sized, by variable; each error is at most `error` either way. In the order
// of `Slip`. Throws OutOfTime.
//
// Of sums that must be at most 0 the worst is reached with every error against it. Where there are ways to
// choose from, a rule fails when all of them do at once, so that the worst is the most by which the errors
// can make even the best way miss. That an exact length comes out exact is not asked: it never does.
std::vector<Slip> slips_of(const Card& card, const Rules& rules, const std::vector<Rational>& values,
                           const HandErrors& errors, const Rational& error, Prover& prover);

}  // namespace evenmat
