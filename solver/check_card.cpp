// From a card to what a check tells: why it cannot be built, or what it has to spare.
#include "solver/check_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "solver/quotas.h"
#include "solver/search/system_of.h"
#include "solver/why/explain.h"
#include "solver/why/spare.h"

namespace evenmat {
namespace {

std::vector<std::string> failing_versions(const Card& card, const Rules& rules, Prover& prover) {
  std::vector<std::string> failing;
  for (std::size_t i = 0; i <= card.variants.size(); ++i) {
    std::vector<bool> only(card.variants.size() + 1, false);
    only[i] = true;
    if (possible(system_of(only_versions(rules, only)), prover)) continue;
    failing.push_back(i == 0 ? "" : card.variants[i - 1].name.value);
  }
  return failing;
}

// What the closed card has to spare of its thickness limit, in the version where that is least.
void tell_limits(const Card& card, const SizedCard& sized, std::vector<Spare>& spare) {
  std::map<Spot, Spare> limits;
  for (std::size_t i = 0; i < sized.versions.size(); ++i) {
    const auto& limit = (i == 0 ? card.design : card.variants[i - 1].design).limit.thickness;
    const auto& closed = sized.versions[i].closed;
    if (!limit || !closed) continue;
    const Spare one{fmt::format("the closed card is at most {} thick", limit->text), limit->spot,
                    limit->value - closed->thickness};
    const auto [known, fresh] = limits.try_emplace(limit->spot, one);
    if (!fresh && one.by < known->second.by) known->second = one;
  }
  std::erase_if(spare, [&](const Spare& one) { return limits.contains(one.spot); });
  for (const auto& entry : limits) {
    const Spare& one = entry.second;
    const auto after = std::find_if(spare.begin(), spare.end(), [&](const Spare& other) {
      return std::pair(other.by, other.spot) > std::pair(one.by, one.spot);
    });
    spare.insert(after, one);
  }
}

// Wishes that allow something beside what they ask: to reach past an edge, to cut the front back, to be
// raised.
std::set<Spot> spots_that_allow(const Card& card) {
  std::set<Spot> spots;
  for (std::size_t i = 0; i <= card.variants.size(); ++i) {
    const Design& design = i == 0 ? card.design : card.variants[i - 1].design;
    if (design.base.cut_back) spots.insert(design.base.cut_back->by.spot);
    for (const Piece& piece : design.pieces) {
      for (const auto* wish : {&piece.overhang, &piece.tuck}) {
        if (*wish) spots.insert((*wish)->spot);
      }
      for (const auto* length : {&piece.raised, &piece.adhesive}) {
        if (*length) spots.insert((*length)->spot);
      }
      if (piece.show) spots.insert(piece.show->spot);
    }
  }
  return spots;
}

void tell_spare(const Card& card, const Rules& rules, Prover& prover, const CheckOptions& options,
                CheckedCard& checked) {
  checked.sized = size_card(card, {prover.seconds_left(), options.seed, false});
  const SizedCard& sized = *checked.sized;
  checked.verdict = sized.verdict;
  for (const SizedVersion& version : sized.versions) {
    // What versions share is told once.
    for (const Remark& warning : version.warnings) {
      const auto same = [&](const Remark& told) {
        return told.spot == warning.spot && told.says == warning.says;
      };
      if (std::none_of(checked.warnings.begin(), checked.warnings.end(), same))
        checked.warnings.push_back(warning);
    }
  }
  if (sized.lengths.empty()) return;
  checked.spare = spare_of(rules_of(card), sized.lengths);
  tell_limits(card, sized, checked.spare);
  try {
    Inquiry inquiry(rules, prover);
    if (options.at_work) options.at_work("asking which rules say nothing new");
    checked.idle = idle_rules(inquiry);
    // Left out, these would not be free but gone, and the card another.
    const std::set<Spot> allowing = spots_that_allow(card);
    std::erase_if(checked.idle, [&](const Remark& idle) { return allowing.contains(idle.spot); });
    checked.pulling = held_off(inquiry, sized.lengths, card.unit);
  } catch (const OutOfTime&) {
    checked.warnings.push_back({{}, "Time ran out before it was known which wishes say nothing new."});
  }
}

}  // namespace

CheckedCard check_card(const Card& card, std::string_view text, const CheckOptions& options) {
  CheckedCard checked;
  Prover prover(options.limit, options.seed);
  Rules rules = rules_of(card);
  try {
    if (options.at_work) options.at_work("asking whether it can be built");
    rules = with_quotas(card, std::move(rules), prover);
    checked.failing = failing_versions(card, rules, prover);
    if (checked.failing.empty()) {
      tell_spare(card, rules, prover, options, checked);
    }
  } catch (const OutOfTime&) {
    checked.verdict = Verdict::undecided;
  }
  if (!checked.failing.empty()) {
    const auto write = [&](const Card& changed) {
      Prover aside(&prover);
      return with_quotas(changed, rules_of(changed, PileSet::every_certain), aside);
    };
    Explanation explanation = explain(card, text, write, prover, options);
    checked.verdict = Verdict::conflict;
    checked.conflicts = std::move(explanation.conflicts);
    checked.all_conflicts = explanation.all_conflicts;
    checked.mend = std::move(explanation.mend);
    checked.mend_known = explanation.mend_known;
  }
  for (Remark& remark : unused_names(card)) checked.warnings.push_back(std::move(remark));
  return checked;
}

}  // namespace evenmat
