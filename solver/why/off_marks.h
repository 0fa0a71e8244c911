// Sizes that only the marks of the trimmer stand in the way of.
#pragma once

#include <vector>

#include "model/length.h"
#include "solver/check_card.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

struct OffMarks {
  Rational by;  // how far the farthest size is from the nearest mark, at the best
  std::vector<StoryStep> steps;
};

// Rules of one version, by index, that can hold with the marks aside and not with them. Throws OutOfTime.
OffMarks off_marks(const Rules& rules, const std::vector<std::size_t>& indices, Unit unit, Prover& prover);

}  // namespace evenmat
