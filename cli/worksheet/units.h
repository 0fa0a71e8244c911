// Lengths as a ruler shows them, for pages that are read beside one of inches or of millimetres.
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

// A length as its own ruler shows it: as it is where it is whole 1/64 in or 1/10 mm, else the nearest 1/32 in
// or 1/2 mm, with "about". The number alone.
std::string ruler_length(const Rational& length, Unit unit);
std::string ruler_size(const Size& size, Unit unit);

}  // namespace evenmat
