// Where a row of a sweep takes more sheets than the one before it, or one sheet gives more cards: in
// sentences.
#pragma once

#include <string>

#include "model/length.h"
#include "solver/explore_card.h"

namespace evenmat {

// A paragraph for each, behind an empty line; empty without jumps.
std::string jumps_text(const ExploredCard& explored, Unit unit);

// "From 3/16 on one sheet of indigo gives one card fewer: 5."
std::string jump_sentence(const ExploredCard& explored, const Jump& jump, Unit unit);

}  // namespace evenmat
