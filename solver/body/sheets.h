// Flat sheets lying over one another: how much of each is seen from above, and where the pile is thickest.
// Exact geometry of what it is given; knows no card.
//
// Upright sheets are swept in strips between their edges; where some are turned, along every edge in turn.
// Both take n^2 log n steps for n outlines and openings. (Sweeping a line over an arrangement of edges:
// Bentley and Ottmann, 1979, without their queue.)
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "model/rational.h"

namespace evenmat {

struct Point {
  Rational x, y;
};

// Four corners of a rectangle in their order around, upright or turned by any angle.
using Quad = std::array<Point, 4>;
Quad upright(const Rational& left, const Rational& top, const Rational& width, const Rational& height);

// A sheet with openings cut in it. Openings may overlap each other and reach past the outline.
struct Sheet {
  Quad outline;
  std::vector<Quad> openings;
  Rational thickness;
};

// Of each sheet, the uppermost first: its paper (without its openings), and what of that no sheet above it
// hides.
struct Areas {
  Rational paper, seen;
};
std::vector<Areas> areas(const std::vector<Sheet>& from_the_top);

// Where the pile is thickest: the greatest total of thickness over a place, the sheets that lie there (as
// they were given) and a point inside that place; of several places the one most to the left, then topmost.
// Places without area do not count. Nothing lies anywhere: 0, no sheets.
struct Thickest {
  Rational total;
  std::vector<std::size_t> sheets;
  Point at;
};
Thickest thickest(const std::vector<Sheet>& sheets);

}  // namespace evenmat
