// The labels of a figure, in a column to its right, each with a leader to a spot where what it names is seen.
#pragma once

#include <vector>

#include "cli/draw/scene.h"
#include "cli/drawing/page.h"
#include "model/length.h"

namespace evenmat {

struct Labels {
  std::vector<Mark> marks;
  double bottom = 0;  // of the lowest
};

// Of every paper of which something is seen, copies once. Smaller where there are many; where even that does
// not do, the largest, and how many more there are.
Labels labels_of(const Scene& scene, Unit unit, const Box& picture, double scale, const Box& column);

// A spot on each paper, in the scene's unit, where nothing lies over it: absent where none is.
std::vector<std::optional<At>> spots_seen(const Scene& scene);

}  // namespace evenmat
