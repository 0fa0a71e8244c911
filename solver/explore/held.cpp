#include "solver/explore/held.h"

#include <algorithm>
#include <utility>

#include "solver/answer/version.h"

namespace evenmat::exploring {

HeldCards::HeldCards(const Card& card, const std::vector<Rule>& more,
                     std::chrono::steady_clock::time_point until)
    : card_(card), more_(more), until_(until), quotas_(quotas_of(card, rules_of(card))) {
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const Design& design = design_of(card, version);
    asks_more_ = asks_more_ || design.limit.thickness || design.limit.grams ||
                 std::any_of(design.pieces.begin(), design.pieces.end(),
                             [](const Piece& piece) { return piece.show.has_value(); });
  }
}

std::unique_ptr<Prover> HeldCards::take_prover() const {
  const std::lock_guard lock(mutex_);
  const std::chrono::duration<double> left = until_ - std::chrono::steady_clock::now();
  if (idle_.empty()) return std::make_unique<Prover>(std::max(left.count(), 0.001), 0);
  std::unique_ptr<Prover> prover = std::move(idle_.back());
  idle_.pop_back();
  return prover;
}

void HeldCards::give_back(std::unique_ptr<Prover> prover) const {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(prover));
}

std::optional<SizedCard> HeldCards::filled(Rules rules, Prover& prover) const {
  rules.rules.insert(rules.rules.end(), more_.begin(), more_.end());
  SizedCard sized;
  sized.versions = versions_of(card_);
  const std::vector<bool> all(sized.versions.size(), true);
  const Choosing choosing = choose_within(quotas_, rules, all, prover);
  if (choosing.outcome == Outcome::out_of_time) return std::nullopt;
  if (choosing.outcome == Outcome::impossible) {
    sized.verdict = Verdict::conflict;
    return sized;
  }
  for (std::size_t i = 0; i < sized.versions.size(); ++i) {
    fill_version(sized.versions[i], card_, rules, i, choosing.values);
    sized.verdict = worse(sized.verdict, sized.versions[i].verdict);
  }
  sized.lengths = choosing.values;
  return sized;
}

std::optional<SizedCard> HeldCards::as(const Card& stated) const {
  std::unique_ptr<Prover> prover = take_prover();
  std::optional<SizedCard> sized = filled(rules_of(stated), *prover);
  const auto too_thick = [&](const SizedCard& card) {
    for (std::size_t i = 0; i < card.versions.size(); ++i) {
      if (is_too_thick(card_, i, card.versions[i])) return true;
    }
    return false;
  };
  // As for the card as sized: piles of which it is not certain that they come to one place count too then.
  // If none keeps to the limit then, it is not known whether one does.
  if (sized && sized->verdict != Verdict::conflict && too_thick(*sized)) {
    sized = filled(rules_of(stated, PileSet::all), *prover);
    if (sized && sized->verdict == Verdict::conflict) sized->verdict = Verdict::undecided;
  }
  give_back(std::move(prover));
  return sized;
}

}  // namespace evenmat::exploring
