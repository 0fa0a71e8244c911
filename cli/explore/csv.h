// A list of cards for a spreadsheet: a line of headings, then a line for each card, with commas between the
// values and quotes where they are needed (RFC 4180). Lengths and shares are exact fractions.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "solver/explore_card.h"

namespace evenmat {

std::string explored_csv(const std::vector<OpenAmount>& open, const std::vector<const Alternative*>& cards);

// A line of values, with its end.
std::string csv_line(const std::vector<std::string>& values);

}  // namespace evenmat
