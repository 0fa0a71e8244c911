// Numbers written otherwise: the nearest value of one that mends a conflict, and the fewest and smallest
// changes that mend a whole card.
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "solver/why/conflicts.h"
#include "solver/why/inquiry.h"

namespace evenmat {

struct NewValue {
  std::size_t number = 0;  // in `Rules::numbers`
  Rational value;
};

// The value on the marks nearest to the stated one with which the wishes can hold in the parts; of two as
// near the smaller. Absent when there is none. Throws OutOfTime.
std::optional<Rational> nearest_value(Inquiry& inquiry, const std::vector<std::size_t>& parts,
                                      const WishIds& held, std::size_t number);

// The fewest numbers that have to change, on the marks, for every wish of the card to hold; of those ways the
// one with the least total of changes; of those the one that leaves the earlier numbers alone. Each proven
// before the next. Empty when no changes of numbers do. `all`: the clashes are all there are; they must be
// some of them at least. Throws OutOfTime.
std::vector<NewValue> fewest_changes(Inquiry& inquiry, const std::vector<Clash>& clashes, bool all);

}  // namespace evenmat
