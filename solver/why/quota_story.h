// Why a share that is to be seen cannot be had, or a weight not be kept: told by the areas of one card that
// keeps everything else, since areas are no sums of lengths.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/check_card.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

struct QuotaStory {
  std::vector<StoryStep> steps;
  Spot spot;  // of the share or limit
  // The share written as it is in that card, or the weight: to a tenth of a gram, rounded up.
  std::string from, to;
  Rational by;  // how far that is from what is asked for
  std::string says;
};

// Told of the card with all else as stated. Absent when none of the wishes at these places is such a quota;
// without steps when there is no card with all else as stated. Throws OutOfTime.
std::optional<QuotaStory> quota_story(const Card& card, const Rules& rules, std::size_t version,
                                      const std::vector<Remark>& wishes, Prover& prover);

}  // namespace evenmat
