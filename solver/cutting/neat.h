// A plan that costs as little as any, made pleasant to cut: sheets alike where they can be, like pieces in
// rows beside one another, few settings of the trimmer, few cuts, and what is left in one piece.
//
// No claim is made for it but that it is no more trouble than the plan given: like pieces are joined to
// blocks of rows and columns in many ways, blocks are put into the sheet where they spoil least, and the
// neatest sheet is kept. Blocks of like pieces are the strips of Gilmore and Gomory (1965) in two directions.
#pragma once

#include <cstdint>
#include <tuple>
#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

// How much trouble a plan is, less being better: different settings of the trimmer over all sheets, cuts, how
// often it is set, then the area of the largest piece left over, less than nothing so that more is better.
using Trouble = std::tuple<std::size_t, std::int64_t, std::size_t, std::int64_t>;
Trouble trouble_of(const std::vector<Layout>& layouts, const Job& job);

// The same pieces from no more sheets of any size.
std::vector<Layout> made_neat(const std::vector<Layout>& layouts, const Job& job);

}  // namespace evenmat::cutting
