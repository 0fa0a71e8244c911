// Of a card that cannot be built: how it would lie if what cannot hold were missed by as little as can be, so
// that it can be drawn and one sees where it clashes. Nothing a blade may be set to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// Something that does not hold in the nearest card.
struct Miss {
  enum class Kind {
    sticks_out,  // past the edge of what it is on
    overlaps,    // lies over another layer that it may not lie over
    too_near,    // a border, distance, gap or clearance is less than is wished
    too_far,     // ... more than is wished
    off_size,    // a size is not the one that is wished
    other        // an entry of `rules`, and what else has no place of its own
  };
  Kind kind = Kind::other;
  std::vector<std::string> names;  // the layers or windows it is about, the one that is wished first; of a
                                   // cut-back "reveal"
  std::string says;                // the wish, in a card maker's words; empty for what is given
  Spot spot;                       // of the wish; none for what is given
  Rational by;                     // how much is missing, > 0
  bool across = true;              // it is missing from left to right; else from top to bottom
  // Where, as a rectangle on a face (origin top left, x right, y down, seen facing it; on a tilted layer as
  // it would be before that turn): what sticks out; what both cover; of the layer that is too near or too
  // large the strip by which it is, as long as the layer; beside one that is too far or too small the strip
  // that it would have to reach over. Absent where it has no place.
  struct Place {
    std::string face;
    Rational left, top, width, height;
  };
  std::optional<Place> place;
};

struct NearestCard {
  std::size_t version = 0;  // the first whose lengths cannot be: 0 the plain card, then the variants in order
  SizedVersion sized;       // sizes and places; nothing of what is seen, closed or in the post
  std::vector<Miss> misses;       // the largest first; none where marks alone stand in the way
  bool off_marks = false;         // marks alone stand in the way of some wishes: some sizes lie between them
  std::vector<Rational> lengths;  // of that version, by variable of `rules_of(card)`
};

// Absent when the time ran out, when only areas, thickness or weight stand in the way (nothing is out of its
// place then), or when every version can be built. What is missed is least in total
// (solver/why/nearest_rules.h says how it counts), and of the same total what stands later in the file is
// missed; beside that lengths keep to the choosing order. A wish that every miss leaves alone holds exactly,
// but for a place beside another whose gap is missed already. `limit`: seconds.
std::optional<NearestCard> nearest_card(const Card& card, double limit);

}  // namespace evenmat
