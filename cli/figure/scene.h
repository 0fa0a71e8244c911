// What is seen of a sized card from one side, as papers that lie over one another: from exact sizes to
// outlines. In the card's unit, origin at the scene's own top left corner, x right, y down. Places nothing on
// a page.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// A leaf of the base, a layer (each copy of one), or a window's edge.
struct ScenePaper {
  enum class Kind { leaf, layer, window };
  Kind kind = Kind::leaf;
  std::string name;                    // of a leaf its face
  const PlacedPiece* piece = nullptr;  // none for a leaf
  std::size_t copy = 0;                // which of several copies
  Size size;                           // as it is cut (of a leaf as it lies, trimmed)
  Ring outline;
  std::vector<Ring> openings;
  std::optional<Ring> artwork;
};

struct SceneFold {
  At from, to;
};

struct Scene {
  std::string title;  // "Closed", "The front", ...
  std::string face;   // of a single face
  Box extent;         // around all of it; what reaches past the paper below too
  At origin;  // of a face or the closed card: where the scene's corner lies in the frame that rules use
  std::vector<ScenePaper> papers;  // from the lowest to the topmost
  std::vector<SceneFold> folds;
  std::vector<SceneFold> front_edges;  // on the page behind the front: where the front ends, and it lies open
};

// Whether there is foam under a layer.
bool is_raised(const Piece& layer);

// What points into `version` is good as long as that stands.
// Closed, as someone sees it who faces the front: with what cut-backs and windows lay open.
Scene closed_scene(const Card& card, const Design& design, const SizedVersion& version);
// Opened out, the side up that lies up to be scored. None of a flat card.
std::optional<Scene> open_scene(const Card& card, const Design& design, const SizedVersion& version);
// Each face that has something on it or cut in it, in the order of the leaves; of a card with nothing on it
// its front.
std::vector<Scene> face_scenes(const Card& card, const Design& design, const SizedVersion& version);
Scene face_scene(const Card& card, const Design& design, const SizedVersion& version,
                 const std::string& name);

}  // namespace evenmat
