// Why a list of rules cannot hold: its conflicts with their stories and changes, and the smallest set of
// changes for the whole card.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "solver/check_card.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

struct Explanation {
  std::vector<Conflict> conflicts;
  bool all_conflicts = true;
  std::vector<Change> mend;
  bool mend_known = true;
};

// From a card to the rules that are explained: `rules_of`, or stricter ones.
using WriteRules = std::function<Rules(const Card&)>;

// `text` is the card's file; changes are tried in it, read anew and written as rules. The rules of `card`
// must be impossible.
Explanation explain(const Card& card, std::string_view text, const WriteRules& write, Prover& prover,
                    const CheckOptions& options);

}  // namespace evenmat
