// Paper that the work itself gives up: what a cut-back takes off a front, what comes out of windows, the
// hidden middles of hollow mats. Not what may be cut from it.
#pragma once

#include <string>
#include <vector>

#include "solver/batch/gather.h"

namespace evenmat::batch {

struct HiddenMiddle {
  Rational left, top;  // from the mat's own edges
  Size size;
};

// What may be cut away of a hollow mat under each layer on it that is sure to hide it, less a lip to glue
// that to. In the card's unit.
std::vector<HiddenMiddle> hidden_middles(const SizedVersion& version, const Piece& mat, Unit unit);

// Of one paper, as many as `counts` make, in the unit of the batch; each lies as it stood in its face or
// layer. Those that are narrower than 1/2 in (12 mm) either way are left out.
std::vector<CutSheet> offcuts_of(const std::vector<BatchCard>& cards, const Counts& counts,
                                 const std::string& paper);

}  // namespace evenmat::batch
