// A card checked as it is stated, and what `check` tells of that: for every command that has to say why a
// card cannot be built.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "cli/json_check.h"
#include "model/card.h"
#include "solver/check_card.h"

namespace evenmat {

struct CheckTelling {
  const Source& source;  // the text that the card was read from
  const Card& card;
  double limit;  // seconds
  bool json;
  const Style& out;
};

// Conflicts are told through `meanwhile` as they are found, unless the answer is in JSON.
CheckedCard check_aloud(const CheckTelling& telling, const Meanwhile& meanwhile);

// What is left to tell. `way_to_mend`: lines that say how to have changes made.
Answer answer_of(const CheckTelling& telling, const CheckedCard& checked, std::string_view way_to_mend,
                 const std::optional<Mended>& mended = {});

// The limit was reached before there was an answer.
Answer not_in_time(double limit);
std::string limit_told(double limit);  // for standard error

}  // namespace evenmat
