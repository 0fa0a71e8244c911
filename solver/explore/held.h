// A card chosen by the steps of `size` while some of its amounts are held at stated values.
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
  // `rules` as of `rules_of(card)`, with whatever else is to hold. Both must outlive it.
  HeldCards(const Card& card, const Rules& rules, std::chrono::steady_clock::time_point until);

  // The card in which these relations hold too. Its verdict says whether there is one; nothing when time ran
  // out. May be called from several threads at once.
  [[nodiscard]] std::optional<SizedCard> with(const std::vector<Relation>& held) const;

  // Whether a card that satisfies the rules may still be refused: for what is seen, thick or heavy.
  [[nodiscard]] bool asks_more_than_rules() const { return asks_more_; }

 private:
  // A prover of one's own, since each serves one thread; given back when the card is done.
  [[nodiscard]] std::unique_ptr<Prover> take_prover() const;
  void give_back(std::unique_ptr<Prover> prover) const;
  [[nodiscard]] std::optional<SizedCard> filled(Rules rules, const std::vector<Relation>& held,
                                                Prover& prover) const;

  const Card& card_;
  const Rules& rules_;
  std::chrono::steady_clock::time_point until_;
  std::vector<Quota> quotas_;
  bool asks_more_ = false;
  mutable std::mutex mutex_;
  mutable std::vector<std::unique_ptr<Prover>> idle_;
};

}  // namespace evenmat::exploring
