#include "cli/figure/figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "cli/drawing/text.h"
#include "cli/figure/labels.h"
#include "cli/figure/look.h"
#include "cli/figure/measures.h"

namespace evenmat {
namespace {

double points_of(Unit unit) { return unit == Unit::inch ? 72.0 : 72 / 25.4; }

Ring on_page(const Ring& ring, const At& corner, double scale) {
  Ring placed;
  for (const At& at : ring) placed.push_back({corner.x + at.x * scale, corner.y + at.y * scale});
  return placed;
}

Look look_of(const ScenePaper& paper, double texture) {
  if (paper.kind == ScenePaper::Kind::leaf) return base_look();
  if (paper.piece->piece->stamped) return ink_look();
  return look_of(paper.piece->piece->role, texture);
}

// What lies on foam throws a shadow.
std::optional<Shape> shadow_of(const ScenePaper& paper, const Ring& outline) {
  if (paper.kind != ScenePaper::Kind::layer || !is_raised(*paper.piece->piece)) return std::nullopt;
  constexpr double by = 2;
  Ring below = outline;
  for (At& at : below) at = {at.x + by, at.y + by};
  return Shape{.outline = below, .fill = Colour{0.62, 0.62, 0.66}};
}

bool is_window(const Scene& scene, const Ring& opening) {
  constexpr double hair = 1e-6;
  const Box box = box_around(opening);
  return std::any_of(scene.papers.begin(), scene.papers.end(), [&](const ScenePaper& paper) {
    const Box other = box_around(paper.outline);
    return paper.kind == ScenePaper::Kind::window && std::abs(other.left - box.left) < hair &&
           std::abs(other.top - box.top) < hair && std::abs(other.right() - box.right()) < hair &&
           std::abs(other.bottom() - box.bottom()) < hair;
  });
}

// "The front, at 62 %": of its true size.
std::string title_of(const Scene& scene, double share) {
  return fmt::format(
      "{}, {}", scene.title,
      std::abs(share - 1) < 0.005 ? std::string("true size") : fmt::format("at {:.0f} %", 100 * share));
}

// Never so narrow that it is not seen.
Box hatched(const Hatched& clash, const Box& picture, double scale) {
  constexpr double least = 2.5;
  Box box{picture.left + clash.place.left * scale, picture.top + clash.place.top * scale,
          clash.place.width * scale, clash.place.height * scale};
  if (box.width < least) box = {box.middle().x - least / 2, box.top, least, box.height};
  if (box.height < least) box = {box.left, box.middle().y - least / 2, box.width, least};
  return box;
}

}  // namespace

double scale_within(const Scene& scene, Unit unit, double width, double height, double most_scale) {
  const double most = most_scale > 0 ? most_scale : 2 * points_of(unit);
  return std::min({most, std::max(width, 1.0) / std::max(scene.extent.width, 1e-9),
                   std::max(height, 1.0) / std::max(scene.extent.height, 1e-9)});
}

std::vector<Mark> papers_of(const Scene& scene, const At& corner, double scale) {
  std::vector<Mark> marks;
  const double across = std::max(scene.extent.width, scene.extent.height) * scale;
  const double texture = std::clamp(across / 260, 0.6, 1.1);
  for (const ScenePaper& paper : scene.papers) {
    const Ring outline = on_page(paper.outline, corner, scale);
    if (paper.kind == ScenePaper::Kind::window) {
      marks.emplace_back(Shape{.outline = outline, .stroke = window_line()});
      continue;
    }
    if (auto shadow = shadow_of(paper, outline)) marks.emplace_back(std::move(*shadow));
    const Look look = look_of(paper, texture);
    Shape shape{.outline = outline, .fill = look.fill, .texture = look.texture, .stroke = look.edge};
    std::vector<Ring> edges;
    for (const Ring& opening : paper.openings) {
      shape.openings.push_back(on_page(opening, corner, scale));
      // A window of this side is drawn by itself; one that is cut from the other side has an edge all the
      // same.
      if (!is_window(scene, opening)) edges.push_back(shape.openings.back());
    }
    marks.emplace_back(std::move(shape));
    for (Ring& edge : edges) marks.emplace_back(Shape{.outline = std::move(edge), .stroke = window_line()});
    if (paper.artwork) {
      marks.emplace_back(Shape{.outline = on_page(*paper.artwork, corner, scale), .stroke = artwork_line()});
    }
  }
  for (const SceneFold& edge : scene.front_edges) {
    marks.emplace_back(Polyline{on_page({edge.from, edge.to}, corner, scale), front_edge_line()});
  }
  for (const SceneFold& fold : scene.folds) {
    // The edges of two leaves meet there, and are no edges of the blank.
    marks.emplace_back(Polyline{on_page({fold.from, fold.to}, corner, scale),
                                {base_look().fill, base_look().edge.width + 0.6}});
    marks.emplace_back(Polyline{on_page({fold.from, fold.to}, corner, scale), fold_line()});
  }
  return marks;
}

Figure figure_of(const Scene& scene, Unit unit, const Box& room, const FigureStyle& style,
                 const std::vector<Hatched>& clashes) {
  const double title_height = style.title ? extent_of("A", title_type()).height + 4 : 0;
  const double column = style.labels ? std::min(0.38 * room.width, 190.0) : 0;
  const auto sights = sights_of(scene);
  Figure figure;
  Measures measures;
  Box picture;
  double above = 0;
  double beside = 0;
  // Dimension lines take room from the picture, and how many rows they fill depends on its scale.
  constexpr int most_rounds = 4;
  for (int round = 0; round < most_rounds; ++round) {
    figure.scale = scale_within(scene, unit, room.width - column - beside, room.height - title_height - above,
                                style.most_scale);
    picture = {room.left + beside, room.top + title_height + above, scene.extent.width * figure.scale,
               scene.extent.height * figure.scale};
    if (!style.measures) break;
    const Box free{room.left, room.top + title_height, room.width - column, room.height - title_height};
    measures = measures_of(scene, sights, unit, picture, figure.scale, free);
    if (measures.above <= above && measures.beside <= beside) break;
    above = std::max(above, measures.above);
    beside = std::max(beside, measures.beside);
  }
  figure.picture = picture;
  figure.marks = papers_of(scene, {picture.left, picture.top}, figure.scale);
  for (const Hatched& clash : clashes) {
    const Look look = clash_look();
    figure.marks.emplace_back(Shape{.outline = ring_of(hatched(clash, picture, figure.scale)),
                                    .fill = look.fill,
                                    .texture = look.texture,
                                    .stroke = look.edge});
  }
  figure.marks.insert(figure.marks.end(), measures.marks.begin(), measures.marks.end());
  double bottom = picture.bottom();
  if (style.labels) {
    const double left = std::min(picture.right() + 22, room.right() - column + 14);
    const Box labels{left, room.top + title_height, room.right() - left, room.height - title_height};
    std::vector<Callout> names = names_of(scene, sights, unit, picture, figure.scale);
    for (const Hatched& clash : clashes) {
      const At spot = hatched(clash, picture, figure.scale).middle();
      const double first = scene.extent.width * scene.extent.height;  // no name goes before it
      names.push_back({spot, clash.name, clash.details, first});
    }
    const Labels told = callouts(std::move(names), labels);
    figure.marks.insert(figure.marks.end(), told.marks.begin(), told.marks.end());
    bottom = std::max(bottom, told.bottom);
  }
  if (style.title) {
    const std::string words =
        shortened_to(title_of(scene, figure.scale / points_of(unit)), title_type(), room.width);
    figure.marks.emplace_back(text_at({room.left, room.top}, words, title_type(), room.width));
  }
  figure.room = {room.left, room.top, room.width, std::min(bottom + 2, room.bottom()) - room.top};
  return figure;
}

}  // namespace evenmat
