// The one trimmer that a whole batch is cut on: what the cards say of it, the usual where they say nothing.
// What is wrong with what they say is in mistakes.cpp.
#pragma once

#include <vector>

#include "solver/cut_batch.h"

namespace evenmat::batch {

// Lengths in the unit of the first card.
struct BatchTrimmer {
  Rational longest;     // no cut is longer
  Rational blade_loss;  // what every cut takes away
  Rational hold;        // narrower pieces are hard to hold
  Rational sliver;      // no trim is narrower
};

// Of each key what the first card says that states it, else the usual (common practice, no source). There is
// a card.
BatchTrimmer trimmer_of(const std::vector<BatchCard>& cards);

}  // namespace evenmat::batch
