// Of a card that can be built: what its rules have to spare, which of them say nothing new, which wishes gave
// way, and names that nothing uses.
#pragma once

#include <vector>

#include "model/card.h"
#include "solver/check_card.h"
#include "solver/rule.h"
#include "solver/search/prover.h"
#include "solver/why/inquiry.h"

namespace evenmat {

// Of every stated rule, tightest first; and of two layers on one thing that keep beside each other.
// `values`: of the card as it is sized, by variable.
std::vector<Spare> spare_of(const Rules& rules, const std::vector<Rational>& values);

// Wishes that the others imply already; of two that say the same the later. Throws OutOfTime.
std::vector<Remark> idle_rules(Inquiry& inquiry);

// `about` wishes that are not met, and by which rules they are held off. Throws OutOfTime.
std::vector<Remark> held_off(Inquiry& inquiry, const std::vector<Rational>& values, Unit unit);

// Papers that nothing is cut from, and papers of layers that no [[paper]] tells of.
std::vector<Remark> unused_names(const Card& card);

}  // namespace evenmat
