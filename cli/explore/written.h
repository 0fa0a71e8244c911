// One of the cards of a list written as a card file: the file that it comes from with its amounts stated,
// comments kept.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "cli/new_file.h"
#include "model/card.h"
#include "solver/explore_card.h"

namespace evenmat {

// The text with every open amount stated at its value; absent where one cannot be written.
std::optional<std::string> with_amounts(std::string_view text, const std::vector<OpenAmount>& open,
                                        const std::vector<Rational>& amounts, Unit unit);

// What in a sized card is not as in the other: "the size of indigo mat"; empty where cut sizes and places are
// the same.
std::string difference_of(const SizedCard& one, const SizedCard& other);

struct WriteOutcome {
  Status status = Status::done;
  std::string trouble;  // why nothing was written, in a sentence; empty where it was
};

// Writes it once the new text was read and sized, and comes to the same card.
WriteOutcome write_card(const NewFile& file, std::string_view text, const std::vector<OpenAmount>& open,
                        const Alternative& alternative, Unit unit, double limit);

}  // namespace evenmat
