#include "solver/body/shapes.h"

#include <algorithm>
#include <utility>

namespace evenmat {

Quad upright(const Rational& left, const Rational& top, const Rational& width, const Rational& height) {
  const Rational right = left + width;
  const Rational bottom = top + height;
  return {{{left, top}, {right, top}, {right, bottom}, {left, bottom}}};
}

Rational area(const Quad& quad) {
  Rational twice;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point& p = quad[i];
    const Point& q = quad[(i + 1) % 4];
    twice += p.x * q.y - p.y * q.x;
  }
  return twice / 2;
}

namespace {

void add_shapes(const Sheet& sheet, std::size_t number, std::vector<Shape>& shapes) {
  const auto add = [&](Quad quad, bool opening) {
    const Rational turn = area(quad);
    if (turn < 0) std::reverse(quad.begin(), quad.end());
    if (turn != 0) shapes.push_back({std::move(quad), {number, opening}});
    return turn != 0;
  };
  if (!add(sheet.outline, false)) return;
  for (const Quad& opening : sheet.openings) add(opening, true);
}

bool is_upright(const Shape& shape) {
  const Quad& c = shape.corners;
  return (c[0].x == c[1].x && c[1].y == c[2].y && c[2].x == c[3].x && c[3].y == c[0].y) ||
         (c[0].y == c[1].y && c[1].x == c[2].x && c[2].y == c[3].y && c[3].x == c[0].x);
}

}  // namespace

std::vector<Shape> shapes_of(const std::vector<Sheet>& sheets) {
  std::vector<Shape> shapes;
  for (std::size_t i = 0; i < sheets.size(); ++i) add_shapes(sheets[i], i, shapes);
  return shapes;
}

bool all_upright(const std::vector<Shape>& shapes) {
  return std::all_of(shapes.begin(), shapes.end(), is_upright);
}

std::vector<Rational> positions(const std::vector<Shape>& shapes, Rational Point::*axis) {
  std::vector<Rational> all;
  for (const Shape& shape : shapes)
    for (const Point& corner : shape.corners) all.push_back(corner.*axis);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

std::uint32_t rank(const std::vector<Rational>& sorted, const Rational& position) {
  return static_cast<std::uint32_t>(std::lower_bound(sorted.begin(), sorted.end(), position) -
                                    sorted.begin());
}

std::optional<Integer> common_denominator(const std::vector<Rational>& values, unsigned most_bits) {
  Integer common = 1;
  for (const Rational& value : values) {
    common = boost::multiprecision::lcm(common, denominator(value));
    if (boost::multiprecision::msb(common) >= most_bits) return std::nullopt;
  }
  return common;
}

}  // namespace evenmat
