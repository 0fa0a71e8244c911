// One sheet of a plan as a picture: its pieces, cuts, leftovers and measures to a scale. Where it goes on a
// page is not settled here.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/cut/telling.h"
#include "cli/drawing/page.h"
#include "cli/plan/names.h"

namespace evenmat {

// What stands in a piece instead of its name, or in none where there is no room even for that.
struct PlanKeyEntry {
  std::size_t name = 0;  // in the paper's names
  int count = 0;         // on this sheet
};

// Cuts of one step that have no room for a number each.
struct UnnumberedCuts {
  std::size_t step = 0;
  bool across = false;  // from left to right
  int count = 0;
  std::vector<std::string> alongside;  // letters or names of pieces that they cut from one another
};

struct PlanFigure {
  std::vector<Mark> marks;  // from its own top left corner; the key is not among them
  double width = 0, height = 0;
  std::vector<PlanKeyEntry> key;  // in the order of their letters
  std::size_t named = 0;          // pieces that have their own name in them
  std::size_t bare = 0;           // and with nothing in them
  std::size_t outside = 0;        // cuts that are numbered beside the sheet
  double crowded = 0;             // share of the sheet that numbers lie on
  std::vector<UnnumberedCuts> unnumbered;
};

// `scale`: points for one of the plan's unit. Words may be as wide as `room`, if the sheet is not wider.
PlanFigure plan_figure(const CutTelling& telling, const PaperPlan& paper, const PlanNames& names,
                       std::size_t laid, double scale, double room);

}  // namespace evenmat
