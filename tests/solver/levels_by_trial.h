// Places on a line by trying them all: whole places from 0 to `room`, the origin at 0, and how high the
// entries lie then. Slow and plain, to judge what is found by reasoning.
#pragma once

#include <algorithm>
#include <functional>
#include <vector>

#include "solver/search/arrange.h"
#include "tests/model/cards.h"
#include "tests/solver/dice.h"

namespace evenmat::testing {

inline Arc keep_between(int place, Wide room) { return {place, 0, -room, -1}; }

// Arcs that hold every place but the origin from 0 to `room`.
inline std::vector<Arc> within(int places, Wide room) {
  std::vector<Arc> arcs;
  for (int place = 1; place < places; ++place) {
    arcs.push_back({0, place, 0, -1});
    arcs.push_back(keep_between(place, room));
  }
  return arcs;
}

inline void each_placing(int places, int room, const std::function<void(const std::vector<int>&)>& use) {
  std::vector<int> at(static_cast<std::size_t>(places), 0);
  const std::function<void(std::size_t)> place = [&](std::size_t i) {
    if (i == at.size()) return use(at);
    for (at[i] = 0; at[i] <= room; ++at[i]) place(i + 1);
  };
  place(1);
}

// What an arc leaves between its places beyond its length: for an entry its level, else 0 or more.
template <typename Number>
Number beyond(const Arc& arc, const std::vector<Number>& places, const Number& unit) {
  return places[static_cast<std::size_t>(arc.to)] - places[static_cast<std::size_t>(arc.from)] -
         static_cast<Number>(static_cast<int>(arc.length)) * unit;
}

// The levels of the entries, ascending; empty where the arcs do not hold. One arc each for an entry.
template <typename Number>
std::vector<Number> levels_at(const std::vector<Arc>& arcs, const std::vector<Number>& places,
                              const Number& unit) {
  std::vector<Number> levels;
  for (const Arc& arc : arcs) {
    const Number left = beyond(arc, places, unit);
    if (arc.entry >= 0) {
      levels.push_back(left);
    } else if (left < 0) {
      return {};
    }
  }
  std::sort(levels.begin(), levels.end());
  return levels;
}

// Places within 0 to 6, a few distances between them, one or more of them entries.
inline std::vector<Arc> random_arcs(Dice& dice, int places, int& entries) {
  std::vector<Arc> arcs = within(places, 6);
  entries = 0;
  for (int i = dice.between(2, 5); i > 0; --i) {
    const int from = dice.between(0, places - 1);
    const int to = (from + dice.between(1, places - 1)) % places;
    const bool raised = entries == 0 || dice.one_in(2);
    arcs.push_back({from, to, dice.between(-4, 2), raised ? entries++ : -1});
  }
  return arcs;
}

}  // namespace evenmat::testing
