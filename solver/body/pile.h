// The layers on one face as they lie over one another: every copy of every layer a sheet of paper in the
// face's frame, turned with what it lies on. Knows nothing of rules.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/body/sheets.h"
#include "solver/size_card.h"

namespace evenmat {

struct Lying {
  std::size_t piece = 0;  // in `version.pieces`
  Sheet sheet;            // without thickness; its windows are openings
};

// From the lowest to the topmost. On one thing layers lie in file order; one that is `over` another lies
// above it and all that is on it, wherever on the face that one lies; one on a window of a layer beneath that
// layer; what is on a layer comes directly above it. Angles are kept within 1e-12, quarter turns exactly;
// sizes exactly.
std::vector<Lying> pile_on(const Design& design, const SizedVersion& version, const std::string& face);

// The windows cut straight into a face, in its frame.
std::vector<Quad> windows_in(const SizedVersion& version, const std::string& face);

}  // namespace evenmat
