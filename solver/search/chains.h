// Neighbours by the maker's own word: pieces stated to be beside one another, and those that lie further
// along such a row.
#pragma once

#include <vector>

#include "solver/rule.h"

namespace evenmat {

enum class Standing {
  open,    // they may lie on any side of one another
  stated,  // one is stated to be left of, right of, above or below the other
  chained  // a row of such statements leads from one to the other: apart, but no neighbours
};

// By separation.
std::vector<Standing> standings(const Rules& rules);

}  // namespace evenmat
