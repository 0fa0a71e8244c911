// Piles of sheets to try out, and what they come to when counted by other means: cells of a grid, a fine
// raster.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "solver/body/sheets.h"
#include "tests/catch.h"
#include "tests/solver/dice.h"

namespace evenmat::testing {

// ---- Piles on a grid, counted cell by cell

struct Box {
  int left = 0, top = 0, width = 0, height = 0;
  [[nodiscard]] bool over(int column, int row) const {
    return left <= column && column < left + width && top <= row && row < top + height;
  }
};

struct GridSheet {
  Box outline;
  std::vector<Box> openings;
  int thickness = 0;
  [[nodiscard]] bool over(int column, int row) const {
    return outline.over(column, row) &&
           std::none_of(openings.begin(), openings.end(),
                        [&](const Box& opening) { return opening.over(column, row); });
  }
};

inline constexpr int cells = 40;  // each way

// Few different edges, so that many of them meet.
inline GridSheet grid_sheet(Dice& dice) {
  const auto box = [&](int from, int to, int size) {
    return Box{dice.between(from, to), dice.between(from, to), dice.between(1, size), dice.between(1, size)};
  };
  GridSheet sheet{box(0, cells - 20, 20), {}, dice.between(1, 4)};
  for (int i = dice.between(0, 3); i > 0; --i) sheet.openings.push_back(box(0, cells - 10, 12));
  return sheet;
}

inline std::vector<GridSheet> grid_pile(Dice& dice) {
  std::vector<GridSheet> pile;
  for (int i = dice.between(1, 14); i > 0; --i) pile.push_back(grid_sheet(dice));
  return pile;
}

struct Frame {  // of the grid in the plane
  Rational unit = Rational(1) / 16;
  Rational left = 0, top = 0;
  Rational cos = 1, sin = 0;  // turned by

  [[nodiscard]] Quad quad(const Box& box) const {
    Quad corners = upright(left + box.left * unit, top + box.top * unit, box.width * unit, box.height * unit);
    for (Point& p : corners) p = {cos * p.x - sin * p.y, sin * p.x + cos * p.y};
    return corners;
  }
};

inline std::vector<Sheet> sheets_of(const std::vector<GridSheet>& pile, const Frame& frame) {
  std::vector<Sheet> sheets;
  for (const GridSheet& from : pile) {
    Sheet sheet{frame.quad(from.outline), {}, Rational(from.thickness) / 100};
    for (const Box& opening : from.openings) sheet.openings.push_back(frame.quad(opening));
    sheets.push_back(sheet);
  }
  return sheets;
}

struct Count {
  int paper = 0, seen = 0;
};

inline std::vector<Count> counted(const std::vector<GridSheet>& pile) {
  std::vector<Count> counts(pile.size());
  for (int column = 0; column < cells; ++column) {
    for (int row = 0; row < cells; ++row) {
      bool hidden = false;
      for (std::size_t i = 0; i < pile.size(); ++i) {
        if (!pile[i].over(column, row)) continue;
        ++counts[i].paper;
        if (!hidden) ++counts[i].seen;
        hidden = true;
      }
    }
  }
  return counts;
}

inline void check_counted(const std::vector<Areas>& found, const std::vector<Count>& counts,
                          const Rational& unit) {
  REQUIRE(found.size() >= counts.size());
  for (std::size_t i = 0; i < counts.size(); ++i) {
    INFO("sheet " << i);
    CHECK(fraction_text(found[i].paper / (unit * unit)) == std::to_string(counts[i].paper));
    CHECK(fraction_text(found[i].seen / (unit * unit)) == std::to_string(counts[i].seen));
  }
}

// A sheet that is turned, and so far to the right that it meets none of the others.
inline Sheet far_away() { return {{{{1000, 1}, {1001, 2}, {1000, 3}, {999, 2}}}, {}, 0}; }

inline Sheet plain(const Rational& left, const Rational& top, const Rational& width, const Rational& height,
                   const Rational& thickness = 0) {
  return {upright(left, top, width, height), {}, thickness};
}

inline bool same(const std::vector<Areas>& a, const std::vector<Areas>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Areas& one, const Areas& other) {
    return one.paper == other.paper && one.seen == other.seen;
  });
}

// ---- Piles turned sheet by sheet, counted on a fine raster

using Real = long double;

struct RealPoint {
  Real x = 0, y = 0;
};
using RealQuad = std::array<RealPoint, 4>;

inline RealQuad real(const Quad& quad) {
  RealQuad result;
  for (std::size_t i = 0; i < 4; ++i)
    result[i] = {quad[i].x.convert_to<Real>(), quad[i].y.convert_to<Real>()};
  return result;
}

struct Span {
  Real from = 0, to = 0;
};

// Where a line at this height runs in the quad; empty where it does not.
inline Span span_at(const RealQuad& quad, Real y) {
  Span span{1e9, -1e9};
  for (std::size_t i = 0; i < 4; ++i) {
    const RealPoint& p = quad[i];
    const RealPoint& q = quad[(i + 1) % 4];
    if ((p.y < y) == (q.y < y)) continue;
    const Real x = p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x);
    span = {std::min(span.from, x), std::max(span.to, x)};
  }
  return span;
}

inline constexpr int fine = 512;  // cells of the raster to an inch

struct RasterSheet {
  Real seen = 0;
  Real error = 0;  // at most: a cell may be misjudged only where an edge of this sheet or one above runs
};

