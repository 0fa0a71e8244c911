// How one sheet is cut: a tree of parts, each cut straight through from edge to edge into smaller ones, down
// to pieces and what is left. Whole steps of the job's grid; x right, y down, from the sheet's top left
// corner.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/cutting/job.h"

namespace evenmat::cutting {

// A rectangle in hand. One that is cut has two parts or more: side by side from left to right, or from top to
// bottom where the cuts run across (left to right). Between two parts the blade's loss is gone, nothing else.
// No part of a part that is cut is cut the same way again. Waste may be 0 wide: the blade has taken it all.
struct Part {
  enum class What { piece, waste, cut };
  What what = What::waste;
  Measure x = 0, y = 0, width = 0, height = 0;
  std::size_t kind = 0;        // of a piece: in the job's kinds
  bool turned = false;         // of a piece: its width lies down
  bool across = false;         // of one that is cut: the cuts run left to right
  bool order_matters = false;  // of one that is cut: its parts must stay in their order (an untrue edge)
  std::vector<Part> parts = {};
};

// So many sheets that are cut alike.
struct Layout {
  std::size_t sheet = 0;  // in the job's sheets
  int times = 1;
  Part root;
};

// Sets x and y of all parts of `root` from its own, their sizes and their order.
void place_parts(Part& root, Measure blade);

// How many pieces of each kind it gives.
std::vector<int> pieces_in(const Part& root, std::size_t kinds);

// Whether any of its pieces is of one of these kinds.
bool gives_any(const Part& root, const std::vector<bool>& kinds);

// How far it reaches in the way that such cuts follow each other: its height where they run across.
inline Measure reach(const Part& part, bool across) { return across ? part.height : part.width; }

}  // namespace evenmat::cutting
