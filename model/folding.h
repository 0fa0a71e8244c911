// How a base is made from one flat blank: its leaves, its score lines, and how the leaves lie over each other
// when the card is closed. Exact arithmetic on what the maker stated; what is trimmed after folding, layers
// and windows are not here.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"

namespace evenmat {

// One leaf of the base. Lengths along the way the leaves follow each other: from left to right (`across`), or
// from top to bottom.
struct Leaf {
  std::string name;    // as told to a maker: "front", "back", "middle", "flap", "left door", ...
  std::string toward;  // the face that looks the way the closed card's front does
  std::string away;    // its other side
  Rational from;       // on the blank, from its left (top) edge, as it lies to be scored
  Rational length;
  bool toward_up = false;  // whether `toward` is the side that looks up then
  Rational closed_from;    // closed: from the left (top) edge of the closed card, seen facing the front
  std::size_t depth = 0;   // closed: 0 foremost; the doors of a gate lie side by side and share theirs
};

struct ScoreLine {
  Rational at;           // from the blank's left (top) edge, as it lies to be scored
  bool up = true;        // what lies beyond it folds up towards you (a valley); else down, away from you
  bool extra = false;    // one of `scores`: makes no leaf of its own
  std::size_t turn = 0;  // which is folded first: 0, 1, ...; extra scores come last
};

struct Folding {
  bool across = true;  // leaves lie side by side and scores run from top to bottom; else the other way round
  bool front_up = false;  // as it lies to be scored the front looks up (z, flat); else the inside does
  Size blank;
  std::vector<Leaf> leaves;       // from the blank's left (top) edge on; one for a flat base
  std::vector<ScoreLine> scores;  // from the blank's left (top) edge on
};

// Of any base whose leaves fit its front (see `trouble_with_leaves`).
Folding folding_of(const Base& base);

// The lengths of the leaves from the blank's left (top) edge on, stated or the fold's usual ones: halves;
// doors that leave `allowance.doors` between them; a flap shorter than its page by `allowance.flap`.
std::vector<Rational> leaf_lengths(const Base& base);

// What keeps the stated leaves from making a card of the stated front, in a maker's words with what would
// mend it; empty when nothing does. Needs `fold`, `front` and `leaves` to have been read.
std::string trouble_with_leaves(const Base& base, Unit unit);

// Whether the leaves follow each other from left to right.
bool folds_across(const Base& base);

}  // namespace evenmat
