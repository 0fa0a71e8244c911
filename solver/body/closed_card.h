// The card as a thing in the hand: what of its layers is seen, how thick it is closed, what it weighs, how
// far round it is. From a card and its exact sizes; decides nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/body/sheets.h"

namespace evenmat {

struct PlacedPiece;
struct SizedVersion;

// Shares of a layer's paper, copies together, its own windows apart. Exact; where something tilted has a part
// in it, rounded down to 1e-9, its place being known within 1e-9.
struct Shown {
  Rational open;    // to someone who looks at its face
  Rational closed;  // with the card closed, from the side to which it looks
};

// One of the things that lie over each other where the card is thickest.
struct ThickPart {
  enum class Kind { layer, leaf, foam };  // leaf: of the base; a layer's adhesive counts with it
  std::string what;                       // "the front", "the foam under boat", "sea panel"
  Rational thickness;
  Kind kind = Kind::layer;
};

struct ClosedCard {
  Size front;     // the closed base, before cutting back
  Size over_all;  // with all that reaches past its edges
  // Of the closed card with the thickest place on it: papers, adhesive and foam summed over each overlap.
  // What is known; `no_thickness` names the papers of which none is stated, each once, "" for things without
  // a paper.
  Rational thickness;
  std::vector<ThickPart> thickest;  // from the back to the front
  Point thickest_at;                // a point in that place, in the closed card's frame
  std::vector<std::string> no_thickness;
  Rational grams;  // of the papers; likewise
  std::vector<std::string> no_weight;
  // Half the way around the card, across (against an envelope's width) and down: of the line where it is
  // most. Bounds from above, within 1e-9 of the unit.
  Rational girth_across, girth_down;
};

// Of the layers and windows in the order of `version.pieces` (windows: 0, 0).
std::vector<Shown> shown_of(const Card& card, const Design& design, const SizedVersion& version);

// A leaf of the base or a copy of a layer, as it lies in the closed card: in the closed card's frame, seen
// facing its front.
struct ClosedPaper {
  std::optional<std::size_t> piece;  // in `version.pieces`; none: a leaf
  std::string leaf;                  // the name of that
  std::size_t depth = 0;             // of its leaf: 0 foremost
  bool toward = true;                // a layer that looks the way the front does
  Sheet sheet;                       // without thickness
};

// All papers of the closed card from the back to the front.
std::vector<ClosedPaper> closed_pile(const Card& card, const Design& design, const SizedVersion& version);

ClosedCard closed_card_of(const Card& card, const Design& design, const SizedVersion& version);

}  // namespace evenmat
