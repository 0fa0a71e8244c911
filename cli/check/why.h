// Why a card cannot be built and what mends it, as a maker reads it: the conflicts one by one, each with its
// sum and its changes, then the changes for the whole card. Plain text of at most 80 columns.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "model/card.h"
#include "solver/check_card.h"

namespace evenmat {

// How much was told before: changes are numbered on from conflict to conflict.
struct Told {
  std::size_t conflicts = 0;
  std::size_t changes = 0;
};

// A step of a sum as one writes it: what is added or taken off, what that comes to, and what it is.
struct StoryLine {
  std::string sign;           // "+", "-" or nothing
  std::string amount, total;  // "1 1/4", "0.024", "~0.598": what neither rulers nor calipers show is rounded
  std::string says;
};
std::vector<StoryLine> story_lines(const std::vector<StoryStep>& story, Unit unit);

// A conflict: its rules with their lines, the sum, what may be meant, and what mends it.
std::string conflict_body(const Source& source, const Card& card, const Conflict& conflict,
                          const Told& before, const Style& style);

// The same of a card that cannot be built, behind that verdict (the first) or a heading.
std::string conflict_text(const Source& source, const Card& card, const Conflict& conflict,
                          const Told& before, const Style& style);

// What follows the last conflict: which versions are to blame, whether there may be more, and the fewest
// changes that mend the whole card. `limit`: the seconds that were allowed.
std::string mending_text(const Source& source, const Card& card, const CheckedCard& checked, double limit,
                         const Style& style);

}  // namespace evenmat
