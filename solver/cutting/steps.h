// A cut plan as work for a hand: which parts come off first, in which order the settings of the trimmer
// follow each other over all sheets of a paper, and where a narrow piece wants to be held.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/cutting/part.h"

namespace evenmat::cutting {

// Orders the parts of every part that is cut, so that like ones follow each other and the widest is last,
// where it stays under the hand, and places them. What is cut and what it yields stays the same.
void put_in_cutting_order(Part& root, Measure blade);

// One straight cut of the rectangle in hand, `at` from its left edge (its top, where it runs across). What
// lies before it comes off; what lies behind it, less the blade's loss, stays in hand.
struct StraightCut {
  Measure x = 0, y = 0, width = 0, height = 0;  // in hand
  bool across = false;
  Measure at = 0;
  std::size_t step = 0;  // the number of its step, from 1
};

// What a cut gives, or what is taken in hand for it.
struct Yield {
  enum class What { piece, strip, leftover };  // strip: to be cut further
  What what = What::strip;
  Measure width = 0, height = 0;
  std::size_t kind = 0;  // of a piece
  int count = 0;         // from all sheets of the layout together
};

// Work at one setting on the sheets of one layout: `from` are taken in hand, and each is cut `cuts` times.
struct StepWork {
  std::size_t layout = 0;
  Yield from;
  int cuts = 1;
  std::vector<Yield> yields;  // all that comes of it
  bool hold = false;  // the last cut leaves less in hand than a hand can hold, or takes less off: tape it
};

// One setting of the trimmer. `set` is measured from the edge that lies at the stop, the left or the top.
struct Step {
  std::size_t number = 1;
  Measure set = 0;
  std::vector<StepWork> works;
  std::vector<bool> across;  // of each of `works`: the cut runs left to right on the sheet as it lies
};

struct Work {
  std::vector<std::vector<StraightCut>> cuts;  // of each layout, in the order made
  std::vector<Step> steps;                     // in the order made
};

// The work of a whole paper. An earlier layout's needs come first where all else is equal; `first` says which
// kinds come before others (the bases). Parts must be in cutting order. Pre: hold >= 0.
Work work_of(const std::vector<Layout>& layouts, const std::vector<bool>& first, Measure blade, Measure hold);

}  // namespace evenmat::cutting
