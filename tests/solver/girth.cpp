// How far it is around a pile of boxes, against a band laid around the corners of every section.
#include "solver/body/girth.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <set>
#include <vector>

#include "tests/catch.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

using Real = long double;

const Rational fine = Rational(1) / 1'000'000'000'000;
const Rational nano = Rational(1) / 1'000'000'000;

Pad pad(const Rational& left, const Rational& top, const Rational& width, const Rational& height,
        const Rational& thickness) {
  return {left, top, width, height, thickness};
}

Rational across(const std::vector<Pad>& pads) { return half_girth(pads, false, fine); }
Rational down(const std::vector<Pad>& pads) { return half_girth(pads, true, fine); }

// ---- The same in whole numbers, section by section

constexpr int units = 16'000;  // to an inch

struct Box {
  long left = 0, top = 0, width = 0, height = 0, thickness = 0;
};

struct Corner {
  long x = 0, z = 0;
};

long turn(const Corner& a, const Corner& b, const Corner& c) {
  return (b.x - a.x) * (c.z - a.z) - (b.z - a.z) * (c.x - a.x);
}

Real away(const Corner& a, const Corner& b) {
  return std::hypot(static_cast<Real>(a.x - b.x), static_cast<Real>(a.z - b.z));
}

// Wraps a band around points, from each to the one that leaves no other outside. All lie at z >= 0.
Real band_around(const std::vector<Corner>& points) {
  const Corner start = *std::min_element(points.begin(), points.end(), [](const Corner& a, const Corner& b) {
    return a.z != b.z ? a.z < b.z : a.x < b.x;
  });
  Real length = 0;
  Corner at = start;
  do {
    Corner next = at;
    for (const Corner& p : points) {
      if (p.x == at.x && p.z == at.z) continue;
      const long side = next.x == at.x && next.z == at.z ? -1 : turn(at, next, p);
      if (side < 0 || (side == 0 && away(at, p) > away(at, next))) next = p;
    }
    if (next.x == at.x && next.z == at.z) break;
    length += away(at, next);
    at = next;
  } while (at.x != start.x || at.z != start.z);
  return length;
}

// Along lines across, in whole units.
Real most_around(const std::vector<Box>& boxes) {
  std::set<long> rows;
  for (const Box& box : boxes) rows.insert({box.top, box.top + box.height});
  Real most = 0;
  for (const long row : rows) {  // a line just below it
    std::set<long> ends;
    const auto crosses = [&](const Box& box) { return box.top <= row && row < box.top + box.height; };
    for (const Box& box : boxes) {
      if (crosses(box)) ends.insert({box.left, box.left + box.width});
    }
    if (ends.empty()) continue;
    std::vector<Corner> corners;
    for (auto end = ends.begin(); std::next(end) != ends.end(); ++end) {
      long height = 0;
      bool any = false;
      for (const Box& box : boxes) {
        if (!crosses(box) || box.left > *end || *end >= box.left + box.width) continue;
        height += box.thickness;
        any = true;
      }
      if (!any) continue;
      corners.insert(corners.end(),
                     {{*end, 0}, {*end, height}, {*std::next(end), height}, {*std::next(end), 0}});
    }
    most = std::max(most, band_around(corners) / 2);
  }
  return most / units;
}

Box turned(const Box& box) { return {box.top, box.left, box.height, box.width, box.thickness}; }

std::vector<Pad> pads_of(const std::vector<Box>& boxes) {
  std::vector<Pad> pads;
  for (const Box& box : boxes) {
    const auto length = [](long value) { return Rational(value) / units; };
    pads.push_back(
        {length(box.left), length(box.top), length(box.width), length(box.height), length(box.thickness)});
  }
  return pads;
}

// A card with things on it, or loose things with gaps between, some thick beyond reason, some without
// thickness.
std::vector<Box> pile(Dice& dice) {
  std::vector<Box> boxes;
  if (dice.one_in(2)) boxes.push_back({0, 0, 4 * units, 5 * units, 640});
  for (int i = dice.between(1, 9); i > 0; --i) {
    boxes.push_back({dice.between(-4, 60) * 1000L, dice.between(-4, 60) * 1000L, dice.between(1, 40) * 1000L,
                     dice.between(1, 40) * 1000L,
                     dice.one_in(4) ? dice.between(0, 40) * 1000L : dice.between(0, 3000)});
  }
  return boxes;
}

}  // namespace

TEST_CASE("a flat card is as far around as it is wide and thick") {
  const std::vector<Pad> card{pad(0, 0, Rational(17) / 4, Rational(11) / 2, Rational(9) / 80)};
  CHECK(across(card) == Rational(17) / 4 + Rational(9) / 80);
  CHECK(down(card) == Rational(11) / 2 + Rational(9) / 80);
}

