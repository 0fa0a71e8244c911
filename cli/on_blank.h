// Where what lies on a face of the base is found on its flat blank, with the side up that lies up to be
// scored. Sizes alone: how the blank is folded is in model/folding.h.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "model/folding.h"
#include "solver/size_card.h"

namespace evenmat {

// A rectangle; in the frame of its face, or on the blank from its left and top edge.
struct Patch {
  Rational left, top;
  Size size;
};

// The upright box around a piece, in the frame of its face.
Patch patch_of(const PlacedPiece& placed);

struct OnBlank {
  const Leaf* leaf = nullptr;  // of the folding given
  Patch patch;                 // seen from above, so mirrored where the face looks down
};

// The parts of a patch on a face ("reveal" too), one for each leaf it reaches: several only on the front of a
// gate, whose doors share it. Of that what lies between the doors is on neither.
std::vector<OnBlank> on_blank(const Design& design, const Folding& folding, const std::string& face,
                              const Patch& patch);

}  // namespace evenmat
