// Whether a paper would do with fewer sheets, if the trimmer may take off narrower trims than is stated or
// usual.
#pragma once

#include <optional>

#include "solver/batch/plan_paper.h"

namespace evenmat::batch {

// Plans the paper again, with little effort, as if trims could be of any width: what comes out is true of the
// plan found, and no claim that there is none with wider trims. Nothing where that is no better than
// `planned`, the plan (or what is missing) for the same needs. Pre: it has no trouble.
std::optional<NarrowerTrims> with_narrower_trims(const PaperNeeds& needs, const BatchTrimmer& trimmer,
                                                 const PlannedPaper& planned, PaperEffort effort);

}  // namespace evenmat::batch
