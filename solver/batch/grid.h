// The grid on which a paper's job is planned: the widest step of which sheets, pieces and the blade's loss
// are whole numbers, so that whole numbers decide and nothing is rounded. No cards here.
#pragma once

#include <optional>
#include <vector>

#include "model/length.h"
#include "solver/cutting/job.h"

namespace evenmat::batch {

// The greatest amount that both are multiples of; of fractions in lowest terms that is the greatest common
// divisor of what is over the line, over the least common multiple of what is under it. Of 0 and another it
// is the other.
Rational common_measure(const Rational& a, const Rational& b);

struct Grid {
  Rational step;  // above 0

  // Pre: a multiple of the step.
  [[nodiscard]] cutting::Measure on(const Rational& length) const;
  // Of a limit, which need be no multiple: lengths on the grid are at least (at most) `limit` exactly where
  // they are at least (at most) this many steps.
  [[nodiscard]] cutting::Measure at_least(const Rational& limit) const;
  [[nodiscard]] cutting::Measure at_most(const Rational& limit) const;
  [[nodiscard]] Rational back(cutting::Measure steps) const;
};

// No side of a sheet or piece is more steps long: an area is a whole number of 64 bits then.
inline constexpr cutting::Measure most_steps = cutting::Measure{1} << 30;

// Nothing where the longest of them would be more than `most_steps` long. Pre: none below 0, one above.
std::optional<Grid> grid_of(const std::vector<Rational>& lengths);

}  // namespace evenmat::batch
