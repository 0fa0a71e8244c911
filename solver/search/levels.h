// Places on a line kept apart by at least so much, where some of the distances are spaces or sizes to be
// raised: the smallest as far as it goes, then the next, and so on. Exact, in whole numbers of a unit fine
// enough for every length in it.
#pragma once

#include <optional>
#include <vector>

#include "model/rational.h"

namespace evenmat {

// Wide enough for lengths in a fine unit times the counts met on the way; `TooFine` is thrown before it is
// not.
__extension__ typedef __int128 Wide;
__extension__ typedef unsigned __int128 UnsignedWide;
struct TooFine {};

// place[to] >= place[from] + length, plus the level of `entry` if there is one. Place 0 is the origin.
struct Arc {
  int from = 0;
  int to = 0;
  Wide length = 0;
  int entry = -1;
};

// A length in whole units of 1 / scale; throws TooFine. The scale must fit the length.
Wide wide_of(const Rational& value, const Integer& scale);

// Rules as arcs. The greatest common level of all entries that still can move is where a circle of arcs
// closes without slack; it is found from above, each circle too long giving the next level to try (Newton's
// method on the ratio of a circle's slack to the number of its entries, as for the minimum ratio cycle
// problem: Lawler, Combinatorial Optimization: Networks and Matroids, 1976; from memory).
class Levels {
 public:
  // `scale` units make one of the card's; `grid` > 0: levels are multiples of it (then all lengths are).
  Levels(int places, int entries, Wide scale, Wide grid)
      : places_(places), active_(static_cast<std::size_t>(entries), true), scale_(scale), grid_(grid) {}

  void add(const Arc& arc) { arcs_.push_back(arc); }
  // How many arcs there are, and back to so many: for trying some and taking them off again.
  [[nodiscard]] std::size_t arcs() const { return arcs_.size(); }
  void drop_to(std::size_t arcs) { arcs_.resize(arcs); }

  // Whether the arcs can hold with every entry that still moves at `level` or more (absent: anywhere).
  [[nodiscard]] bool possible(const std::optional<Rational>& level) const;

  struct Step {
    enum class Kind {
      raised,     // `entries` are settled at `level`
      trade_off,  // each of `entries` could be above `level`, but not all of them (on a grid)
      free,       // nothing limits what is left
      impossible
    };
    Kind kind = Kind::free;
    Rational level;
    std::vector<int> entries;
  };
  // The next level; entries it settles keep it from then on.
  Step next();

  // Settles an entry at a level that it shall not exceed.
  void hold(int entry, const Rational& level);

  // The least place of every point that satisfies the arcs, the origin at 0. Entries that still move count
  // as 0. Needs every place to be bounded from the origin.
  [[nodiscard]] std::optional<std::vector<Rational>> least_places() const;

  [[nodiscard]] bool moves(int entry) const { return active_[static_cast<std::size_t>(entry)]; }

 private:
  struct Ratio {  // over / under, in units of 1 / scale_
    Wide over = 0;
    Wide under = 1;
  };
  // The arcs of a circle that is too long with the entries at `level` (`raised`, if any, a grid step higher).
  [[nodiscard]] std::vector<std::size_t> circle(const Ratio& level, int raised = -1) const;
  [[nodiscard]] Rational in_units(const Ratio& ratio) const;
  [[nodiscard]] Ratio in_scale(const Rational& length) const;
  void refine(Wide factor);
  void settle(int entry, Wide level);

  int places_;
  std::vector<Arc> arcs_;
  std::vector<bool> active_;
  Wide scale_;
  Wide grid_;
};

}  // namespace evenmat
