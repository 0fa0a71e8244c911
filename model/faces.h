// The faces of a base: their names, sizes and the frame in which rules about them compare.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/card.h"

namespace evenmat {

// A face as seen facing it, origin at its own top left corner before any cutting back.
struct Face {
  std::string name;   // "front", "inside", "inside front", "back"; "reveal" is what a cut-back lays open
  std::string frame;  // faces with the same frame share coordinates: "front", "reveal" and "inside" do
  Size whole;         // before cutting back
  // The edge of this face that a cut-back moves inward (front, inside front), if any.
  std::optional<Edge> trimmed;
};

// All faces of a base that has geometry (flat, side, top), "reveal" included when the front is cut back.
// Empty for a fold that has none yet.
std::vector<Face> faces(const Base& base);

// The names a piece may be `on` for this base whatever its geometry, for checking names as they are read.
std::vector<std::string> face_names(const Base& base);

// The face that a piece lies on in the end when it is `on` the thing named: through layers down to the face;
// for "reveal" and a window cut in the front of a folded card the page inside; for a window cut in a layer
// what that layer is on.
std::string face_of(const Design& design, const std::string& on);

// The edge that is not at the fold and opens: right for a side fold, bottom for a top fold, unless stated.
Edge free_edge(const Base& base);

}  // namespace evenmat
