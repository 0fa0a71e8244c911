// Lengths in inches and millimetres, for pages that are read with either ruler.
#pragma once

#include <string>

#include "model/length.h"

namespace evenmat {

// The unit a card is not in.
Unit other_unit(Unit unit);

// A length of a card in `unit`, as the other ruler shows it: inches to the nearest sixteenth, millimetres to
// the nearest half, "about" before what is not exact. The number alone.
std::string other_length(const Rational& length, Unit unit);
// "about 76 x 133.5": one "about" for both.
std::string other_size(const Size& size, Unit unit);

}  // namespace evenmat
