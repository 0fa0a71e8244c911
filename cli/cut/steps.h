// The work at the trimmer: for every letter of a paper the steps that its sheets go through, with the numbers
// that all sheets of the paper share.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// A list for each letter, with its heading; empty if the paper has no steps.
std::string steps_text(const CutTelling& telling, const PaperPlan& paper);

}  // namespace evenmat
