#include "cli/figure/legend.h"

#include <algorithm>

#include "cli/drawing/text.h"

namespace evenmat {
namespace {

template <typename Is>
bool any(const std::vector<Scene>& scenes, const Is& is) {
  return std::any_of(scenes.begin(), scenes.end(), [&](const Scene& scene) {
    return std::any_of(scene.papers.begin(), scene.papers.end(), is);
  });
}

bool is_layer(const ScenePaper& paper) { return paper.kind == ScenePaper::Kind::layer; }

}  // namespace

std::vector<LegendEntry> legend_of(const std::vector<Scene>& scenes) {
  std::vector<LegendEntry> entries;
  for (const Role role : {Role::mat, Role::panel, Role::strip, Role::sentiment, Role::image, Role::none}) {
    const bool there = any(scenes, [&](const ScenePaper& paper) {
      return is_layer(paper) && !paper.piece->piece->stamped && paper.piece->piece->role == role;
    });
    if (there) entries.push_back({look_name(role), look_of(role, 0.7), {}});
  }
  if (any(scenes, [](const ScenePaper& paper) { return is_layer(paper) && paper.piece->piece->stamped; }))
    entries.push_back({"stamped on", ink_look(), {}});
  if (any(scenes, [](const ScenePaper& paper) { return paper.artwork.has_value(); }))
    entries.push_back({"artwork", {}, artwork_line()});
  if (any(scenes, [](const ScenePaper& paper) { return paper.kind == ScenePaper::Kind::window; }))
    entries.push_back({"window", {}, window_line()});
  if (std::any_of(scenes.begin(), scenes.end(),
                  [](const Scene& scene) { return !scene.front_edges.empty(); }))
    entries.push_back({"edge of the front", {}, front_edge_line()});
  if (std::any_of(scenes.begin(), scenes.end(), [](const Scene& scene) { return !scene.folds.empty(); }))
    entries.push_back({"score", {}, fold_line()});
  return entries;
}

void add_legend(Flow& flow, const std::vector<LegendEntry>& entries) {
  if (entries.empty()) return;
  constexpr double swatch_width = 18;
  constexpr double swatch_height = 9;
  constexpr double row_height = 14;
  const Type type{.size = 7};
  Box row = flow.take(row_height);
  double x = row.left;
  for (const LegendEntry& entry : entries) {
    const Extent extent = extent_of(entry.words, type);
    if (x + swatch_width + 4 + extent.width > row.right() && x > row.left) {
      row = flow.take(row_height);
      x = row.left;
    }
    std::vector<Mark>& marks = flow.page().marks;
    const double middle = row.top + row_height / 2;
    if (entry.look) {
      Stroke edge = entry.look->edge;
      edge.width = 0.5;
      marks.emplace_back(
          Shape{.outline = ring_of({x, middle - swatch_height / 2, swatch_width, swatch_height}),
                .fill = entry.look->fill,
                .texture = entry.look->texture,
                .stroke = edge});
    } else if (entry.stroke) {
      marks.emplace_back(Polyline{{{x, middle}, {x + swatch_width, middle}}, *entry.stroke});
    }
    marks.emplace_back(
        text_at({x + swatch_width + 4, middle - extent.height / 2}, entry.words, type, extent.width + 1));
    x += swatch_width + 4 + extent.width + 14;
  }
}

}  // namespace evenmat
