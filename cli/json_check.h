// What `check` answers as one JSON object. Lengths are exact fractions in the card's unit, as strings;
// changes carry the numbers under which they can be chosen. Every function ends its text with a line end.
#pragma once

#include <optional>
#include <string>

#include "model/card.h"
#include "solver/check_card.h"
#include "solver/check_hand.h"

namespace evenmat {

// A card file written with changes, and whether it can be built so (absent when that is not known).
struct Mended {
  std::string file;
  std::optional<bool> builds;
};

std::string json_check(const Card& card, const CheckedCard& checked, const std::optional<Mended>& mended);

std::string json_hand(const Card& card, const HandCheck& hand, const Rational& error);

std::string json_measured(const Card& card, const MeasuredCard& measured, const Rational& tolerance);

}  // namespace evenmat
