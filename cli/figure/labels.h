// Labels in a column beside a picture, each with a leader to a spot where what it names is seen.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/figure/scene.h"
#include "model/length.h"

namespace evenmat {

struct Labels {
  std::vector<Mark> marks;
  double bottom = 0;  // of the lowest
};

// A thing that is named, and a spot on it.
struct Callout {
  At spot;  // on the page
  std::string name, details;
  double size = 0;  // where there is no room for all, the larger ones keep theirs
};

// In a column to the right of their spots, from the top down in the order of these. Smaller where there are
// many; where even that does not do, the largest, and how many more there are.
Labels callouts(std::vector<Callout> all, const Box& column);

// What is seen of a paper, in the scene's unit: a spot where nothing lies over it, and the box around all of
// that.
struct Sight {
  At spot;
  Box seen;
};

// Of each paper; absent where nothing of it is seen. A window is seen by its edge.
std::vector<std::optional<Sight>> sights_of(const Scene& scene);

// Of every paper of which something is seen, copies once.
std::vector<Callout> names_of(const Scene& scene, const std::vector<std::optional<Sight>>& sights, Unit unit,
                              const Box& picture, double scale);

}  // namespace evenmat
