// What many jobs of one paper cost at least, from the plans of a few: jobs are put together into boxes, and
// whoever can cut every piece of a box at its largest can cut all jobs in it, who cannot cut every piece at
// its smallest can cut none. Knows no cards.
#pragma once

#include <chrono>
#include <functional>
#include <vector>

#include "solver/costs/price_paper.h"

namespace evenmat::exploring {

// `price`: plans with no limit on trims and lengths of cuts. Each job gets a bound from below; with more
// boxes bounds are better.
std::vector<PaperBound> floors_of(const std::vector<batch::PaperNeeds>& jobs,
                                  const std::function<PricedPaper(const batch::PaperNeeds&)>& price,
                                  int most_boxes, std::chrono::steady_clock::time_point until);

}  // namespace evenmat::exploring
