// A card whose open amounts were stated, chosen by the steps of `size`.
#pragma once

#include <chrono>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "model/card.h"
#include "solver/quotas.h"
#include "solver/rule.h"
#include "solver/search/prover.h"
#include "solver/size_card.h"

namespace evenmat::exploring {

class HeldCards {
 public:
  // `more`: rules that hold beside the card's own. Both must outlive it.
  HeldCards(const Card& card, const std::vector<Rule>& more, std::chrono::steady_clock::time_point until);

  // The card as `stated` has it, which differs from it in wishes alone; it points into the card itself. Its
  // verdict says whether there is one; nothing when time ran out. May be called from several threads at once.
  [[nodiscard]] std::optional<SizedCard> as(const Card& stated) const;

  // Whether a card that satisfies the rules may still be refused: for what is seen, thick or heavy.
  [[nodiscard]] bool asks_more_than_rules() const { return asks_more_; }

 private:
  // A prover of one's own, since each serves one thread; given back when the card is done.
  [[nodiscard]] std::unique_ptr<Prover> take_prover() const;
  void give_back(std::unique_ptr<Prover> prover) const;
  [[nodiscard]] std::optional<SizedCard> filled(Rules rules, Prover& prover) const;

  const Card& card_;
  const std::vector<Rule>& more_;
  std::chrono::steady_clock::time_point until_;
  std::vector<Quota> quotas_;
  bool asks_more_ = false;
  mutable std::mutex mutex_;
  mutable std::vector<std::unique_ptr<Prover>> idle_;
};

}  // namespace evenmat::exploring
