// What each of many points of a space costs at least, all papers together, from few plans.
#pragma once

#include <optional>
#include <vector>

#include "solver/fit/cheapest.h"

namespace evenmat::exploring {

struct PointFloor {
  Price price;
  int sheets = 0;
};

// Of each point; nothing where time ran out. Takes no more than half of the time there is, so that some is
// left to plan those that cost least.
std::vector<std::optional<PointFloor>> floors_of(const std::vector<Amounts>& points, const CutPoints& cards);

}  // namespace evenmat::exploring
