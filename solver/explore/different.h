// The few of many that differ most: each next one is the one farthest from all that are taken (the greedy
// choice of Gonzalez, 1985, from memory, whose nearest two are at least half as far apart as those of any
// other choice of as many). Knows no cards, only numbers to tell them apart by.
#pragma once

#include <cstddef>
#include <vector>

#include "model/rational.h"

namespace evenmat::exploring {

// Their places, ascending; `first` is among them, and no two are nearer than `least`. How far two are apart
// is the total by which their numbers differ. Of those that are equally far the first is taken.
std::vector<std::size_t> most_different(const std::vector<std::vector<Rational>>& all, std::size_t first,
                                        std::size_t count, const Rational& least);

}  // namespace evenmat::exploring