// A cell counts as what is uppermost at its middle.
inline std::vector<RasterSheet> rastered(const std::vector<Sheet>& sheets, int inches) {
  std::vector<RasterSheet> found(sheets.size());
  struct Row {
    RealQuad outline;
    std::vector<RealQuad> openings;
    Span run;
    std::vector<Span> gaps;
  };
  std::vector<Row> rows;
  for (const Sheet& sheet : sheets) {
    rows.push_back({real(sheet.outline), {}, {}, {}});
    for (const Quad& opening : sheet.openings) rows.back().openings.push_back(real(opening));
  }
  std::vector<Real> cuts;
  for (int line = 0; line < inches * fine; ++line) {
    const Real y = (line + 0.5L) / fine;
    cuts.clear();
    for (Row& row : rows) {
      row.run = span_at(row.outline, y);
      cuts.insert(cuts.end(), {row.run.from, row.run.to});
      row.gaps.clear();
      for (const RealQuad& opening : row.openings) {
        row.gaps.push_back(span_at(opening, y));
        cuts.insert(cuts.end(), {row.gaps.back().from, row.gaps.back().to});
      }
    }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      const Real middle = (cuts[k] + cuts[k + 1]) / 2;
      const auto in = [&](const Span& span) { return span.from < middle && middle < span.to; };
      for (std::size_t i = 0; i < sheets.size(); ++i) {
        if (!in(rows[i].run) || std::any_of(rows[i].gaps.begin(), rows[i].gaps.end(), in)) continue;
        found[i].seen +=
            (std::floor(cuts[k + 1] * fine + 0.5L) - std::floor(cuts[k] * fine + 0.5L)) / fine / fine;
        break;
      }
    }
  }
  Real error = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    std::vector<Quad> quads = sheets[i].openings;
    quads.push_back(sheets[i].outline);
    for (const Quad& quad : quads) {
      for (std::size_t e = 0; e < 4; ++e) {
        // As many cells at most are crossed by an edge as it crosses lines between them, and one more.
        const Rational away = abs(quad[e].x - quad[(e + 1) % 4].x) + abs(quad[e].y - quad[(e + 1) % 4].y);
        error += (away.convert_to<Real>() * fine + 3) / fine / fine;
      }
    }
    found[i].error = error;
  }
  return found;
}

// Turned about its middle, by an angle whose sine and cosine are rational.
inline Sheet turned_sheet(Dice& dice) {
  const Rational tangent = Rational(dice.between(-1000, 1000)) / dice.between(500, 3000);
  const Frame turn{1, 0, 0, (1 - tangent * tangent) / (1 + tangent * tangent),
                   2 * tangent / (1 + tangent * tangent)};
  const int half = dice.between(4, 16);
  const Rational x = Rational(dice.between(24, 40)) / 16;
  const Rational y = Rational(dice.between(24, 40)) / 16;
  const auto quad = [&](const Box& box) {
    Quad corners = turn.quad(box);
    for (Point& p : corners) p = {p.x / 16 + x, p.y / 16 + y};
    return corners;
  };
  Sheet sheet{quad({-half, -half / 2, 2 * half, half}), {}, Rational(dice.between(1, 4)) / 100};
  for (int i = dice.between(0, 2); i > 0; --i) {
    sheet.openings.push_back(quad({dice.between(-half, half / 2), dice.between(-half, half / 2),
                                   dice.between(1, half), dice.between(1, half)}));
  }
  return sheet;
}

inline std::vector<Sheet> turned_pile(Dice& dice) {
  std::vector<Sheet> sheets;
  for (int i = dice.between(2, 8); i > 0; --i) sheets.push_back(turned_sheet(dice));
  return sheets;
}

inline Rational total_seen(const std::vector<Sheet>& sheets) {
  Rational total;
  for (const Areas& of_sheet : areas(sheets)) total += of_sheet.seen;
  return total;
}

// ---- Thickness at a point, exactly

// 1 within, -1 outside, 0 on the edge.
inline int where(const Quad& quad, const Point& p) {
  int least = 1;
  int most = -1;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point& a = quad[i];
    const Point& b = quad[(i + 1) % 4];
    const int side = ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)).sign();
    least = std::min(least, side);
    most = std::max(most, side);
  }
  if (least == 1 || most == -1) return 1;
  return least == -1 && most == 1 ? -1 : 0;
}

// The sheets that lie at a point; the test fails where that is on an edge.
inline std::vector<std::size_t> lying_at(const std::vector<Sheet>& sheets, const Point& p) {
  std::vector<std::size_t> lying;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const int outline = where(sheets[i].outline, p);
    CHECK(outline != 0);
    bool paper = outline > 0;
    for (const Quad& opening : sheets[i].openings) {
      const int inside = where(opening, p);
      CHECK(inside != 0);
      paper = paper && inside < 0;
    }
    if (paper) lying.push_back(i);
  }
  return lying;
}

inline Rational thickness_of(const std::vector<Sheet>& sheets, const std::vector<std::size_t>& some) {
  Rational total;
  for (const std::size_t i : some) total += sheets[i].thickness;
  return total;
}

struct GridPlace {
  int total = -1;
  std::vector<std::size_t> sheets;
  int column = 0, row = 0;
};

inline GridPlace thickest_cell(const std::vector<GridSheet>& pile) {
  GridPlace best;
  for (int column = 0; column < cells; ++column) {
    for (int row = 0; row < cells; ++row) {
      GridPlace here{0, {}, column, row};
      for (std::size_t i = 0; i < pile.size(); ++i) {
        if (!pile[i].over(column, row)) continue;
        here.total += pile[i].thickness;
        here.sheets.push_back(i);
      }
      if (!here.sheets.empty() && here.total > best.total) best = here;
    }
  }
  return best;
}

}  // namespace evenmat::testing
