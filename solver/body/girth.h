// How far it is around a pile of boxes that lies flat: what an envelope has to reach round. Knows no card.
#pragma once

#include <vector>

#include "model/rational.h"

namespace evenmat {

// A box of paper or foam that adds `thickness` over its rectangle. Things that are tilted come as the upright
// rectangle around them.
struct Pad {
  Rational left, top, width, height, thickness;
};

// Half the length of a band pulled tight around the pile along each line across (or, `down`, along each line
// from top to bottom), of the line where it is most. The band goes around the convex outline of the section;
// all thickness is taken to stand on one flat side, which is never less than when it bulges on both. A bound
// from above, within `within` of the truth: roots are rounded up, and exact where they are rational. 0 when
// there is nothing. Needs within > 0.
Rational half_girth(const std::vector<Pad>& pads, bool down, const Rational& within);

}  // namespace evenmat
