// Shares, thicknesses and weights as a report prints them. What was rounded says so; nothing is decided by
// it.
#pragma once

#include <string>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

// Of a share from 0 to 1: "3/4" in eighths, thirds and the like, else percents ("about 44 %"). 0: "nothing".
std::string share_text(const Rational& share);

// As calipers show it: "0.024 in", "about 0.3333 in", "0.3 mm".
std::string thickness_text(const Rational& thickness, Unit unit);

// "6.5 g", and in ounces too where lengths are in inches: "6.5 g (0.23 oz)".
std::string weight_text(const Rational& grams, Unit unit);

}  // namespace evenmat
