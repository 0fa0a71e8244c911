// How far an unsteady hand can shift each measure of a card: every edge that is cut and everything that is
// placed can be off by up to the same amount, either way, each by itself. What may fail because of it is in
// check_hand.h.
//
// - A layer cut by trimmer or by hand has four cut edges, and so has a window; a die, a bought piece and ink
//   have none. A base is cut at its outer edges, and its front again where it is cut back: that one edge ends
//   the front and begins the reveal. Folds are exact.
// - A layer is placed across and down, and takes along all that lies on it. What lies on a window or reveal
//   lies on what is behind it. A window is cut into what it is in and has no placement of its own. Artwork is
//   placed in its layer and keeps its shape.
// - Edges are off from where they are wanted on the face, not from one another: a layer 3 wide with its left
//   edge off by l and its right edge by r is 3 - l + r wide, wherever it is placed.
// - Copies are cut and placed one by one. The edges of their grid, and the two sides of a gap, are those of
//   different copies, unless a single row or column makes them one's own. A rule that speaks of a grid's edge
//   and of the size of one copy is taken to mean different ones.
// - Nothing is glued or cut crooked: an edge is off as a whole, in parallel.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/rule.h"

namespace evenmat {

class HandErrors {
 public:
  // `rules` are those of `card`, and must outlive this.
  HandErrors(const Card& card, const Rules& rules);

  // By what factor each error enters a sum over the card's rectangles: a sum over errors, as if these were
  // its variables. A tilted layer's left and top are its box's, but its own edges' where something that lies
  // on it is measured from them.
  [[nodiscard]] Sum in(const Sum& sum) const;

  // What the hand does there: "cutting the left edge of band", "placing band". Others can have the same name.
  [[nodiscard]] const std::string& name(std::size_t error) const { return names_[error]; }
  [[nodiscard]] std::size_t count() const { return names_.size(); }

  // By edge: how far it is off to the right or down.
  using Edges = std::array<Sum, 4>;

 private:
  struct Shift {
    Sum across, down;
  };
  struct Moved {
    Edges box;  // on the face
    Edges own;  // the cut edges before any tilt
  };
  struct Copies {
    std::size_t cell = 0;
    int columns = 1, rows = 1;
    Moved first, last;  // at the top left, and at the bottom right
  };
  class Builder;
  using Factors = std::map<std::size_t, std::array<Rational, 4>>;  // by rectangle and measure

  void add_copies(const Copies& copies, const std::array<Rational, 4>& own, Factors& all, Sum& errors) const;

  const Rules* rules_;
  std::vector<std::string> names_;       // by error
  std::vector<Moved> moved_;             // by rectangle; empty for copies
  std::map<std::size_t, Copies> grids_;  // by rectangle
};

// By how much errors of up to 1 can move a sum at most, when all go one way.
Rational reach_of(const Sum& errors);

// Whether the hand can break the rule. That a size alone keeps to a least or most because of what paper is
// (a layer is at least a mark wide) is no matter of the hand.
bool is_up_to_the_hand(const Rule& rule);

}  // namespace evenmat
