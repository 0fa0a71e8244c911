#include "solver/search/chains.h"

#include <map>
#include <set>

namespace evenmat {
namespace {

using Reach = std::map<std::size_t, std::set<std::size_t>>;

// Everything further along than each rectangle, given what is next to it.
Reach followed(const Reach& next) {
  Reach all;
  for (const auto& [start, first] : next) {
    std::set<std::size_t>& reached = all[start];
    std::vector<std::size_t> waiting(first.begin(), first.end());
    while (!waiting.empty()) {
      const std::size_t at = waiting.back();
      waiting.pop_back();
      if (!reached.insert(at).second) continue;
      if (const auto on = next.find(at); on != next.end()) {
        waiting.insert(waiting.end(), on->second.begin(), on->second.end());
      }
    }
  }
  return all;
}

bool leads(const Reach& reach, std::size_t from, std::size_t to) {
  const auto found = reach.find(from);
  return found != reach.end() && found->second.contains(to);
}

}  // namespace

std::vector<Standing> standings(const Rules& rules) {
  Reach rightward;
  Reach downward;
  for (const Separation& separation : rules.separations) {
    if (!separation.stated) continue;
    Reach& next = *separation.stated < 2 ? rightward : downward;
    const bool first_leads = *separation.stated % 2 == 0;
    next[first_leads ? separation.first : separation.second].insert(first_leads ? separation.second
                                                                                : separation.first);
  }
  rightward = followed(rightward);
  downward = followed(downward);
  std::vector<Standing> found;
  for (const Separation& separation : rules.separations) {
    const auto either = [&](const Reach& reach) {
      return leads(reach, separation.first, separation.second) ||
             leads(reach, separation.second, separation.first);
    };
    found.push_back(separation.stated                       ? Standing::stated
                    : either(rightward) || either(downward) ? Standing::chained
                                                            : Standing::open);
  }
  return found;
}

}  // namespace evenmat
