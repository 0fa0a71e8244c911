// How wide and tall the bounding box of a tilted rectangle is. Exact bounds only; no drawing here.
#pragma once

#include "model/rational.h"

namespace evenmat {

// Bounds from above, within 1e-12, of |cos| and |sin| of an angle; exact at multiples of 90 degrees.
struct TiltBounds {
  Rational cos = 1;
  Rational sin = 0;
};
TiltBounds tilt_bounds(const Rational& degrees);

}  // namespace evenmat
