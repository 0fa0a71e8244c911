#include "solver/answer/placing.h"

#include <algorithm>

#include "model/copies.h"
#include "model/faces.h"

namespace evenmat {
namespace {

// What lies on a tilted layer turns with it and is measured from its own edges, not from its box.
PlacedBox cut_of(const Rules& rules, const std::vector<Rational>& values, std::size_t i) {
  PlacedBox cut = box_of(rules, values, i);
  cut.width = values[variable(i, Measure::width)];
  cut.height = values[variable(i, Measure::height)];
  return cut;
}

// The box of something tilted has bounds of many digits: it is told rounded outward.
PlacedBox outward(const PlacedBox& box) {
  const Rational step(1, 1'000'000'000);
  const Rational left = round_down(box.left, step);
  const Rational top = round_down(box.top, step);
  return {left, top, round_up(box.left + box.width, step) - left, round_up(box.top + box.height, step) - top};
}

}  // namespace

Places places_of(const Rules& rules, std::size_t version) {
  Places places;
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& rectangle = rules.rectangles[i];
    if (rectangle.version != version) continue;
    switch (rectangle.kind) {
      case Rectangle::Kind::face:
        places.face[rectangle.name] = i;
        break;
      case Rectangle::Kind::layer:
      case Rectangle::Kind::window:
        places.cell[rectangle.name] = i;
        places.body.try_emplace(rectangle.name, i);
        break;
      case Rectangle::Kind::copies:
        places.body[rectangle.name] = i;
        break;
      case Rectangle::Kind::artwork:
        places.artwork[rectangle.name] = i;
        break;
      case Rectangle::Kind::thickness:
        break;
    }
  }
  return places;
}

std::size_t under(const Places& places, const Piece& piece) {
  const auto cell = places.cell.find(piece.on.value);
  return cell != places.cell.end() ? cell->second : places.face.at(piece.on.value);
}

PlacedBox box_of(const Rules& rules, const std::vector<Rational>& values, std::size_t rectangle) {
  const Rectangle& r = rules.rectangles[rectangle];
  const Rational& w = values[variable(rectangle, Measure::width)];
  const Rational& h = values[variable(rectangle, Measure::height)];
  return {values[variable(rectangle, Measure::left)], values[variable(rectangle, Measure::top)],
          w * r.box_cos + h * r.box_sin, h * r.box_cos + w * r.box_sin};
}

PlacedPiece placed_piece(const Rules& rules, const std::vector<Rational>& values, const Design& design,
                         const Places& places, const Piece& piece) {
  PlacedPiece placed;
  const std::size_t cell = places.cell.at(piece.name.value);
  const std::size_t body = places.body.at(piece.name.value);
  const bool tilted = rules.rectangles[cell].box_sin != 0 && rules.rectangles[cell].box_cos != 0;
  const PlacedBox whole = box_of(rules, values, body);
  const PlacedBox box = tilted ? outward(whole) : whole;
  const PlacedBox around = cut_of(rules, values, under(places, piece));
  placed.piece = &piece;
  placed.face = face_of(design, piece.on.value);
  placed.left = box.left;
  placed.top = box.top;
  placed.box_width = box.width;
  placed.box_height = box.height;
  placed.from_left = box.left - around.left;
  placed.from_top = box.top - around.top;
  placed.from_right = around.left + around.width - box.left - box.width;
  placed.from_bottom = around.top + around.height - box.top - box.height;
  placed.width = values[variable(cell, Measure::width)];
  placed.height = values[variable(cell, Measure::height)];
  if (body != cell) {
    const PlacedBox one = box_of(rules, values, cell);
    const Grid grid = grid_of(piece);
    const auto step = [](const Rational& all, const Rational& single, int count) {
      return count > 1 ? Rational((all - single) / (count - 1)) : Rational(0);
    };
    for (int i = 0; i < piece.copies->value; ++i) {
      placed.copies.emplace_back(
          whole.left - around.left + step(whole.width, one.width, grid.columns) * (i % grid.columns),
          whole.top - around.top + step(whole.height, one.height, grid.rows) * (i / grid.columns));
    }
  }
  if (const auto art = places.artwork.find(piece.name.value); art != places.artwork.end()) {
    placed.artwork_at.emplace(
        values[variable(art->second, Measure::left)] - values[variable(cell, Measure::left)],
        values[variable(art->second, Measure::top)] - values[variable(cell, Measure::top)]);
  }
  return placed;
}

std::vector<Sum> measures_of(const Rules& rules, std::size_t cell, std::size_t body, std::size_t below) {
  const auto of = [](std::size_t i, Measure measure) { return Sum::of(variable(i, measure)); };
  const Sum left = of(body, Measure::left) - of(below, Measure::left);
  const Sum top = of(body, Measure::top) - of(below, Measure::top);
  const Rectangle& box = rules.rectangles[body];
  const Sum width = of(body, Measure::width) * box.box_cos + of(body, Measure::height) * box.box_sin;
  const Sum height = of(body, Measure::height) * box.box_cos + of(body, Measure::width) * box.box_sin;
  return {of(cell, Measure::width),
          of(cell, Measure::height),
          left,
          top,
          of(below, Measure::width) - left - width,
          of(below, Measure::height) - top - height};
}

Rational cut_back_of(const Base& base, const Places& places, const std::vector<Rational>& values) {
  const std::vector<Face> all = faces(base);
  const auto shortened =
      std::find_if(all.begin(), all.end(), [](const Face& face) { return face.trimmed.has_value(); });
  const bool across = is_across(*shortened->trimmed);
  const std::size_t rectangle = places.face.at(shortened->name);
  return across ? Rational(shortened->whole.width - values[variable(rectangle, Measure::width)])
                : Rational(shortened->whole.height - values[variable(rectangle, Measure::height)]);
}

}  // namespace evenmat
