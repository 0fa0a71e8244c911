// The numbers on the cuts of a sheet: each on its line where there is room, else beside the sheet with a
// leader to it; of many cuts close beside one another only one is numbered. Knows no card.
#pragma once

#include <cstddef>
#include <vector>

#include "cli/drawing/page.h"

namespace evenmat {

// A cut as it is drawn: from its start to its end, which lie level or above one another.
struct CutLine {
  At from, to;
  std::size_t step = 0;

  [[nodiscard]] bool level() const { return from.y == to.y; }
};

// Cuts of one step in one strip that have no room for a number each.
struct CutRun {
  std::vector<std::size_t> cuts;
  bool numbered = false;  // one of them carries the number
};

struct CutBadges {
  std::vector<Mark> marks;
  std::vector<Box> boxes;            // of the numbers
  std::vector<std::size_t> outside;  // which cuts are numbered beside the sheet
  std::vector<CutRun> runs;          // to be told in words
  double beside = 0;                 // how far past the sheet's right edge they reach
  double below = 0;                  // and past its bottom edge
};

// `taken`: what no number may lie on; `pieces`: what no leader may run across, or it would be read as a cut.
// Numbers reach past the sheet's left and top edge by no more than half of their own size, and past the
// others as told.
CutBadges badges_of(const std::vector<CutLine>& cuts, const Box& sheet, const std::vector<Box>& taken,
                    const std::vector<Box>& pieces);

// One with its middle there.
void add_badge(std::vector<Mark>& marks, const At& middle, std::size_t step, double size = 1);
Box badge_box(const At& middle, std::size_t step, double size = 1);

}  // namespace evenmat
