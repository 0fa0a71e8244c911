// What a paper lacks, in sentences. No planning.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/batch/paper_job.h"

namespace evenmat::batch {

// "8 1/2 x 11 in".
std::string size_text(const Size& size, Unit unit);

// The kinds that no sheet takes, of whatever there were any number; nothing of them when there is one for
// each.
std::vector<Shortage> too_large(const PaperNeeds& needs, const PaperJob& paper, const BatchTrimmer& trimmer,
                                Unit unit);

// So many more sheets of this size would do, and no fewer than `at_least` would. `alone`: of this size and no
// other.
Shortage missing_sheets(const PaperNeeds& needs, const Size& sheet, int sheets, int at_least, bool alone,
                        Unit unit);

}  // namespace evenmat::batch
