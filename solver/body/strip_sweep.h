// A sweep over upright shapes: strips between all their left and right edges, each from top to bottom. Only
// the sweep; what is made of it is in sheets.cpp. Takes n^2 steps for n shapes.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "solver/body/shapes.h"

namespace evenmat {

struct Strips {
  struct Event {
    std::uint32_t y, left, right;  // ranks; it holds in the strips from `left` to before `right`
    Part part;
    bool enters;
  };
  std::vector<Rational> xs, ys;
  std::vector<Event> events;  // by y
};

inline Strips strips_of(const std::vector<Shape>& shapes) {
  Strips strips{positions(shapes, &Point::x), positions(shapes, &Point::y), {}};
  for (const Shape& shape : shapes) {
    const Point& a = shape.corners[0];
    const Point& b = shape.corners[2];
    const auto [left, right] = std::minmax({rank(strips.xs, a.x), rank(strips.xs, b.x)});
    const auto [top, bottom] = std::minmax({rank(strips.ys, a.y), rank(strips.ys, b.y)});
    strips.events.push_back({top, left, right, shape.part, true});
    strips.events.push_back({bottom, left, right, shape.part, false});
  }
  std::stable_sort(strips.events.begin(), strips.events.end(),
                   [](const auto& a, const auto& b) { return a.y < b.y; });
  return strips;
}

// `change(part, enters)` for each edge that a strip meets from top to bottom; `settle(strip, y)` once all at
// that height are met.
template <typename Change, typename Settle>
void sweep(const Strips& strips, Change change, Settle settle) {
  const auto& events = strips.events;
  std::vector<std::vector<std::uint32_t>> starting(strips.xs.size());  // by y, as events are
  for (std::uint32_t i = 0; i < events.size(); ++i) starting[events[i].left].push_back(i);
  std::vector<std::uint32_t> met;
  for (std::size_t strip = 0; strip + 1 < strips.xs.size(); ++strip) {
    std::erase_if(met, [&](std::uint32_t i) { return events[i].right <= strip; });
    const auto kept = static_cast<std::ptrdiff_t>(met.size());
    met.insert(met.end(), starting[strip].begin(), starting[strip].end());
    std::inplace_merge(met.begin(), met.begin() + kept, met.end());
    for (std::size_t i = 0; i < met.size(); ++i) {
      const Strips::Event& event = events[met[i]];
      change(event.part, event.enters);
      if (i + 1 == met.size() || events[met[i + 1]].y != event.y) settle(strip, event.y);
    }
  }
}

}  // namespace evenmat
