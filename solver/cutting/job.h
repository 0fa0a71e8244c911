// What is to be cut from one paper, in whole steps of a grid that every length of the job falls on. The only
// thing that planning knows: sheets with a width and height, and kinds of pieces with a number of each.
// No cards, layers or units.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace evenmat::cutting {

using Measure = std::int64_t;

// Sheets of one size. Width and height as they lie: x right, y down.
struct Sheet {
  Measure width = 0;
  Measure height = 0;
  std::optional<int> have;  // as many as are wanted, if it is not said
  std::int64_t cost = 1;    // of one sheet; 0 or more
  bool offcut = false;      // comes of the work itself: only pieces that may be cut from offcuts
};

// Pieces of one size that may lie alike.
struct Kind {
  Measure width = 0;
  Measure height = 0;
  bool upright = true;  // may lie as it stands
  bool turned = true;   // may lie turned by a quarter
  bool from_offcuts = true;
  int count = 0;
};

struct Job {
  std::vector<Sheet> sheets;
  std::vector<Kind> kinds;
  Measure blade = 0;  // what every cut takes away
  // No trim is narrower; none is no trim. Where it is 0, the blade may take a rest whole.
  Measure sliver = 0;
  Measure longest = 0;  // no cut is longer; 0: of any length
};

}  // namespace evenmat::cutting
