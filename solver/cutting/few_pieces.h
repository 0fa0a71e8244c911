// What a few pieces cost at least, from everything that one sheet can give: every lot of pieces is built up
// from two smaller ones, beside or below one another, and the smallest rectangles that hold it are kept; then
// lots are dealt to sheets, sheet by sheet. Exact but for trims and lengths of cuts, which are left out, so
// it is a bound.
//
// Rectangles put together from smaller ones: P. Y. Wang, Operations Research 31 (1983) 573-586; keeping only
// those that no other fits into: L. Stockmeyer, Information and Control 57 (1983) 91-101.
#pragma once

#include <cstdint>
#include <optional>

#include "solver/cutting/job.h"

namespace evenmat::cutting {

// No plan costs less. Nothing where there are too many pieces for it. Where the sheets there are cannot hold
// them, the answer is more than any plan could cost.
std::optional<std::int64_t> least_cost_of_few(const Job& job);

}  // namespace evenmat::cutting
