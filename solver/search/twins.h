// Boxes that could change places, everything else the same. Of arrangements that differ only in such an
// exchange one is enough: the one in which they lie from left to right in the order in which the last step of
// choosing places them.
#pragma once

#include <functional>
#include <utility>
#include <vector>

#include "solver/exact/system.h"

namespace evenmat {

// Neighbours in the order of `in_order` (sums of one variable each count) among the block's boxes that are
// twins, by the number of their rectangle. Only boxes that `counts` accepts; variables from `first_helper` on
// are no box's.
std::vector<std::pair<std::size_t, std::size_t>> twins(const Block& block, const std::vector<Sum>& raised,
                                                       Variable first_helper,
                                                       const std::function<bool(std::size_t)>& counts,
                                                       const std::vector<Sum>& in_order);

}  // namespace evenmat
