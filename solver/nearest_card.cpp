// Each step in a file of its own: which rules are let go and by how much (why/nearest_rules), the choosing as
// for any card, and what does not hold in what comes of it (why/nearest_misses).
#include "solver/nearest_card.h"

#include <utility>

#include "model/versions.h"
#include "solver/answer/version.h"
#include "solver/search/choose.h"
#include "solver/search/system_of.h"
#include "solver/why/nearest_misses.h"
#include "solver/why/nearest_rules.h"

namespace evenmat {
namespace {

std::optional<NearestCard> nearest_version(const Card& card, const Rules& all, std::size_t version,
                                           const Rules& own, Prover& prover) {
  const Design& design = design_of(card, version);
  const auto let_go = least_let_go(own, design, prover);
  if (!let_go) return std::nullopt;
  Choosing choosing = choose(let_go->rules, prover);
  if (choosing.outcome != Outcome::found) return std::nullopt;
  NearestCard nearest;
  nearest.version = version;
  nearest.off_marks = let_go->off_marks;
  nearest.sized = std::move(versions_of(card)[version]);
  nearest.sized.verdict = Verdict::conflict;
  place_version(nearest.sized, card, all, version, choosing.values);
  nearest.misses = misses_of(own, version, design, choosing.values);
  nearest.lengths = std::move(choosing.values);
  return nearest;
}

}  // namespace

std::optional<NearestCard> nearest_card(const Card& card, double limit) {
  Prover prover(limit, 0);
  const Rules rules = rules_of_places(rules_of(card), card);
  try {
    for (std::size_t version = 0; version <= card.variants.size(); ++version) {
      std::vector<bool> only(card.variants.size() + 1, false);
      only[version] = true;
      const Rules own = only_versions(rules, only);
      Prover aside(&prover);
      if (possible(system_of(own), aside)) continue;
      return nearest_version(card, rules, version, own, prover);
    }
  } catch (const OutOfTime&) {  // then it is not known
  }
  return std::nullopt;
}

}  // namespace evenmat
