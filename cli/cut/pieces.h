// What is cut from a paper, pile by pile; and what is done to rough pieces in a second pass.
#pragma once

#include <string>
#include <vector>

#include "cli/cut/telling.h"

namespace evenmat {

// A layer of one card file, in whichever of its versions it is cut alike.
struct CutPile {
  PieceUse use;                        // of the first version
  Size size;                           // as it is cut, as the layer stands
  bool upright = true, turned = true;  // may lie as it stands; turned by a quarter
  int count = 0;
  std::vector<int> of_versions;  // how many are for each; empty of a card of one version
};

std::vector<CutPile> piles_of(const CutTelling& telling, const PaperPlan& paper);

// A table with its heading: a row for each pile, with its size as cut and how many.
std::string piles_text(const CutTelling& telling, const PaperPlan& paper);

// Behind an empty line: what pieces that are cut larger than their layer are trimmed to, and when. Empty if
// there are none.
std::string second_pass_text(const CutTelling& telling);

}  // namespace evenmat