TEST_CASE("nothing is no way around, and what has no thickness is as wide as it is") {
  CHECK(across({}) == 0);
  CHECK(across({pad(0, 0, 0, 3, 1), pad(0, 0, 3, 0, 1)}) == 0);
  CHECK(across({pad(1, 1, 3, 2, 0)}) == 3);
  CHECK(down({pad(1, 1, 3, 2, 0)}) == 2);
}

TEST_CASE("sheets that cover each other count by their thickness, wherever they stand") {
  const Rational t = Rational(1) / 100;
  CHECK(across({pad(0, 0, 4, 5, t), pad(0, 0, 4, 5, 2 * t)}) == 4 + 3 * t);
  CHECK(across({pad(0, 0, 4, 5, t), pad(0, 1, 4, 1, 2 * t)}) == 4 + 3 * t);
  CHECK(across({pad(-3, 0, 4, 5, t), pad(-3, 5, 4, 5, 2 * t)}) == 4 + 2 * t);
}

TEST_CASE("slopes that are whole are exact") {
  // 3 up and 4 along on either side.
  CHECK(across({pad(0, 0, 10, 1, 1), pad(4, 0, 2, 1, 3)}) == (10 + 1 + 5 + 2 + 5 + 1) / Rational(2));
  // 1 up and 1 along is a root: above it, and hardly.
  const Rational slope = across({pad(0, 0, 4, 1, 1), pad(1, 0, 2, 1, 1)}) * 2 - 4 - 1 - 2 - 1;
  CHECK((slope / 2) * (slope / 2) > 2);
  CHECK((slope / 2 - 2 * fine) * (slope / 2 - 2 * fine) < 2);
}

TEST_CASE(
    "a small raised image in the middle adds less than its thickness, one as wide as the card all of it") {
  const Rational sixteenth = Rational(1) / 16;
  const Pad card = pad(0, 0, Rational(17) / 4, Rational(11) / 2, Rational(3) / 100);
  const Pad image = pad(Rational(13) / 8, 2, 1, Rational(3) / 2, sixteenth);
  const Rational added = across({card, image}) - across({card});
  CHECK(added > 0);
  CHECK(added < sixteenth / 10);
  const Pad wide = pad(0, 2, Rational(17) / 4, Rational(3) / 2, sixteenth);
  CHECK(across({card, wide}) - across({card}) == sixteenth);
  CHECK(down({card, wide}) - down({card}) < sixteenth / 10);
}

TEST_CASE("the band goes straight over a gap") {
  CHECK(across({pad(0, 0, 1, 1, 1), pad(3, 0, 1, 1, 1)}) == 5);
  CHECK(across({pad(0, 0, 1, 1, 1), pad(3, 1, 1, 1, 1)}) == 2);  // on no line together
}

TEST_CASE("the way around is that of a band around the corners of each section, never less") {
  Dice dice(51);
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    auto boxes = pile(dice);
    const auto pads = pads_of(boxes);
    const auto check = [](const Rational& found, Real truth) {
      constexpr Real blur = 1e-15L;  // of the floating point sums
      CHECK(found.convert_to<Real>() >= truth - blur);
      CHECK(found.convert_to<Real>() <= truth + 1e-12L + blur);
    };
    check(across(pads), most_around(boxes));
    for (Box& box : boxes) box = turned(box);
    check(down(pads), most_around(boxes));
  }
}

TEST_CASE("a coarse bound is above a fine one, within what was asked") {
  Dice dice(52);
  for (int i = 0; i < 100; ++i) {
    INFO("pile " << i);
    const auto pads = pads_of(pile(dice));
    for (const Rational& within : {nano, Rational(1) / 100, Rational(3)}) {
      const Rational coarse = half_girth(pads, false, within);
      CHECK(coarse >= across(pads) - fine);
      CHECK(coarse <= across(pads) + within);
    }
  }
}

TEST_CASE("something more on a card never makes it less far around") {
  Dice dice(53);
  for (int i = 0; i < 300; ++i) {
    INFO("pile " << i);
    auto boxes = pile(dice);
    const auto before = pads_of(boxes);
    const auto more = pile(dice);
    boxes.push_back(more.back());
    const auto after = pads_of(boxes);
    // Both are bounds from above, so the first may be too large by what was asked for.
    CHECK(across(after) > across(before) - fine);
    CHECK(down(after) > down(before) - fine);
  }
}

TEST_CASE("the order in which things are given does not matter") {
  Dice dice(54);
  for (int i = 0; i < 50; ++i) {
    INFO("pile " << i);
    auto pads = pads_of(pile(dice));
    const Rational before = across(pads);
    dice.shuffle(pads);
    CHECK(across(pads) == before);
  }
}
