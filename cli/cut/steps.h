// The work at the trimmer: for every letter of a paper what it gives and the steps that its sheets go
// through, with the numbers that all sheets of the paper share.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/cut/telling.h"

namespace evenmat {

// A step of one letter, as a sentence. What else that step does to the letter's sheets follows without a
// number.
struct StepRow {
  std::size_t number = 0;
  bool first = true;
  std::string says;
};

// Which steps are done together, as a sentence; empty where none are.
std::string together_words(const PaperPlan& paper);

// Of one letter, in the order in which they are done.
std::vector<StepRow> step_rows(const CutTelling& telling, const PaperPlan& paper, std::size_t letter);

// Behind an empty line: which steps are done together, then a list for each letter, with its heading.
std::string steps_text(const CutTelling& telling, const PaperPlan& paper);

}  // namespace evenmat
