// Where several pieces may lie this side or that of one another: every arrangement is tried that could be
// the best, and none that could not.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "solver/search/levels.h"

namespace evenmat {

// One of the options holds: all of its arcs.
struct ArcChoice {
  std::vector<std::vector<Arc>> options;
};

struct Arrangement {
  int places = 1;   // place 0 is the origin
  int entries = 0;  // what is raised: the smallest, then the next, ...
  Wide scale = 1;
  Wide grid = 0;  // see Levels
  std::vector<Arc> arcs;
  std::vector<ArcChoice> choices;
  // Places to be made least, one after the other, among arrangements that are otherwise as good.
  std::vector<int> least;
};

struct Arranged {
  std::vector<Rational> levels;  // ascending
  std::vector<Rational> places;
  bool proven = true;  // false when the search was stopped: there may be better ones
};

// The best arrangement; absent if there is none. `at_least`: any arrangement will do whose levels are no
// worse than these, and none that is worse. `go_on` is asked now and then; when it says no, the best so far
// is returned. Throws TooFine.
//
// Depth first over the choices, the one with the fewest ways left first. A partial arrangement's levels, as
// if the open choices asked nothing, bound those of all its completions; it is left when they are worse
// than the best known.
std::optional<Arranged> arrange(const Arrangement& arrangement,
                                const std::optional<std::vector<Rational>>& at_least,
                                const std::function<bool()>& go_on);

}  // namespace evenmat
