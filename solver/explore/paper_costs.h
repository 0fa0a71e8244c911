// What the paper of one batch comes to for many sizes of the same card: papers whose pieces have the same
// sizes are planned once. Knows nothing of which sizes there could be.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
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

class PaperCosts {
 public:
  // `card` must outlive it. Pre: no mistakes in it as a batch.
  PaperCosts(const Card& card, std::chrono::steady_clock::time_point until);
  ~PaperCosts();
  PaperCosts(const PaperCosts&) = delete;
  PaperCosts& operator=(const PaperCosts&) = delete;

  // Of the whole batch, spares among it. Only sizes and blanks of `sized` count, but for offcuts of windows
  // and hollow mats also places. May be called from several threads at once; the answer does not depend on
  // which asks first.
  std::vector<PaperCost> of(const SizedCard& sized, bool cards_a_sheet = false);

  // Of the same papers, in the same order. Likewise.
  std::vector<PaperBound> bounds(const SizedCard& sized);

  // Of each paper, for every card whose pieces are nowhere smaller than those of `smallest`; nothing is
  // bounded for a paper that may be cut from offcuts of the work.
  std::vector<PaperBound> at_least(const SizedCard& smallest);

  // True once a plan could have been better with more time.
  [[nodiscard]] bool time_ran_out() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace evenmat::exploring
