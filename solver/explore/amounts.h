// What a card leaves open, as amounts: for each the sums over the card's lengths that it stands for. Only
// what is open; which values there are is in space.h.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/card.h"
#include "solver/exact/system.h"
#include "solver/explore_card.h"
#include "solver/rule.h"

namespace evenmat::exploring {

struct Amount {
  OpenAmount open;
  std::vector<Sum> sums;  // all of them come to the amount; none for a way
  std::vector<Rational>
      one_of;        // the only values, where the wish names them; else any on marks, and as sized
  Rational through;  // one of its values, from which the others are marks away
  std::vector<std::size_t> rules;  // of a way: the rules, one a version, of which that choice holds
};

// The amount of a name and a key with its part, alone.
using AmountName = std::pair<std::string, std::string>;

// In the order of the card file. `values`: of the card as sized, by variable of `rules`. `settled`: the
// system of those rules, settled. What it settles is left out. With `only` that amount alone, also where it
// is not the same on all sides in the card as sized; nothing where it is settled or not there.
std::vector<Amount> open_amounts(const Card& card, const Rules& rules, const System& settled,
                                 const std::vector<Rational>& values,
                                 const std::optional<AmountName>& only = std::nullopt);

// Width and height of every piece of every version, version by version in file order.
std::vector<Sum> sizes_of(const Card& card, const Rules& rules);

}  // namespace evenmat::exploring
