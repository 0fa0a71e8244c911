// A cut plan as work for a hand: which parts come off first, in which order the settings of the trimmer
// follow each other over all sheets of a paper, and where a narrow piece wants to be held.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/cutting/part.h"

namespace evenmat::cutting {

// Orders the parts of every part that is cut, but where their order matters, and places them: like ones
// follow each other, and what stays in hand to the end is wide enough for a hand wherever that asks for no
// further setting. `first` says which kinds come before others (the bases). The layouts are those of one
// paper: together they need no more settings than before. What is cut and what it yields stays the same.
void put_in_cutting_order(std::vector<Layout>& layouts, const std::vector<bool>& first, Measure blade,
                          Measure hold);

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
  bool across = false;  // the cuts run left to right on the sheet as it lies
  Yield from;           // a strip: a sheet or what came of it
  int cuts = 1;
  std::vector<Yield> yields;  // all that comes of it
  // What the last cut leaves in hand is narrower than a hand can hold, and so is what comes off, or it is no
  // mere rest: tape it.
  bool hold = false;
};

// One setting of the trimmer. `set` is measured from the edge that lies at the stop, the left or the top. A
// later one of its works may take in hand what an earlier one gives.
struct Step {
  std::size_t number = 1;
  Measure set = 0;
  std::vector<StepWork> works;
};

struct Work {
  std::vector<std::vector<StraightCut>> cuts;  // of each layout, in the order made
  std::vector<Step> steps;                     // in the order made
};

// The work of a whole paper: what holds pieces of `first` kinds before what does not, then the longest in
// hand before shorter, then the largest setting; whatever is in hand and wants that setting is cut at it as
// well. An earlier layout comes first where all else is equal. Pre: put in cutting order, hold >= 0.
Work work_of(const std::vector<Layout>& layouts, const std::vector<bool>& first, Measure blade, Measure hold);

}  // namespace evenmat::cutting
