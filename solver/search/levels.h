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
Integer integer_of(Wide value);

// Places that satisfy the arcs with every entry that moves at one level: quick to ask what more they bear.
class Footing {
 public:
  // Whether the arcs hold with these as well. Only what the new arcs push is followed; places that push an
  // arc's own start on are a circle that is too long.
  [[nodiscard]] bool bears(const std::vector<Arc>& arcs) const;

 private:
  friend class Levels;
  struct Push {
    std::size_t to;
    Wide length;
  };
  std::vector<Wide> place_;
  std::vector<std::vector<Push>> pushes_;
};

// Rules as arcs. The greatest common level of all entries that still can move is where a circle of arcs
// closes without slack; it is found from above, each circle too long giving the next level to try (Newton's
// method on the ratio of a circle's slack to the number of its entries, as for the minimum ratio cycle
// problem: Lawler, Combinatorial Optimization: Networks and Matroids, 1976; from memory).
class Levels {
 public:
  // `scale` units make one of the card's; `grid` > 0: levels are multiples of it (then all lengths are).
  Levels(int places, int entries, Wide scale, Wide grid)
      : places_(places),
        active_(static_cast<std::size_t>(entries), true),
        settled_(static_cast<std::size_t>(entries), 0),
        scale_(scale),
        grid_(grid) {}

  // Lengths are in the scale given at first, whatever finer one is in use by now.
  void add(const Arc& arc);
  // The places with every entry that still moves at `level` or more (absent: anywhere), if there are any.
  [[nodiscard]] std::optional<Footing> footing(const std::optional<Rational>& level) const;
  // Arcs as they are to be asked of a footing made now with that level.
  [[nodiscard]] std::vector<Arc> for_footing(const std::vector<Arc>& arcs,
                                             const std::optional<Rational>& level) const;

  struct Step {
    enum class Kind {
      raised,     // `entries` are settled at `level`
      trade_off,  // each of `entries` could be above `level`, but at most `above` of them, by one grid step
                  // if all of those are to be (on a grid)
      free,       // nothing limits what is left
      impossible
    };
    Kind kind = Kind::free;
    Rational level;
    std::vector<int> entries;
    int above = 0;
  };
  // The next level; entries it settles keep it from then on. A trade-off settles nothing.
  Step next();

  // Asks no more of entries than to be at `level` or above.
  void let_be(const std::vector<int>& entries, const Rational& level);

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
  [[nodiscard]] Ratio ratio_of(const std::optional<Rational>& level) const;
  [[nodiscard]] Wide weight(const Arc& arc, const Ratio& level) const {
    return arc.length * level.under + (arc.entry >= 0 ? level.over : 0);
  }
  [[nodiscard]] Arc in_use(const Arc& arc) const;  // in the scale and with the levels of now
  [[nodiscard]] Rational in_units(const Ratio& ratio) const;
  [[nodiscard]] Ratio in_scale(const Rational& length) const;
  void refine(Wide factor);
  void settle(int entry, Wide level);

  int places_;
  std::vector<Arc> arcs_;
  std::vector<bool> active_;
  std::vector<Wide> settled_;  // the level of an entry that no longer moves
  Wide scale_;
  Wide refined_ = 1;  // how much finer it is than at first
  Wide grid_;
};

}  // namespace evenmat
