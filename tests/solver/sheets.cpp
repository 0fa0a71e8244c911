// What is seen of sheets lying over one another, and where they are thickest.
#include "solver/body/sheets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "tests/catch.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

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

constexpr int cells = 40;  // each way

// Few different edges, so that many of them meet.
GridSheet grid_sheet(Dice& dice) {
  const auto box = [&](int from, int to, int size) {
    return Box{dice.between(from, to), dice.between(from, to), dice.between(1, size), dice.between(1, size)};
  };
  GridSheet sheet{box(0, cells - 20, 20), {}, dice.between(1, 4)};
  for (int i = dice.between(0, 3); i > 0; --i) sheet.openings.push_back(box(0, cells - 10, 12));
  return sheet;
}

std::vector<GridSheet> grid_pile(Dice& dice) {
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

std::vector<Sheet> sheets_of(const std::vector<GridSheet>& pile, const Frame& frame) {
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

std::vector<Count> counted(const std::vector<GridSheet>& pile) {
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

void check_counted(const std::vector<Areas>& found, const std::vector<Count>& counts, const Rational& unit) {
  REQUIRE(found.size() >= counts.size());
  for (std::size_t i = 0; i < counts.size(); ++i) {
    INFO("sheet " << i);
    CHECK(fraction_text(found[i].paper / (unit * unit)) == std::to_string(counts[i].paper));
    CHECK(fraction_text(found[i].seen / (unit * unit)) == std::to_string(counts[i].seen));
  }
}

// A sheet that is turned, and so far to the right that it meets none of the others.
Sheet far_away() { return {{{{1000, 1}, {1001, 2}, {1000, 3}, {999, 2}}}, {}, 0}; }

Sheet plain(const Rational& left, const Rational& top, const Rational& width, const Rational& height,
            const Rational& thickness = 0) {
  return {upright(left, top, width, height), {}, thickness};
}

bool same(const std::vector<Areas>& a, const std::vector<Areas>& b) {
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

RealQuad real(const Quad& quad) {
  RealQuad result;
  for (std::size_t i = 0; i < 4; ++i)
    result[i] = {quad[i].x.convert_to<Real>(), quad[i].y.convert_to<Real>()};
  return result;
}

struct Span {
  Real from = 0, to = 0;
};

// Where a line at this height runs in the quad; empty where it does not.
Span span_at(const RealQuad& quad, Real y) {
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

constexpr int fine = 512;  // cells of the raster to an inch

struct RasterSheet {
  Real seen = 0;
  Real error = 0;  // at most: a cell may be misjudged only where an edge of this sheet or one above runs
};

// A cell counts as what is uppermost at its middle.
std::vector<RasterSheet> rastered(const std::vector<Sheet>& sheets, int inches) {
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
Sheet turned_sheet(Dice& dice) {
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

std::vector<Sheet> turned_pile(Dice& dice) {
  std::vector<Sheet> sheets;
  for (int i = dice.between(2, 8); i > 0; --i) sheets.push_back(turned_sheet(dice));
  return sheets;
}

Rational total_seen(const std::vector<Sheet>& sheets) {
  Rational total;
  for (const Areas& of_sheet : areas(sheets)) total += of_sheet.seen;
  return total;
}

// ---- Thickness at a point, exactly

// 1 within, -1 outside, 0 on the edge.
int where(const Quad& quad, const Point& p) {
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
std::vector<std::size_t> lying_at(const std::vector<Sheet>& sheets, const Point& p) {
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

Rational thickness_of(const std::vector<Sheet>& sheets, const std::vector<std::size_t>& some) {
  Rational total;
  for (const std::size_t i : some) total += sheets[i].thickness;
  return total;
}

struct GridPlace {
  int total = -1;
  std::vector<std::size_t> sheets;
  int column = 0, row = 0;
};

GridPlace thickest_cell(const std::vector<GridSheet>& pile) {
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

}  // namespace

TEST_CASE("a panel hides what it lies on, and nothing else") {
  const auto found = areas({plain(1, 1, 2, 1), plain(0, 0, 4, 3)});
  CHECK(found[0].paper == 2);
  CHECK(found[0].seen == 2);
  CHECK(found[1].paper == 12);
  CHECK(found[1].seen == 10);
}

TEST_CASE("of two equal sheets in one place only the upper one is seen") {
  const auto found = areas({plain(0, 0, 4, 3), plain(0, 0, 4, 3), plain(3, 0, 2, 3)});
  CHECK(found[0].seen == 12);
  CHECK(found[1].seen == 0);
  CHECK(found[1].paper == 12);
  CHECK(found[2].seen == 3);
}

TEST_CASE("through an opening the sheet beneath is seen, and the paper is less by it") {
  Sheet frame = plain(0, 0, 4, 4);
  // Two openings that overlap by 1 x 1, one of which reaches 1 past the outline; and one beside the sheet.
  frame.openings = {upright(1, 1, 2, 2), upright(2, 2, 3, 1), upright(6, 0, 1, 1)};
  const auto found = areas({frame, plain(0, 0, 10, 10)});
  CHECK(found[0].paper == 16 - 4 - 1);
  CHECK(found[0].seen == 11);
  CHECK(found[1].seen == 100 - 11);
}

TEST_CASE("a sheet standing on its corner hides half of the square around it") {
  const Sheet diamond{{{{1, 0}, {2, 1}, {1, 2}, {0, 1}}}, {}, 0};
  const auto found = areas({diamond, plain(0, 0, 2, 2)});
  CHECK(found[0].paper == 2);
  CHECK(found[1].seen == 2);
  const auto under = areas({plain(0, 0, 2, 1), diamond, plain(0, 0, 2, 2)});
  CHECK(under[1].seen == 1);
  CHECK(under[2].seen == 1);
}

TEST_CASE("an opening may be turned against its sheet") {
  Sheet frame = plain(0, 0, 2, 2);
  frame.openings = {{{{1, 0}, {2, 1}, {1, 2}, {0, 1}}}};
  const auto found = areas({frame, plain(0, 0, 1, 2)});
  CHECK(found[0].paper == 2);
  CHECK(found[1].seen == 1);
}

TEST_CASE("the corners of a sheet may go round either way") {
  const Sheet one{{{{0, 0}, {2, 0}, {2, 2}, {0, 2}}}, {{{{1, 1}, {1, 2}, {2, 2}, {2, 1}}}}, 1};
  const Sheet other{{{{0, 0}, {0, 2}, {2, 2}, {2, 0}}}, {{{{1, 1}, {2, 1}, {2, 2}, {1, 2}}}}, 1};
  CHECK(areas({one}).front().seen == 3);
  CHECK(areas({other}).front().seen == 3);
  CHECK(areas({other, far_away()}).front().seen == 3);
  CHECK(areas({one, far_away()}).front().seen == 3);
}

TEST_CASE("sheets without area hide nothing and are not seen") {
  CHECK(areas({}).empty());
  const auto found = areas({plain(1, 0, 0, 3), plain(1, 1, 3, 0), plain(0, 0, 4, 3)});
  CHECK(found[0].paper == 0);
  CHECK(found[0].seen == 0);
  CHECK(found[1].paper == 0);
  CHECK(found[2].seen == 12);
  CHECK(areas({plain(1, 0, 0, 3)}).front().seen == 0);
}

TEST_CASE("what is seen of upright sheets is what cells of their grid count") {
  Dice dice(41);
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    const auto pile = grid_pile(dice);
    const Frame frame;
    check_counted(areas(sheets_of(pile, frame)), counted(pile), frame.unit);
  }
}

TEST_CASE("lengths in the finest units, far from the corner, are as exact") {
  Dice dice(42);
  const Rational tiny = Rational(1) / Integer("1000000000000000000000007");
  for (int i = 0; i < 100; ++i) {
    INFO("pile " << i);
    const auto pile = grid_pile(dice);
    for (const Frame& frame : {Frame{tiny, 0, 0}, Frame{Rational(1) / 16, tiny, -tiny},
                               Frame{Rational(1) / 16, 1'000'000'000'000, -5},
                               Frame{1'000'000'000, Rational(1) / 3, Rational(1) / 7}}) {
      check_counted(areas(sheets_of(pile, frame)), counted(pile), frame.unit);
    }
  }
}

TEST_CASE("upright sheets are seen alike whether or not others are turned") {
  Dice dice(43);
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    const auto pile = grid_pile(dice);
    const Frame frame;
    auto sheets = sheets_of(pile, frame);
    sheets.push_back(far_away());
    const auto found = areas(sheets);
    check_counted(found, counted(pile), frame.unit);
    CHECK(found.back().seen == 2);
  }
}

TEST_CASE("a pile turned as a whole is seen as before") {
  Dice dice(44);
  const Rational tangent = Rational(1) / 1'000'003;  // of half the angle: hardly turned at all
  const Rational cos = (1 - tangent * tangent) / (1 + tangent * tangent);
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    const auto pile = grid_pile(dice);
    const Frame by_345{Rational(1) / 16, 2, 1, Rational(3) / 5, Rational(4) / 5};
    const Frame hardly{Rational(1) / 16, 2, 1, cos, -2 * tangent / (1 + tangent * tangent)};
    check_counted(areas(sheets_of(pile, by_345)), counted(pile), by_345.unit);
    check_counted(areas(sheets_of(pile, hardly)), counted(pile), hardly.unit);
  }
}

TEST_CASE("what is seen of turned sheets is what a fine raster counts, as near as a raster can") {
  Dice dice(45);
  Real missed = 0;
  Real all = 0;
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    const auto sheets = turned_pile(dice);
    const auto found = areas(sheets);
    const auto raster = rastered(sheets, 4);
    for (std::size_t k = 0; k < sheets.size(); ++k) {
      INFO("sheet " << k);
      const Real seen = found[k].seen.convert_to<Real>();
      CHECK(std::fabs(seen - raster[k].seen) <= raster[k].error);
      CHECK(found[k].seen >= 0);
      CHECK(found[k].seen <= found[k].paper);
      missed += std::fabs(seen - raster[k].seen);
      all += seen;
    }
  }
  // Cells misjudged one way make up for those misjudged the other.
  CHECK(missed < all / 10'000);
}

TEST_CASE("all that is seen is what lies anywhere, whatever the order of the sheets") {
  Dice dice(46);
  for (int i = 0; i < 100; ++i) {
    INFO("pile " << i);
    auto turned = turned_pile(dice);
    const Rational before = total_seen(turned);
    dice.shuffle(turned);
    CHECK(total_seen(turned) == before);

    const auto pile = grid_pile(dice);
    int covered = 0;
    for (int column = 0; column < cells; ++column) {
      for (int row = 0; row < cells; ++row) {
        if (std::any_of(pile.begin(), pile.end(), [&](const GridSheet& s) { return s.over(column, row); }))
          ++covered;
      }
    }
    CHECK(total_seen(sheets_of(pile, Frame{})) * 256 == covered);
  }
}

TEST_CASE("the order of sheets beneath does not matter to those above") {
  Dice dice(47);
  for (int i = 0; i < 100; ++i) {
    INFO("pile " << i);
    for (auto sheets : {turned_pile(dice), sheets_of(grid_pile(dice), Frame{})}) {
      const auto upper = static_cast<std::ptrdiff_t>(sheets.size() / 2);
      auto before = areas(sheets);
      std::vector<Sheet> lower(sheets.begin() + upper, sheets.end());
      dice.shuffle(lower);
      std::copy(lower.begin(), lower.end(), sheets.begin() + upper);
      auto after = areas(sheets);
      before.erase(before.begin() + upper, before.end());
      after.erase(after.begin() + upper, after.end());
      CHECK(same(before, after));
      sheets.erase(sheets.begin() + upper, sheets.end());
      CHECK(same(before, areas(sheets)));
    }
  }
}

TEST_CASE("where sheets overlap their thicknesses add up") {
  const std::vector<Sheet> sheets{plain(0, 0, 4, 4, 1), plain(2, 1, 4, 1, 2), plain(3, 0, 4, 4, 4)};
  const Thickest found = thickest(sheets);
  CHECK(found.total == 7);
  CHECK(found.sheets == std::vector<std::size_t>{0, 1, 2});
  CHECK(found.at.x == Rational(7) / 2);
  CHECK(found.at.y == Rational(3) / 2);
}

TEST_CASE("nothing is thick where nothing lies, and edges that only touch do not add up") {
  CHECK(thickest({}).total == 0);
  CHECK(thickest({}).sheets.empty());
  CHECK(thickest({plain(0, 0, 0, 5, 1)}).sheets.empty());
  Sheet hollow = plain(0, 0, 1, 1, 1);
  hollow.openings = {upright(-1, -1, 3, 3)};
  CHECK(thickest({hollow}).sheets.empty());
  CHECK(thickest({hollow, far_away()}).sheets == std::vector<std::size_t>{1});
  const Thickest beside = thickest({plain(0, 0, 1, 1, 1), plain(1, 0, 1, 1, 1), plain(0, 1, 1, 1, 1)});
  CHECK(beside.total == 1);
  CHECK(beside.sheets == std::vector<std::size_t>{0});
}

TEST_CASE("of places as thick as each other the one most to the left counts, then the topmost") {
  const Sheet base = plain(0, 0, 9, 9, 1);
  CHECK(thickest({base, plain(5, 1, 1, 1, 1), plain(3, 7, 1, 1, 1)}).sheets ==
        std::vector<std::size_t>{0, 2});
  CHECK(thickest({base, plain(3, 7, 1, 1, 1), plain(3, 5, 1, 1, 1)}).sheets ==
        std::vector<std::size_t>{0, 2});
  const auto diamond = [](int x, int y) {
    return Sheet{{{{x, y - 1}, {x + 1, y}, {x, y + 1}, {x - 1, y}}}, {}, 1};
  };
  CHECK(thickest({base, diamond(5, 2), diamond(3, 7)}).sheets == std::vector<std::size_t>{0, 2});
  CHECK(thickest({base, diamond(3, 7), diamond(3, 5)}).sheets == std::vector<std::size_t>{0, 2});
  CHECK(thickest({diamond(3, 7), diamond(3, 5), base}).total == 2);
}

TEST_CASE("paper without a thickness is told as lying at the thickest place, too") {
  const Thickest found = thickest({plain(0, 0, 2, 2, 0), plain(5, 0, 2, 2, 1), plain(5, 0, 1, 2, 0)});
  CHECK(found.sheets == std::vector<std::size_t>{1, 2});
  CHECK(thickest({plain(0, 0, 2, 2, 0)}).sheets == std::vector<std::size_t>{0});
}

TEST_CASE("the thickest place is the one that counting cells finds") {
  Dice dice(48);
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    const auto pile = grid_pile(dice);
    const GridPlace best = thickest_cell(pile);
    auto sheets = sheets_of(pile, Frame{});
    const Thickest found = thickest(sheets);
    CHECK(found.sheets == best.sheets);
    if (best.sheets.empty()) continue;
    CHECK(found.total * 100 == best.total);
    CHECK(lying_at(sheets, found.at) == best.sheets);
    // No corner lies between the middle of that cell and the point, which is therefore in the same place.
    CHECK(found.at.x * 16 > best.column);
    CHECK(found.at.y * 16 > best.row);
    for (const Sheet& sheet : sheets) {
      for (const Point& p : sheet.outline) {
        CHECK_FALSE((p.x * 16 > best.column && p.x < found.at.x));
      }
    }

    sheets.push_back(far_away());
    const Thickest again = thickest(sheets);
    CHECK(again.total == found.total);
    CHECK(again.sheets == found.sheets);
    CHECK(again.at.x == found.at.x);
    CHECK(again.at.y == found.at.y);

    const auto turned = sheets_of(pile, Frame{Rational(1) / 16, 0, 0, Rational(3) / 5, Rational(4) / 5});
    const Thickest there = thickest(turned);
    CHECK(there.total == found.total);
    CHECK(lying_at(turned, there.at) == there.sheets);
    CHECK(thickness_of(turned, there.sheets) == there.total);
  }
}

TEST_CASE("no place among turned sheets is thicker than the one found") {
  Dice dice(49);
  for (int i = 0; i < 100; ++i) {
    INFO("pile " << i);
    const auto sheets = turned_pile(dice);
    const Thickest found = thickest(sheets);
    CHECK(lying_at(sheets, found.at) == found.sheets);
    CHECK(thickness_of(sheets, found.sheets) == found.total);
    for (int k = 0; k < 200; ++k) {
      // Off all edges: no corner has such a denominator.
      const Point p{Rational(dice.between(0, 400'000'000)) / 100'000'007 + Rational(1) / 3'000'017,
                    Rational(dice.between(0, 400'000'000)) / 100'000'007};
      CHECK(thickness_of(sheets, lying_at(sheets, p)) <= found.total);
    }
  }
}
