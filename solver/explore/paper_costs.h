// What the paper of one batch comes to for many sizes of the same card: papers whose pieces have the same
// sizes are planned once. Knows nothing of which sizes there could be.
#pragma once

#include <chrono>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/batch/gather.h"
#include "solver/batch/trimmer.h"
#include "solver/explore_card.h"

namespace evenmat::exploring {

class PaperCosts {
 public:
  // `card` must outlive it. Pre: no mistakes in it as a batch.
  PaperCosts(const Card& card, std::chrono::steady_clock::time_point until);

  // Of the whole batch, spares among it. Only sizes and blanks of `sized` count, but for offcuts of windows
  // and hollow mats also places. May be called from several threads at once; the answer does not depend on
  // which asks first.
  std::vector<PaperCost> of(const SizedCard& sized, bool cards_a_sheet = false);

  // A bound on the cost (the sheets, where no costs are stated) of each paper, in order, for every card whose
  // pieces are nowhere smaller than those of `sized`; 0 for a paper that may be cut from offcuts of the work.
  std::vector<Rational> at_least(const SizedCard& smallest);

  [[nodiscard]] bool time_ran_out() const;

 private:
  // to be written
};

}  // namespace evenmat::exploring
