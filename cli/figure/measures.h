// Dimension lines of a figure: widths above the picture, heights to the left of it, the shorter the nearer.
#pragma once

#include <optional>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/figure/labels.h"
#include "cli/figure/scene.h"
#include "model/length.h"

namespace evenmat {

struct Measures {
  std::vector<Mark> marks;
  double above = 0, beside = 0;  // how far they reach from the picture
};

// Of each paper that lies straight, the ways along which it is seen from end to end, and of the leaves also
// how large all is; equal ones once, where there are very many only of the largest. `sights`: `sights_of` the
// scene. `picture`: where the scene is drawn, at so many points for one of the unit. `free`: where numbers
// may stand.
Measures measures_of(const Scene& scene, const std::vector<std::optional<Sight>>& sights, Unit unit,
                     const Box& picture, double scale, const Box& free);

}  // namespace evenmat
