// Answers as one JSON object, for other programs to read. Lengths are exact fractions in the card's unit, as
// strings; names that are not UTF-8 come out with the odd bytes replaced. Every function ends its text with a
// line end.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "model/spot.h"
#include "solver/size_card.h"

namespace evenmat {

// A sized, undecided or clashing card.
std::string json_answer(const Card& card, const SizedCard& sized);

// A stack as `size_card` answered it.
struct SizedStack {
  const Card* card = nullptr;
  const SizedCard* sized = nullptr;
};
// Several stacks in one object: `verdict`, `unit` and `layers` as of one card (the worst verdict, the first
// stack's unit and layers), and every stack whole in `stacks`.
std::string json_stacks(const std::vector<SizedStack>& stacks);

// What is wrong with the input or the call.
std::string json_mistakes(const std::vector<Remark>& mistakes);

}  // namespace evenmat
