// What is asked of areas: a share of a layer that is to be seen, a weight that the card may not pass. Areas
// are no sums of lengths, so no list of rules says it in full; but a card that breaks a quota shows which
// rules every card must keep that keeps it, and adding those as they are broken settles it.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "solver/rule.h"
#include "solver/search/choose.h"
#include "solver/search/prover.h"

namespace evenmat {

// A number times up to two lengths.
struct Area {
  Rational factor;
  std::vector<Variable> of;
};

// The total of `areas` may not be above 0. Every length enters it with one sign only.
struct Quota {
  std::vector<Area> areas;
  std::string says;   // in a maker's words
  Spot spot;          // of the wish or limit
  Rational share;     // of the first of `areas`, that is to be seen; else 0
  Rational limit;     // in grams; 0 for a share
  std::string asked;  // either as written
  std::size_t version = 0;
  std::size_t rectangle = 0;  // whose it is
};

// The quotas of a card. A share is one as far as what hides the layer is sure to lie on it, side by side, or
// it is seen through a window or between two doors; of others only the card as sized can tell.
std::vector<Quota> quotas_of(const Card& card, const Rules& rules);

// Rules, stated by the quota's wish, that every card keeps which keeps the quota, and this one does not: for
// each of its lengths one that says how far that alone would have to change. Empty when it is kept.
std::vector<Rule> broken_by(const Quota& quota, const Rules& rules, const std::vector<Rational>& values);

// Chooses a card of some versions by the rules. One that breaks a quota is chosen anew with those rules,
// which are added; out of time too when that goes on too long.
Choosing choose_within(const std::vector<Quota>& quotas, Rules& rules, const std::vector<bool>& versions,
                       Prover& prover);

// The rules and as many of those as it takes until a card chosen by them keeps every quota, or none can be
// built, version by version. Throws OutOfTime.
Rules with_quotas(const Card& card, Rules rules, Prover& prover);

}  // namespace evenmat
