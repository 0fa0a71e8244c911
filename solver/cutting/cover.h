// The least cost of whole sheets that together are worth enough: a knapsack turned over, by depth-first
// search with the bound that broken sheets give. Knows worths and costs only.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace evenmat::cutting {

struct Worth {
  std::int64_t worth = 0;   // of one sheet; 0 or more
  std::int64_t cost = 0;    // 0 or more
  std::optional<int> have;  // without end, if it is not said
};

// No whole numbers of these sheets that are worth at least `need` together cost less: the least such cost,
// or, where the search would take long, a bound from below. -1 where all there is is not worth that. Pre:
// worths and costs stay below 2^31, `need` below 2^61.
std::int64_t least_cost(std::vector<Worth> sheets, std::int64_t need);

}  // namespace evenmat::cutting
