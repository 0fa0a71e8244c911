// Small cards that mostly cannot be built, and whether some of their wishes can hold, asked in another way
// than the one in which conflicts are sought.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "solver/search/system_of.h"
#include "tests/solver/dice.h"
#include "tests/solver/sized.h"

namespace evenmat::testing {

// By elimination, block by block: another way than the one in which conflicts are sought.
inline bool can_hold(const Rules& rules, const std::vector<Spot>& spots) {
  std::size_t most = 0;
  for (const Rule& rule : rules.rules) most = std::max(most, rule.wish);
  std::vector<bool> counts(most + 1, false);
  for (const Rule& rule : rules.rules) {
    if (std::find(spots.begin(), spots.end(), rule.spot) != spots.end()) counts[rule.wish] = true;
  }
  Prover prover(30, 0);
  return possible(system_of(rules, counts), prover);
}

// Few wishes, and most of them too much: a panel on the front, two things on it, one of them with artwork.
inline std::string faulty_card(unsigned seed) {
  Dice dice(seed);
  const auto length = [&](int low, int high) { return fmt::format("{}/8", dice.between(low, high)); };
  const auto key = [](const std::string& name, const std::string& wish) {
    return fmt::format("{} = \"{}\"\n", name, wish);
  };
  std::string own = key("width", length(20, 36));
  if (dice.one_in(2)) own += key("height", length(30, 46));
  if (dice.one_in(2)) own += key("border", (dice.one_in(2) ? "at least " : "") + length(0, 4));
  std::string first = key("size", length(8, 30) + " x " + length(8, 30));
  if (dice.one_in(2)) first += key("border", fmt::format("{}/16 to 3/4", dice.between(1, 9)));
  std::string second = key("artwork", length(8, 28) + " x 1/2") + key("margin", "at least " + length(0, 3)) +
                       key("width", dice.one_in(3) ? "one of 2, 2 1/2, 3" : length(8, 30));
  if (dice.one_in(2))
    second += key("clear-of", "first").replace(11, 7, "[\"first\"]") + key("clearance", length(1, 6));
  return side_fold + layer("panel", "front", own) + layer("first", "panel", first) +
         layer("second", "panel", second);
}

}  // namespace evenmat::testing
