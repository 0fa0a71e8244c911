// Layers as they lie over one another on a face: in which order, and where each sheet of paper is.
#include "solver/body/pile.h"

#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string flat = "[base]\nfold = \"flat\"\nfront = \"4 x 6\"\n";
std::string window(const std::string& name, const std::string& in, const std::string& keys) {
  return "[[window]]\nname = \"" + name + "\"\nin = \"" + in + "\"\n" + keys;
}

struct PileText : SizedText {
  explicit PileText(const std::string& text, const std::string& face = "front") : SizedText(text) {
    REQUIRE(sized.verdict == Verdict::buildable);
    lying = pile_on(card.design, plain(), face);
  }
  // From the lowest up.
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const Lying& one : lying) all.push_back(plain().pieces[one.piece].piece->name.value);
    return all;
  }
  [[nodiscard]] const Sheet& sheet(const std::string& name, std::size_t copy = 0) const {
    for (const Lying& one : lying) {
      if (plain().pieces[one.piece].piece->name.value == name && copy-- == 0) return one.sheet;
    }
    FAIL("no " << name);
    return lying.front().sheet;
  }

  std::vector<Lying> lying;
};

using Names = std::vector<std::string>;

// The least and most of the corners across and down.
std::array<Rational, 4> bounds(const Quad& quad) {
  std::array<Rational, 4> found{quad[0].x, quad[0].y, quad[0].x, quad[0].y};
  for (const Point& corner : quad) {
    found[0] = std::min(found[0], corner.x);
    found[1] = std::min(found[1], corner.y);
    found[2] = std::max(found[2], corner.x);
    found[3] = std::max(found[3], corner.y);
  }
  return found;
}
using Box = std::array<Rational, 4>;

Rational area(const Quad& quad) {
  Rational twice = 0;
  for (std::size_t i = 0; i < 4; ++i)
    twice += quad[i].x * quad[(i + 1) % 4].y - quad[(i + 1) % 4].x * quad[i].y;
  return abs(twice) / 2;
}

bool within(const Rational& a, const Rational& b, const Rational& by) { return abs(a - b) <= by; }
const Rational hair = Rational(1) / 1'000'000'000;

}  // namespace

TEST_CASE("layers lie in file order, and what is on one directly above it") {
  const std::string size = "size = \"1 x 1\"\n";
  CHECK(PileText(flat + layer("a", "front", "from-left = 0\n" + size) + layer("b", "front", size) +
                 layer("on b", "b") + layer("on a", "a") + layer("on that", "on a"))
            .names() == Names{"a", "on a", "on that", "b", "on b"});
}

TEST_CASE("what is over another lies above it and all that is on it, wherever it stands in the file") {
  const std::string size = "size = \"2 x 2\"\n";
  CHECK(PileText(flat + layer("top", "front", size + "over = [\"low\"]\n") + layer("low", "front", size) +
                 layer("on low", "low") + layer("on top", "top"))
            .names() == Names{"low", "on low", "top", "on top"});
  // Two steps up, stated from the top down.
  CHECK(PileText(flat + layer("c", "front", size + "over = [\"b\", \"a\"]\n") +
                 layer("b", "front", size + "over = [\"a\"]\n") + layer("a", "front", size))
            .names() == Names{"a", "b", "c"});
}

TEST_CASE("what is over a layer of another stack lies above it with all that is on it") {
  const PileText pile(flat + R"(
[[layer]]
name = "mat"
on = "front"
border = "1/4"
[[layer]]
name = "panel"
on = "mat"
border = "1/4"
[[layer]]
name = "ribbon"
on = "front"
size = "4 x 1/2"
from-top = "2"
over = ["mat"]
[[layer]]
name = "tag"
on = "panel"
size = "1 x 1"
from-top = "1"
over = ["ribbon"]
[[layer]]
name = "heart"
on = "tag"
size = "1/2 x 1/2"
)");
  CHECK(pile.names() == Names{"mat", "panel", "ribbon", "tag", "heart"});
}

TEST_CASE("what lies on a window of a layer lies beneath that layer, with all that is on it") {
  const PileText card(
      flat + layer("mat", "front", "size = \"3 x 3\"\n") + window("hole", "mat", "size = \"1 x 1\"\n") +
      layer("print", "hole", "tuck = \"1/4\"\n") + layer("tag", "print", "size = \"1/2 x 1/2\"\n"));
  CHECK(card.names() == Names{"print", "tag", "mat"});
  REQUIRE(card.sheet("mat").openings.size() == 1);
  CHECK(area(card.sheet("mat").openings[0]) == 1);
  CHECK(card.sheet("print").openings.empty());
  CHECK(card.piece("print").shown.open == part(4, 9) - part(1, 4) * part(4, 9));
}

TEST_CASE("what is seen through two windows lies beneath both layers") {
  CHECK(PileText(flat + layer("mat", "front", "size = \"3 x 3\"\n") +
                 window("hole", "mat", "size = \"2 x 2\"\n") + layer("inner", "hole", "tuck = \"1/4\"\n") +
                 window("slot", "inner", "size = \"1 x 1\"\n") + layer("print", "slot", "tuck = \"1/8\"\n"))
            .names() == Names{"print", "inner", "mat"});
}

TEST_CASE("each face has its own layers, the page behind an opening those that are on that") {
  const std::string text = "[base]\nfold = \"side\"\nfront = \"4 x 6\"\ncut-back = 1\n" +
                           layer("mat", "front") + layer("strip", "reveal") +
                           layer("page", "inside", "size = \"1 x 1\"\nfrom-left = 0\n") +
                           window("hole", "front", "size = \"1 x 1\"\n") + layer("print", "hole");
  CHECK(PileText(text, "front").names() == Names{"mat"});
  CHECK(PileText(text, "inside").names() == Names{"strip", "page", "print"});
  CHECK(PileText(text, "back").names().empty());
  CHECK(windows_in(PileText(text).plain(), "front").size() == 1);
  CHECK(windows_in(PileText(text).plain(), "inside").empty());
}

