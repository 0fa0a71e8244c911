// What the paper of one batch comes to for many sizes of the same card: papers whose pieces have the same
// sizes are planned once. Knows nothing of which sizes there could be.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/costs/price_paper.h"
#include "solver/explore_card.h"

namespace evenmat::exploring {

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

  // The same with what bounds it.
  std::vector<PricedPaper> priced(const SizedCard& sized);

  // What the batch wants of each paper, as one string what planning it depends on, and what it comes to with
  // trims of any width and cuts of any length.
  [[nodiscard]] std::vector<batch::PaperNeeds> needs_of(const SizedCard& sized) const;
  static std::string key_of(const batch::PaperNeeds& needs);
  PricedPaper without_limits(const batch::PaperNeeds& needs);

  // Of each paper, for every card whose pieces are nowhere smaller than those of `smallest`; what may be
  // cut from offcuts of the work is left out.
  std::vector<PaperBound> at_least(const SizedCard& smallest);

  // Whether there is paper for so many cards in all; nothing when that was not found out. Pre: of all
  // versions one is made.
  std::optional<bool> enough_for(int cards, const SizedCard& sized);
  // Whether there may be, for some card whose pieces are nowhere smaller.
  bool may_be_enough_for(int cards, const SizedCard& smallest);

  // True once a plan could have been better with more time.
  [[nodiscard]] bool time_ran_out() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace evenmat::exploring
