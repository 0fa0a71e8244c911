// The words in which open amounts, their values and what cards are compared by are told. Lengths are told in
// the card's unit.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/length.h"
#include "solver/explore_card.h"

namespace evenmat {

// "border of indigo mat", "left border of indigo mat", "cut-back", "line 12".
std::string amount_name(const OpenAmount& open);

// As the card file calls it: "indigo mat.border.left"; "line 12" of an entry of `rules`.
std::string amount_key(const OpenAmount& open);

// "1/8"; of an entry of `rules` the letter of the way.
std::string value_words(const OpenAmount& open, const Rational& value, Unit unit);

// What is open, with how far it goes among the cards listed; and each way of the entries of `rules`.
std::string open_text(const std::vector<OpenAmount>& open, Unit unit);

// "31 %", to the nearest whole per cent, which never looks like none or all of it unless it is.
std::string per_cent_words(const Rational& share);

// "10,200".
std::string many_words(std::size_t count);

// "one", "two", ... up to twelve, then figures.
std::string small_number(std::size_t count);

// What cards are put in order by, as the call names it.
const std::vector<std::string>& best_names();
std::optional<Best> best_called(std::string_view name);

// "the fewest sheets first".
std::string_view best_words(Best best);

}  // namespace evenmat
