// Shares and weights as a report prints them. What was rounded says so; nothing is decided by
// it.
#pragma once

#include <string>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

// Of a share from 0 to 1: "3/4" in eighths, thirds and the like, else percents ("about 44 %"). 0: "nothing".
std::string share_text(const Rational& share);

// "6.5 g", and in ounces too where lengths are in inches: "6.5 g (0.23 oz)".
std::string weight_text(const Rational& grams, Unit unit);

}  // namespace evenmat