TEST_CASE("every copy is a sheet of its own, with the windows of each, and carries nothing but the first") {
  const PileText card(
      flat +
      layer("dot", "front",
            "size = \"1 x 1\"\ncopies = 3\ncolumns = 2\ngap = \"1/2\"\n"
            "from-left = 1\nfrom-top = 2\n") +
      window("hole", "dot", "size = \"1/2 x 1/2\"\nfrom-left = \"1/8\"\nfrom-top = \"1/4\"\n"));
  CHECK(card.names() == Names{"dot", "dot", "dot"});
  CHECK(bounds(card.sheet("dot", 0).outline) == Box{1, 2, 2, 3});
  CHECK(bounds(card.sheet("dot", 1).outline) == Box{part(5, 2), 2, part(7, 2), 3});
  CHECK(bounds(card.sheet("dot", 2).outline) == Box{1, part(7, 2), 2, part(9, 2)});
  for (const std::size_t copy : {0U, 1U, 2U}) {
    const Sheet& sheet = card.sheet("dot", copy);
    REQUIRE(sheet.openings.size() == 1);
    const Box outer = bounds(sheet.outline);
    CHECK(bounds(sheet.openings[0]) ==
          Box{outer[0] + part(1, 8), outer[1] + part(1, 4), outer[0] + part(5, 8), outer[1] + part(3, 4)});
  }
}

TEST_CASE("a quarter turn is exact, and takes along what is on the layer") {
  // Turned clockwise, what was at its left edge is at its top.
  const PileText card(flat +
                      layer("tag", "front", "size = \"1 x 2\"\ntilt = 90\nfrom-left = 1\nfrom-top = 1\n") +
                      layer("dot", "tag", "size = \"1/4 x 1/4\"\nfrom-left = 0\nfrom-bottom = 0\n"));
  CHECK(bounds(card.sheet("tag").outline) == Box{1, 1, 3, 2});
  // Its lower left corner comes to the upper left.
  CHECK(bounds(card.sheet("dot").outline) == Box{1, 1, part(5, 4), part(5, 4)});
  const PileText half(flat +
                      layer("tag", "front", "size = \"1 x 2\"\ntilt = 180\nfrom-left = 1\nfrom-top = 1\n") +
                      layer("dot", "tag", "size = \"1/4 x 1/4\"\nfrom-left = 0\nfrom-bottom = 0\n"));
  CHECK(bounds(half.sheet("dot").outline) == Box{part(7, 4), 1, 2, part(5, 4)});
}

TEST_CASE("a tilted layer keeps its area exactly, and lies in its box to within 1e-9") {
  Dice dice(3);
  for (int i = 0; i < 40; ++i) {
    const int degrees = dice.between(-360, 360);
    INFO(degrees);
    const PileText card(flat + layer("tag", "front",
                                     "size = \"1 1/4 x 2\"\nfrom-left = \"1/2\"\nfrom-top = 1\ntilt = " +
                                         std::to_string(degrees) + "\n"));
    const Quad& outline = card.sheet("tag").outline;
    CHECK(area(outline) == part(5, 2));
    const Box box = bounds(outline);
    const PlacedPiece& told = card.piece("tag");
    CHECK(within(box[0], told.left, 2 * hair));
    CHECK(within(box[1], told.top, 2 * hair));
    CHECK(within(box[2], told.left + told.box_width, 2 * hair));
    CHECK(within(box[3], told.top + told.box_height, 2 * hair));
    CHECK(box[0] >= told.left);
    CHECK(box[3] <= told.top + told.box_height);
  }
}

TEST_CASE("what is on a tilted layer turns about that layer's middle, and a tilt on a tilt adds up") {
  const PileText card(flat + layer("tag", "front", "size = \"2 x 2\"\ntilt = 30\n") +
                      layer("print", "tag", "size = \"1 x 1\"\nalign = \"centre\"\ntilt = 60\n") +
                      layer("dot", "print", "size = \"1/2 x 1/2\"\nfrom-left = 0\nfrom-top = 0\n"));
  // 90 degrees in all: upright again, its upper left corner at the upper right.
  const Box print = bounds(card.sheet("print").outline);
  CHECK(within(print[2] - print[0], 1, 10 * hair));
  CHECK(within(print[0] + print[2], 4, 10 * hair));
  CHECK(within(print[1] + print[3], 6, 10 * hair));
  const Box dot = bounds(card.sheet("dot").outline);
  CHECK(within(dot[2], print[2], 10 * hair));
  CHECK(within(dot[1], print[1], 10 * hair));
  CHECK(within(dot[0], print[0] + part(1, 2), 10 * hair));
}

TEST_CASE("a turned window opens as far as it is turned") {
  const PileText card(
      flat + layer("mat", "front", "size = \"2 x 1\"\ntilt = 90\nfrom-left = 1\nfrom-top = 1\n") +
      window("hole", "mat", "size = \"1/2 x 1/4\"\nfrom-left = \"1/4\"\nfrom-top = \"1/8\"\n"));
  CHECK(bounds(card.sheet("mat").outline) == Box{1, 1, 2, 3});
  // Clockwise: from the left becomes from the top, from the top becomes from the right.
  CHECK(bounds(card.sheet("mat").openings.at(0)) ==
        Box{2 - part(1, 8) - part(1, 4), part(5, 4), 2 - part(1, 8), part(7, 4)});
}
