// What is made of the sweeps over a pile of sheets. Where all are upright it is swept in strips; positions
// are ranks there, so nothing is compared but small numbers, and lengths are 64-bit where all of them fit.
// Where some are turned it is swept along the edges: what is seen of a sheet is bounded by the stretches of
// edges that have it uppermost on one side only, and an area follows from its boundary (Green's theorem).
#include "solver/body/sheets.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <utility>

#include "solver/body/edge_sweep.h"
#include "solver/body/shapes.h"
#include "solver/body/strip_sweep.h"

namespace evenmat {

namespace {

// ---- Upright

template <typename Number>
std::vector<Number> seen_in_strips(const Strips& strips, const std::vector<Number>& xs,
                                   const std::vector<Number>& ys, std::size_t sheets) {
  std::vector<Number> seen(sheets, Number(0));
  Covering covering(sheets);
  std::size_t uppermost = nothing;
  std::size_t since = 0;
  sweep(
      strips, [&](const Part& part, bool enters) { covering.change(part, enters); },
      [&](std::size_t strip, std::size_t y) {
        const std::size_t now = covering.uppermost();
        if (now == uppermost) return;
        if (uppermost != nothing) seen[uppermost] += (xs[strip + 1] - xs[strip]) * (ys[y] - ys[since]);
        uppermost = now;
        since = y;
      });
  return seen;
}

// From the first of them on, in units of 1/scale. Nothing where that takes more than 31 bits: areas, and all
// of them together, are to fit into 63.
std::optional<std::vector<std::int64_t>> small_numbers(const std::vector<Rational>& sorted,
                                                       const std::optional<Integer>& scale) {
  if (!scale || (sorted.back() - sorted.front()) * *scale >= Rational(std::int64_t{1} << 31)) {
    return std::nullopt;
  }
  std::vector<std::int64_t> numbers;
  for (const Rational& value : sorted) {
    numbers.push_back(numerator((value - sorted.front()) * *scale).convert_to<std::int64_t>());
  }
  return numbers;
}

std::vector<Rational> seen_upright(const std::vector<Shape>& shapes, std::size_t sheets) {
  const Strips strips = strips_of(shapes);
  const auto across = common_denominator(strips.xs, 31);
  const auto down = common_denominator(strips.ys, 31);
  const auto xs = small_numbers(strips.xs, across);
  const auto ys = small_numbers(strips.ys, down);
  if (!xs || !ys) return seen_in_strips(strips, strips.xs, strips.ys, sheets);
  const Rational unit = Rational(1) / Rational(*across * *down);
  std::vector<Rational> seen;
  for (const std::int64_t count : seen_in_strips(strips, *xs, *ys, sheets)) seen.push_back(count * unit);
  return seen;
}

// A place that is thickest lies in the first strip at this or more.
struct Left {
  Rational total;
  Rational from, to;  // the strip: no corner or crossing is between
};

std::optional<Left> leftmost_upright(const std::vector<Shape>& shapes, const std::vector<Sheet>& sheets) {
  const Strips strips = strips_of(shapes);
  Covering covering(sheets.size());
  Rational total;
  std::optional<Rational> most;
  std::size_t first = 0;
  sweep(
      strips,
      [&](const Part& part, bool enters) {
        const int change = covering.change(part, enters);
        if (change != 0) total += change * sheets[part.sheet].thickness;
      },
      [&](std::size_t strip, std::size_t) {
        if (!covering.any() || (most && total <= *most)) return;
        most = total;
        first = strip;
      });
  if (!most) return std::nullopt;
  return Left{*most, strips.xs[first], strips.xs[first + 1]};
}

// ---- Turned

// By halves: the more terms, the longer their denominators.
Rational sum_of(const std::vector<Rational>& terms, std::size_t first, std::size_t last) {
  if (first == last) return 0;
  if (first + 1 == last) return terms[first];
  const std::size_t middle = first + (last - first) / 2;
  return sum_of(terms, first, middle) + sum_of(terms, middle, last);
}

std::vector<Rational> seen_turned(const std::vector<Shape>& shapes, std::size_t sheets) {
  std::vector<std::vector<Rational>> terms(sheets);
  Covering left(sheets);
  Covering right(sheets);
  int again = 0;
  constexpr std::pair<std::size_t, std::size_t> no_bound{nothing, nothing};
  auto bounded = no_bound;  // uppermost on the left and on the right
  Fraction since;
  sweep(
      outlines_of(shapes),
      [&](const Meeting& meeting) {
        if (meeting.left) left.change(meeting.part, meeting.enters);
        if (meeting.right) right.change(meeting.part, meeting.enters);
        if (meeting.again) again += meeting.enters ? 1 : -1;
      },
      [&](const EdgeOf& edge, const Fraction& at) {
        std::pair now{left.uppermost(), right.uppermost()};
        if (again > 0 || now.first == now.second) now = no_bound;
        if (now == bounded) return;
        if (bounded != no_bound) {
          const Rational part = (at.value() - since.value()) * edge.spanned() / 2;
          if (bounded.first != nothing) terms[bounded.first].push_back(part);
          if (bounded.second != nothing) terms[bounded.second].push_back(-part);
        }
        bounded = now;
        since = at;
      });
  std::vector<Rational> seen;
  for (const auto& of_sheet : terms) seen.push_back(sum_of(of_sheet, 0, of_sheet.size()));
  return seen;
}

std::optional<Left> leftmost_turned(const std::vector<Shape>& shapes, const std::vector<Sheet>& sheets) {
  const std::vector<Outline> outlines = outlines_of(shapes);
  std::array<Covering, 2> covering{Covering(sheets.size()), Covering(sheets.size())};
  std::array<Rational, 2> totals;
  std::array<std::optional<Rational>, 2> beside;  // the stretch of the edge last come to
  std::optional<Rational> most;
  Fraction from;
  const auto look_beside = [&](const EdgeOf& edge, const Fraction& at) {
    for (const auto& total : beside) {
      if (!total || (most && *total < *most)) continue;
      Fraction x = edge.x_at(at);
      if (!most || *most < *total || x < from) from = std::move(x);
      most = total;
    }
  };
  sweep(
      outlines,
      [&](const Meeting& meeting) {
        for (std::size_t i = 0; i < 2; ++i) {
          if (!(i == 0 ? meeting.left : meeting.right)) continue;
          const int change = covering[i].change(meeting.part, meeting.enters);
          if (change != 0) totals[i] += change * sheets[meeting.part.sheet].thickness;
        }
      },
      [&](const EdgeOf& edge, const Fraction& at) {
        look_beside(edge, at);
        for (std::size_t i = 0; i < 2; ++i) {
          beside[i] = covering[i].any() ? std::optional(totals[i]) : std::nullopt;
        }
        look_beside(edge, at);
      });
  if (!most) return std::nullopt;

  std::optional<Fraction> to;
  sweep(
      outlines, [](const Meeting&) {},
      [&](const EdgeOf& edge, const Fraction& at) {
        Fraction x = edge.x_at(at);
        if (from < x && (!to || x < *to)) to = std::move(x);
      });
  if (!to) return std::nullopt;  // cannot be: what is thickest has a right end
  return Left{*most, from.value(), to->value()};
}

// ---- Either

std::vector<Rational> seen_of(const std::vector<Shape>& shapes, std::size_t sheets) {
  if (shapes.empty()) return std::vector<Rational>(sheets);
  return all_upright(shapes) ? seen_upright(shapes, sheets) : seen_turned(shapes, sheets);
}

// Where a line from top to bottom meets the shape's outline; it goes through no corner.
std::optional<std::pair<Rational, Rational>> cut_at(const Shape& shape, const Rational& x) {
  std::vector<Rational> ys;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point& p = shape.corners[i];
    const Point& q = shape.corners[(i + 1) % 4];
    if ((p.x < x) != (q.x < x)) ys.push_back(p.y + (x - p.x) / (q.x - p.x) * (q.y - p.y));
  }
  if (ys.size() != 2) return std::nullopt;
  return std::minmax({ys[0], ys[1]});
}

// The topmost place in a strip that is as thick as any.
Thickest topmost(const Left& strip, const std::vector<Shape>& shapes, const std::vector<Sheet>& sheets) {
  struct Event {
    Rational y;
    Part part;
    bool enters;
  };
  const Rational x = (strip.from + strip.to) / 2;
  std::vector<Event> events;
  for (const Shape& shape : shapes) {
    if (auto cut = cut_at(shape, x)) {
      events.push_back({std::move(cut->first), shape.part, true});
      events.push_back({std::move(cut->second), shape.part, false});
    }
  }
  std::stable_sort(events.begin(), events.end(), [](const Event& a, const Event& b) { return a.y < b.y; });
  Covering covering(sheets.size());
  Rational total;
  for (std::size_t i = 0; i + 1 < events.size(); ++i) {
    total += covering.change(events[i].part, events[i].enters) * sheets[events[i].part.sheet].thickness;
    if (events[i].y == events[i + 1].y || !covering.any() || total != strip.total) continue;
    Thickest found{total, {}, {x, (events[i].y + events[i + 1].y) / 2}};
    for (std::size_t sheet = 0; sheet < sheets.size(); ++sheet) {
      if (covering.covers(sheet)) found.sheets.push_back(sheet);
    }
    return found;
  }
  return {};
}

}  // namespace

std::vector<Areas> areas(const std::vector<Sheet>& from_the_top) {
  const std::vector<Rational> seen = seen_of(shapes_of(from_the_top), from_the_top.size());
  std::vector<Areas> all;
  for (std::size_t i = 0; i < from_the_top.size(); ++i) {
    const Sheet& sheet = from_the_top[i];
    // By itself all of its paper is seen.
    const Rational paper =
        sheet.openings.empty() ? Rational(abs(area(sheet.outline))) : seen_of(shapes_of({sheet}), 1).front();
    all.push_back({paper, seen[i]});
  }
  return all;
}

Thickest thickest(const std::vector<Sheet>& sheets) {
  const std::vector<Shape> shapes = shapes_of(sheets);
  if (shapes.empty()) return {};
  const auto left = all_upright(shapes) ? leftmost_upright(shapes, sheets) : leftmost_turned(shapes, sheets);
  return left ? topmost(*left, shapes, sheets) : Thickest{};
}

}  // namespace evenmat
