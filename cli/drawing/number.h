// Exact lengths as coordinates: only where something is drawn, for nothing is decided by these.
#pragma once

#include "model/rational.h"

namespace evenmat {
inline namespace drawing {

inline double number(const Rational& length) { return length.convert_to<double>(); }

}  // namespace drawing
}  // namespace evenmat
