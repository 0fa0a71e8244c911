// Where sheets lying over one another are thickest.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "solver/body/sheets.h"
#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sheet_piles.h"

using namespace evenmat;
using namespace evenmat::testing;

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
