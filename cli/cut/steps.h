// The work at the trimmer: for every letter of a paper what it gives and the steps that its sheets go
// through, with the numbers that all sheets of the paper share.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// Behind an empty line: which steps are done together, then a list for each letter, with its heading.
std::string steps_text(const CutTelling& telling, const PaperPlan& paper);

}  // namespace evenmat
