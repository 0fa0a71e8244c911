// Choosing what is not stated: the seven steps, each proven best before the next.
#pragma once

#include <vector>

#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

enum class Outcome { found, impossible, out_of_time };

struct Choosing {
  Outcome outcome = Outcome::found;
  // By variable; the chosen values, or when out of time the best known. Empty when none are known.
  std::vector<Rational> values;
  // Another card that satisfies the rules, chosen by nothing; empty when none was looked for.
  std::vector<Rational> first;
};

struct ChooseOptions {
  double limit = 30;      // seconds
  unsigned seed = 0;      // of the prover; no answer depends on it
  bool shortcuts = true;  // settle what sums and intervals settle without the prover
};

// The values that satisfy every rule and are chosen by the aims.
Choosing choose(const Rules& rules, const ChooseOptions& options);
// The same with a prover that serves for other questions too; its time and seed count.
Choosing choose(const Rules& rules, Prover& prover, bool shortcuts = true);

}  // namespace evenmat
