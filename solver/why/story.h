// A conflict told as the sums that a maker would do, in words. Which sums is found in sums.h; every sentence
// about them is here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/length.h"
#include "solver/check_card.h"
#include "solver/why/conflicts.h"
#include "solver/why/inquiry.h"
#include "solver/why/sums.h"

namespace evenmat {

struct Story {
  std::optional<Rational> short_by;
  std::optional<Rational> off_mark;
  std::vector<StoryStep> steps;
  std::vector<std::string> hints;
};

// Why the wishes of a clash cannot hold in its parts. `prover` is asked beside the inquiry's own. Throws
// OutOfTime.
Story story_of(const Inquiry& inquiry, const Clash& clash, Unit unit, Prover& prover);

}  // namespace evenmat
