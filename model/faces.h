// The faces of a base: their names, sizes, the frame in which rules about them compare, and where they lie on
// the closed card.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"

namespace evenmat {

// How a face's own directions lie on the closed card, seen facing its front. Faces that look away are turned
// over around a fold, or as the whole card is turned over to look at its back.
enum class Turned { no, across, down };  // across: left and right change places; down: top and bottom

// A face as seen facing it, before any cutting back.
struct Face {
  std::string name;   // "front", "inside", "inside front", "back", "left front", ...; "reveal" is what of the
                      // page behind the front lays open
  std::string frame;  // faces with the same frame share coordinates: those that look the way the front does
  Size whole;         // before cutting back
  Rational left, top;           // of its corner in its frame: 0, 0 unless it shares the closed card's
  std::optional<Edge> trimmed;  // the edge of this face that a cut-back moves inward, if any
  Turned turned = Turned::no;
  Rational closed_left, closed_top;  // its left and top edge on the closed card, seen facing the front
  std::size_t depth = 0;             // of its leaf, closed: 0 foremost
};

// All faces of a base, "reveal" last, where a cut-back, a shorter front leaf or the gap between doors lays
// some of the page behind open. The reveal's `whole` is what is open before any cutting back (0 wide or tall
// if nothing is), and its `trimmed` the edge that a cut-back moves outward.
std::vector<Face> faces(const Base& base);

// The names a piece may be `on` for this base, for checking names as they are read.
std::vector<std::string> face_names(const Base& base);

// The face that a piece lies on in the end when it is `on` the thing named: through layers down to the face;
// for "reveal" and a window cut in a face the page behind it; for a window cut in a layer what that layer is
// on.
std::string face_of(const Design& design, const std::string& on);

// The face seen through an opening in `face`, closed: what lies next behind it and looks the same way. `face`
// itself when nothing does.
std::string face_behind(const Base& base, const std::string& face);

// Whether any of the inside is laid open by the front: a piece can be on "reveal".
bool has_reveal(const Base& base);

// The edges of the reveal behind which the front lies: of the reveal between two doors both. Needs one.
std::vector<Edge> edges_at_front(const Base& base);

// The edge that is not at the fold and opens: right for a side or tri fold, bottom for a top fold, left for a
// z, unless stated. Of a gate the doors' meeting edge: right, of the left or upper door.
Edge free_edge(const Base& base);

}  // namespace evenmat
