// What the textures and lines of a drawing mean, in a row or a few.
#pragma once

#include <string>
#include <vector>

#include "cli/drawing/flow.h"
#include "cli/figure/look.h"
#include "cli/figure/scene.h"

namespace evenmat {

struct LegendEntry {
  std::string words;
  std::optional<Look> look;      // a swatch of it
  std::optional<Stroke> stroke;  // or a stretch of line
};

// Each that is in one of the scenes.
std::vector<LegendEntry> legend_of(const std::vector<Scene>& scenes);

void add_legend(Flow& flow, const std::vector<LegendEntry>& entries);

}  // namespace evenmat
