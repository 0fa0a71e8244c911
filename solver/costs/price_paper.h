// One paper planned for what it costs, and for what it must cost at least. Nothing of cards.
#pragma once

#include <string>

#include "solver/batch/gather.h"
#include "solver/batch/plan_paper.h"
#include "solver/batch/trimmer.h"
#include "solver/explore_card.h"

namespace evenmat::exploring {

// What no plan of a paper can do without.
struct PaperBound {
  std::string paper;
  bool never = false;  // it cannot be cut at all, however many sheets there are
  int missing = 0;     // so many sheets more than there are
  int sheets = 0;
  Rational cost;  // 0 where no costs are stated
  friend bool operator==(const PaperBound&, const PaperBound&) = default;
};

struct PricedPaper {
  PaperCost cost;  // without `cards_a_sheet`
  PaperBound bound;
  bool time_ran_out = false;
};

PricedPaper price_paper(const batch::PaperNeeds& needs, const batch::BatchTrimmer& trimmer,
                        const batch::PaperEffort& effort);

bool has_offcuts(const batch::PaperNeeds& needs);

}  // namespace evenmat::exploring
