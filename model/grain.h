// Which way the paper's grain runs to the fold of a base. What to do about it is told in cli/.
#pragma once

#include <optional>

#include "model/card.h"

namespace evenmat {

enum class GrainAtFold { along, across, either };

// `along`: the base folds with the grain. Told for the way that gets most blanks out of a sheet of the base's
// paper, cut in a plain grid; `either` when both ways get as many. Absent for a flat base, and when the grain
// or the sheet is not stated or no sheet is large enough. Sheets of one name that differ: the first that is
// large enough.
std::optional<GrainAtFold> grain_at_fold(const Card& card, const Base& base);

}  // namespace evenmat
