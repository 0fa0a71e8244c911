// From a planned paper to what is told of it: its sheets lettered and in the order they are cut, with their
// pieces, cuts, labels and leftovers in the batch's unit, and its steps.
#pragma once

#include "solver/batch/plan_paper.h"

namespace evenmat::batch {

// Fills `plan` and `steps` of the paper's plan; both stay empty if it has no layouts. Sheets that bases are
// cut from come first, then those of an earlier stock, then those that there are more of. A leftover is worth
// keeping when both its sides are as wide as a hand can hold and one is twice that (common practice, no
// source), and so is an offcut of the work itself; the edge that was trimmed off first never is.
void lay_out(PlannedPaper& planned, const BatchTrimmer& trimmer);

// "A" to "Z", "AA", "AB", ...
std::string letter_of(std::size_t index);

}  // namespace evenmat::batch
