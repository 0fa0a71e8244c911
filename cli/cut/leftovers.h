// What is left of a paper when its plan is cut, for reports, JSON and the file of leftovers alike.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/cut/telling.h"

namespace evenmat {

// So many leftovers worth keeping of one size, which are alike in all that matters.
struct Kept {
  Size size;  // as it lay on its sheet
  int count = 0;
  bool up = false;
  std::string grain;  // "long", "short" or empty: along its own longer side, or across it
};

// Largest first.
std::vector<Kept> kept_of(const PaperPlan& paper);

// How many sheets (or offcuts) of an entry of the stock the plan leaves as they are; absent where there are
// as many as are wanted.
std::optional<int> untouched(const PaperPlan& paper, std::size_t stock);

// Paragraphs; empty if nothing is left that is worth a word.
std::string leftovers_text(const CutTelling& telling, const PaperPlan& paper);

}  // namespace evenmat
