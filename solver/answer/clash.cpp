#include "solver/answer/clash.h"

#include <algorithm>

#include "solver/search/system_of.h"

namespace evenmat {

Clash find_clash(const Rules& rules, Prover& prover) {
  std::size_t wishes = 0;
  for (const Rule& rule : rules.rules) wishes = std::max(wishes, rule.wish + 1);
  Clash clash;
  std::vector<bool> counts(wishes, true);
  std::size_t wish = wishes;
  try {
    clash.only_marks = possible(system_of(rules, {}, false), prover);
    // Leave out wishes from the end of the file on, as long as the rest still cannot hold.
    while (wish-- > 1) {
      counts[wish] = false;
      if (possible(system_of(rules, counts), prover)) counts[wish] = true;
    }
  } catch (const OutOfTime&) {
    clash.smallest = false;
    if (wish < wishes) counts[wish] = true;
  }
  for (wish = 1; wish < wishes; ++wish) {
    const bool stated = std::any_of(rules.rules.begin(), rules.rules.end(), [&](const Rule& rule) {
      return rule.origin == Origin::stated && rule.wish == wish;
    });
    if (stated && counts[wish]) clash.wishes.push_back(wish);
  }
  return clash;
}

}  // namespace evenmat
