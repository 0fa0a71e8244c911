// The sentences of one exact sum: what is asked for, one after the other, how much room there is, and the
// rest.
#pragma once

#include <string>
#include <vector>

#include "model/length.h"
#include "solver/check_card.h"
#include "solver/why/sums.h"

namespace evenmat {

// Adds the steps of a sum that comes out as too much (or too little) for its space.
void tell_sum(const Rules& rules, const ExactSum& sum, Unit unit, std::vector<StoryStep>& steps);

// Adds the steps of a sum that settles a length: how `what` comes to be `value`.
void tell_derivation(const Rules& rules, const ExactSum& sum, const std::string& what, const Rational& value,
                     Unit unit, std::vector<StoryStep>& steps);

// With a capital letter and a full stop, where it begins with a word of ours ("the", "each").
std::string sentence(const std::string& words);

}  // namespace evenmat
