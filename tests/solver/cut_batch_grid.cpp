// Lengths as whole steps of a grid, and what sheets count for.
#include "solver/batch/grid.h"
#include "solver/batch/lay_out.h"
#include "solver/batch/prices.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

TEST_CASE("the grid is the widest that all lengths fall on, and lengths come back as they were") {
  const std::vector<Rational> lengths{part(17, 2), 11, part(21, 4), 0, part(3, 16)};
  const auto grid = batch::grid_of(lengths);
  REQUIRE(grid);
  CHECK(grid->step == part(1, 16));
  for (const Rational& length : lengths) CHECK(grid->back(grid->on(length)) == length);
  CHECK(batch::grid_of({part(17, 2), part(51, 2)})->step == part(17, 2));
  CHECK(batch::grid_of({part(254, 5), 210})->step == part(2, 5));
  CHECK(batch::grid_of({part(1, 3), part(1, 4)})->step == part(1, 12));
}

TEST_CASE("a limit between two lines of the grid is as strict as it was") {
  const batch::Grid grid{part(1, 4)};
  CHECK(grid.at_least(part(1, 8)) == 1);
  CHECK(grid.at_least(part(1, 4)) == 1);
  CHECK(grid.at_least(0) == 0);
  CHECK(grid.at_most(part(49, 4)) == 49);
  CHECK(grid.at_most(part(99, 8)) == 49);
  CHECK(grid.at_most(Rational(1'000'000'000) * 1'000'000'000) > batch::most_steps);
}

TEST_CASE("a grid with too many steps is none") {
  CHECK_FALSE(batch::grid_of({11, part(1, 1'000'000'000)}));
  CHECK(batch::grid_of({1, part(1, 1'000'000'000)}));
}

TEST_CASE("sheets are lettered as columns are") {
  CHECK(batch::letter_of(0) == "A");
  CHECK(batch::letter_of(25) == "Z");
  CHECK(batch::letter_of(26) == "AA");
  CHECK(batch::letter_of(27) == "AB");
  CHECK(batch::letter_of(701) == "ZZ");
  CHECK(batch::letter_of(702) == "AAA");
}
