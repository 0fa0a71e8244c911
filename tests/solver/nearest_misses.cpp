// What is missed in the nearest card, and where: worked out by hand.
#include <string>
#include <vector>

#include "tests/catch.h"
#include "tests/solver/near_text.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

using Kind = Miss::Kind;

}  // namespace

TEST_CASE("a layer that is too wide for what it is on sticks out past it and keeps its size") {
  const NearText card(side_fold + layer("mat", "front", "size = \"2 x 3\"\n") +
                      layer("photo", "mat", "size = \"2 1/4 x 2\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::sticks_out);
  CHECK(miss.names == std::vector<std::string>{"photo"});
  CHECK(miss.by == part(1, 4));
  CHECK(miss.across);
  CHECK(miss.says.empty());
  CHECK(card.piece("photo").width == part(9, 4));
  // In one place, at the right.
  CHECK(card.piece("photo").from_left == 0);
  CHECK(card.piece("photo").from_right == part(-1, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->face == "front");
  CHECK(miss.place->left == card.piece("mat").left + 2);
  CHECK(miss.place->width == part(1, 4));
  CHECK(miss.place->top == card.piece("photo").top);
  CHECK(miss.place->height == 2);
}

TEST_CASE("what is centred sticks out by half on either side") {
  const NearText card(side_fold + layer("mat", "front", "size = \"2 x 3\"\n") +
                      layer("photo", "mat", "size = \"2 1/4 x 2\"\nalign = \"centre\"\n"));
  REQUIRE(card.near);
  REQUIRE(card.near->misses.size() == 2);
  for (const Miss& miss : card.near->misses) {
    CHECK(miss.kind == Kind::sticks_out);
    CHECK(miss.by == part(1, 8));
  }
  CHECK(card.piece("photo").from_left == part(-1, 8));
}

TEST_CASE("two layers that have no room beside one another overlap where both are held in place") {
  const NearText card(side_fold + layer("a", "front", "size = \"2 1/2 x 3\"\nfrom-left = 0\nfrom-top = 1\n") +
                      layer("b", "front", "size = \"2 x 3\"\nfrom-right = 0\nfrom-top = 2\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::overlaps);
  CHECK(miss.names == std::vector<std::string>{"b", "a"});
  CHECK(miss.by == part(1, 4));
  CHECK(miss.across);
  REQUIRE(miss.place);
  CHECK(miss.place->left == part(9, 4));
  CHECK(miss.place->width == part(1, 4));
  CHECK(miss.place->top == 2);
  CHECK(miss.place->height == 2);
}

TEST_CASE("a border that is short at the left is told at the left") {
  const NearText card(side_fold +
                      layer("mat", "front", "width = 4\nborder = \"1/4\"\nfrom-right = \"1/4\"\n"));
  // The border binds the right as well, so both wishes for the right would have to give.
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::too_near);
  CHECK(miss.by == part(1, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->left == 0);
  CHECK(miss.place->width == part(1, 4));
  CHECK(card.piece("mat").left == 0);
}

TEST_CASE("a gap that is short is told by its piece and the overlap it brings is not told again") {
  // 2 and 2 and a gap of 1/2 with borders of 0 are 4 1/2 on 4 1/4.
  const NearText card(side_fold + layer("a", "front", "size = \"2 x 1\"\nfrom-left = 0\n") +
                      layer("b", "front",
                            "size = \"2 1/2 x 1\"\nfrom-right = 0\nright-of = \"a\"\n"
                            "level-with = \"top of a\"\ngap = \"1/2\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::too_near);
  CHECK(miss.names == std::vector<std::string>{"b", "a"});
  CHECK(miss.by == part(3, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->left == card.piece("b").left);
  CHECK(miss.place->width == part(3, 4));
}

TEST_CASE("a distance that is too long for its piece is told as too far") {
  const NearText card(side_fold + layer("a", "front", "size = \"2 x 2\"\nfrom-left = 1\nfrom-right = 1\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::too_far);
  CHECK(miss.by == part(1, 4));
  REQUIRE(miss.place);
  // Beside the layer, at its right.
  CHECK(miss.place->left == 3);
  CHECK(miss.place->width == part(1, 4));
}

TEST_CASE("two sizes for one layer leave it off one of them") {
  const NearText card(side_fold + layer("a", "front", "size = \"2 x 2\"\nwidth = \"2 1/2\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::off_size);
  CHECK(miss.across);
  CHECK(miss.by == part(1, 2));
  CHECK(miss.spot.line == 8);
  CHECK(card.piece("a").width == 2);
  REQUIRE(miss.place);
  CHECK(miss.place->left == card.piece("a").left + 2);
  CHECK(miss.place->width == part(1, 2));
}

TEST_CASE("a tuck that does not reach far enough is told past the edge of its layer") {
  const NearText card(side_fold +
                      "[[window]]\nname = \"pane\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n" +
                      layer("print", "pane", "size = \"2 1/2 x 3\"\ntuck = \"at least 3/8\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::too_near);
  CHECK(miss.by == part(1, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->left == card.piece("print").left + part(5, 2));
}

TEST_CASE("an overhang past what it may is told as sticking out with its wish") {
  const NearText card(side_fold + layer("banner", "front", "size = \"5 x 1\"\noverhang = \"at most 1/4\"\n"));
  REQUIRE(card.near);
  REQUIRE(card.near->misses.size() == 1);
  CHECK(card.only_miss().kind == Kind::sticks_out);
  CHECK(card.only_miss().by == part(1, 4));
  CHECK_FALSE(card.only_miss().says.empty());
}

TEST_CASE("a gap between copies counts as often as there is one so that the border gives") {
  const NearText card(unbuildable("grid-too-wide"));
  CHECK(card.only_miss().kind == Kind::too_near);
  REQUIRE(card.piece("seed squares").copies.size() == 8);
  CHECK(card.piece("seed squares").copies[1].first - card.piece("seed squares").copies[0].first ==
        part(3, 2));
}

TEST_CASE("copies that are too near one another are told once between the first two") {
  const NearText card(side_fold + layer("tags", "front",
                                        "size = \"2 x 1\"\ncopies = 2\nborder = { across = 0 }\n"
                                        "gap = \"1/2\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::too_near);
  CHECK(miss.names == std::vector<std::string>{"tags"});
  CHECK(miss.by == part(1, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->left == part(7, 4));
  CHECK(miss.place->width == part(1, 4));
}

TEST_CASE("a clearance that is short is told on the layer that wishes it and where it faces the other") {
  const std::string a = "size = \"2 x 1\"\nfrom-left = 0\nfrom-top = 1\n";
  const std::string b = "size = \"2 x 1\"\nfrom-right = 0\nfrom-top = 1\n";
  const std::string clear = "clearance = \"1/2\"\nclear-of = ";
  const NearText later(side_fold + layer("a", "front", a) + layer("b", "front", b + clear + "[\"a\"]\n"));
  const Miss& miss = later.only_miss();
  CHECK(miss.kind == Kind::too_near);
  CHECK(miss.names == std::vector<std::string>{"b", "a"});
  CHECK(miss.by == part(1, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->left == part(9, 4));
  CHECK(miss.place->width == part(1, 4));

  // The wish comes first in the file here, so what is later gives unless it is a clearance too.
  const NearText earlier(side_fold + layer("a", "front", a + clear + "[\"b\"]\n") + layer("b", "front", b));
  REQUIRE(earlier.near);
  CHECK(earlier.only_miss().names == std::vector<std::string>{"b"});
  CHECK(earlier.only_miss().kind == Kind::too_near);
  CHECK(earlier.piece("b").from_right == part(-1, 4));
}

TEST_CASE("a layer that is to be clear of another and cannot be lies over it") {
  const NearText card(side_fold + layer("a", "front", "size = \"3 x 1\"\nborder = { left = 0, top = 1 }\n") +
                      layer("b", "front",
                            "size = \"2 x 1\"\nborder = { right = 0, top = 1 }\nover = [\"a\"]\n"
                            "clear-of = [\"a\"]\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::overlaps);
  CHECK(miss.names == std::vector<std::string>{"b", "a"});
  CHECK(miss.by == part(3, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->left == part(9, 4));
  CHECK(miss.place->width == part(3, 4));
  CHECK(miss.place->height == 1);
}

TEST_CASE("of a layer that is to be seen whole it is shown what covers it") {
  const NearText card(unbuildable("leaf-from-bottom"));
  CHECK(card.only_miss().kind == Kind::overlaps);
  CHECK(card.only_miss().names == std::vector<std::string>{"greeting", "leaf"});
  REQUIRE(card.only_miss().place);
  CHECK(card.only_miss().place->height == part(1, 4));
}

TEST_CASE("an even border that cannot be even is told at its side") {
  const NearText card(unbuildable("print-out-of-proportion"));
  CHECK(card.only_miss().kind == Kind::too_near);
  CHECK_FALSE(card.only_miss().across);
  REQUIRE(card.only_miss().place);
  CHECK(card.only_miss().place->height == card.only_miss().by);
  CHECK(card.only_miss().place->width == card.piece("boats print").width);
}

TEST_CASE("a window past the edge sticks out by what is past it") {
  const NearText card(side_fold + "[[window]]\nname = \"pane\"\nin = \"front\"\nsize = \"5 x 1\"\n");
  // A mark of paper is left at the left.
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::sticks_out);
  CHECK(miss.by == part(13, 16));
  CHECK(card.piece("pane").from_right == part(-13, 16));
}

TEST_CASE("a layer behind a window sticks out past the page it is glued to") {
  const NearText card(side_fold +
                      "[[window]]\nname = \"pane\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n" +
                      layer("print", "pane", "size = \"4 1/2 x 3\"\ntuck = \"at least 1/8\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::sticks_out);
  CHECK(miss.names == std::vector<std::string>{"print"});
  CHECK(miss.by == part(1, 4));
  REQUIRE(miss.place);
  CHECK(miss.place->face == "inside");
}

TEST_CASE("a die of no room at all still has a size") {
  const NearText card(side_fold + layer("tag", "front", "cut = \"die\"\nborder = { across = \"3\" }\n"));
  REQUIRE(card.near);
  CHECK(card.piece("tag").width > 0);
  CHECK(card.only_miss().kind == Kind::too_near);
}

TEST_CASE("of a row that is too long only the gap that gives way counts") {
  // b is narrower than what is short, so c lies over a as well.
  const NearText card(
      side_fold + layer("a", "front", "size = \"2 x 1\"\nfrom-left = 0\n") +
      layer("b", "front", "size = \"1/8 x 1\"\nright-of = \"a\"\ngap = 0\nlevel-with = \"a\"\n") +
      layer("c", "front", "size = \"2 1/2 x 1\"\nfrom-right = 0\nlevel-with = \"a\"\nright-of = \"b\"\n"));
  const Miss& miss = card.only_miss();
  CHECK(miss.kind == Kind::too_near);
  CHECK(miss.names == std::vector<std::string>{"c", "b"});
  CHECK(miss.by == part(3, 8));
  CHECK(card.piece("c").from_right == 0);
}

TEST_CASE("a layer that cannot lie beside another as stated does not cover it where it need not") {
  const NearText card(side_fold + layer("a", "front", "size = \"3 x 1\"\nborder = { left = 0, top = 2 }\n") +
                      layer("b", "front", "size = \"2 x 2\"\nfrom-right = 0\nright-of = \"a\"\n"));
  CHECK(card.only_miss().by == part(3, 4));
  const PlacedPiece& b = card.piece("b");
  CHECK((b.top >= 3 || b.top + b.height <= 2));
}
