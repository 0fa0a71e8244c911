// A sweep over shapes turned by any angle: along every edge in turn, with what lies just left and just right
// of it. Only the sweep; what is made of it is in sheets.cpp. Takes n^2 log n steps for n shapes. (Strips
// between all crossings of edges would cut the plane as well, but there may be n^2 crossings, and so n^3
// pieces.)
//
// All in whole numbers: each shape has a denominator of its own, and only signs and ratios are asked for.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <tuple>
#include <utility>
#include <vector>

#include "solver/body/shapes.h"

namespace evenmat {

// Where under > 0.
struct Fraction {
  Integer over, under;
  friend bool operator<(const Fraction& a, const Fraction& b) { return a.over * b.under < b.over * a.under; }
  [[nodiscard]] Rational value() const { return Rational(over) / Rational(under); }
};

struct Outline {
  std::array<Integer, 4> x, y;  // of the corners, in units of 1/unit
  Integer unit;
  // a x + b y + c is the area that the edge from corner i on spans with a point, positive on its inner side.
  std::array<Integer, 4> a, b, c;  // for a point in units of its own: a x + b y + c unit
  std::uint32_t left = 0, right = 0, top = 0, bottom = 0;  // ranks among the positions of all corners
  Part part;
};

inline Outline outline_of(const Shape& shape) {
  Outline outline;
  outline.part = shape.part;
  outline.unit = 1;
  for (const Point& p : shape.corners) {
    for (const Rational& value : {p.x, p.y}) {
      outline.unit = boost::multiprecision::lcm(outline.unit, denominator(value));
    }
  }
  for (std::size_t i = 0; i < 4; ++i) {
    outline.x[i] = numerator(shape.corners[i].x * outline.unit);
    outline.y[i] = numerator(shape.corners[i].y * outline.unit);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t next = (i + 1) % 4;
    outline.a[i] = (outline.y[i] - outline.y[next]) * outline.unit;
    outline.b[i] = (outline.x[next] - outline.x[i]) * outline.unit;
    outline.c[i] = outline.x[i] * outline.y[next] - outline.y[i] * outline.x[next];
  }
  return outline;
}

inline std::vector<Outline> outlines_of(const std::vector<Shape>& shapes) {
  const std::vector<Rational> xs = positions(shapes, &Point::x);
  const std::vector<Rational> ys = positions(shapes, &Point::y);
  std::vector<Outline> outlines;
  for (const Shape& shape : shapes) {
    Outline& outline = outlines.emplace_back(outline_of(shape));
    const auto least_and_most = [&](const std::vector<Rational>& sorted, Rational Point::*axis) {
      const auto [least, most] =
          std::minmax_element(shape.corners.begin(), shape.corners.end(),
                              [&](const Point& a, const Point& b) { return a.*axis < b.*axis; });
      return std::pair{rank(sorted, (*least).*axis), rank(sorted, (*most).*axis)};
    };
    std::tie(outline.left, outline.right) = least_and_most(xs, &Point::x);
    std::tie(outline.top, outline.bottom) = least_and_most(ys, &Point::y);
  }
  return outlines;
}

// An edge of an outline, from one corner to the next around.
struct EdgeOf {
  const Outline& outline;
  std::size_t from;

  [[nodiscard]] std::size_t to() const { return (from + 1) % 4; }
  // At a part of the way along it.
  [[nodiscard]] Fraction x_at(const Fraction& way) const {
    const Integer& first = outline.x[from];
    return {first * way.under + (outline.x[to()] - first) * way.over, outline.unit * way.under};
  }
  // Twice the area that it spans with the origin.
  [[nodiscard]] Rational spanned() const {
    return Rational(outline.c[from]) / Rational(outline.unit * outline.unit);
  }
};

// An edge enters or leaves a shape, `at` of its way from its first corner to its second. Along an edge of the
// other shape only one side of this one is covered.
struct Meeting {
  Fraction at;
  Part part;
  bool enters = true;
  bool left = true, right = true;  // the sides covered; the inside of an edge's own shape is on its left
  bool again = false;              // along an edge of an earlier shape, which has been swept
};

// Of the corners of one shape (second) over the edges of another (first): positive on the inner side.
using Heights = std::array<std::array<Integer, 4>, 4>;

inline Heights heights_over(const Outline& other, const Outline& own) {
  Heights heights;
  for (std::size_t side = 0; side < 4; ++side) {
    for (std::size_t i = 0; i < 4; ++i) {
      heights[side][i] = other.a[side] * own.x[i] + other.b[side] * own.y[i] + other.c[side] * own.unit;
    }
  }
  return heights;
}

// Where an edge lies in or along `other`, if it does.
inline void meet(const EdgeOf& edge, const Outline& other, const Heights& heights, bool earlier,
                 std::vector<Meeting>& meetings) {
  Meeting enter{{0, 1}, other.part};
  Fraction leave{1, 1};
  for (std::size_t side = 0; side < 4; ++side) {
    const Integer& from = heights[side][edge.from];
    const Integer& to = heights[side][edge.to()];
    if (from.sign() == 0 && to.sign() == 0) {
      const Outline& own = edge.outline;
      const bool same_way = own.a[edge.from] * other.a[side] + own.b[edge.from] * other.b[side] > 0;
      (same_way ? enter.right : enter.left) = false;
      enter.again = earlier;
    } else if (from.sign() <= 0 && to.sign() <= 0) {
      return;
    } else if (from.sign() < 0) {
      Fraction at{-from, to - from};
      if (enter.at < at) enter.at = std::move(at);
    } else if (to.sign() < 0) {
      Fraction at{from, from - to};
      if (at < leave) leave = std::move(at);
    }
  }
  if (!(enter.at < leave)) return;
  Meeting leaving = enter;
  leaving.at = std::move(leave);
  leaving.enters = false;
  meetings.push_back(std::move(enter));
  meetings.push_back(std::move(leaving));
}

inline bool apart(const Outline& one, const Outline& other) {
  return other.right < one.left || one.right < other.left || other.bottom < one.top || one.bottom < other.top;
}

// `change(meeting)` for each shape that an edge enters or leaves on its way; `settle(edge, at)` once all at
// that place are met. Every edge starts and ends with nothing met.
template <typename Change, typename Settle>
void sweep(const std::vector<Outline>& outlines, Change change, Settle settle) {
  std::array<std::vector<Meeting>, 4> meetings;
  for (std::size_t own = 0; own < outlines.size(); ++own) {
    for (auto& of_edge : meetings) of_edge.clear();
    for (std::size_t i = 0; i < outlines.size(); ++i) {
      if (apart(outlines[own], outlines[i])) continue;
      const Heights heights = heights_over(outlines[i], outlines[own]);
      for (std::size_t e = 0; e < 4; ++e) {
        meet({outlines[own], e}, outlines[i], heights, i < own, meetings[e]);
      }
    }
    for (std::size_t e = 0; e < 4; ++e) {
      auto& met = meetings[e];
      std::stable_sort(met.begin(), met.end(),
                       [](const Meeting& a, const Meeting& b) { return a.at < b.at; });
      for (std::size_t i = 0; i < met.size(); ++i) {
        change(met[i]);
        if (i + 1 == met.size() || met[i].at < met[i + 1].at) settle(EdgeOf{outlines[own], e}, met[i].at);
      }
    }
  }
}

}  // namespace evenmat
