// What is seen of sheets lying over one another.
#include "solver/body/sheets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sheet_piles.h"

using namespace evenmat;
using namespace evenmat::testing;

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
