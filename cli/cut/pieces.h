// What is cut from a paper, pile by pile; and what is done to rough pieces in a second pass.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// A table with its heading: a row for each pile, with its size as cut and how many.
std::string piles_text(const CutTelling& telling, const PaperPlan& paper);

// Behind an empty line: what pieces that are cut larger than their layer are trimmed to, and when. Empty if
// there are none.
std::string second_pass_text(const CutTelling& telling);

}  // namespace evenmat
