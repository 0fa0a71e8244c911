// What stands within a template: what its faces are called and which way the front stands, what is cut out.
#include <algorithm>
#include <string>
#include <vector>

#include "cli/draw/templates_pieces.h"
#include "tests/catch.h"
#include "tests/cli/drawn_templates.h"

using namespace evenmat;
using namespace evenmat::testing;

TEST_CASE("a base tells its faces and which way the front stands") {
  struct Fold {
    std::string fold;
    double down = 0;  // what way the arrow points
  };
  for (const Fold& one : {Fold{"side", -1}, Fold{"top", 1}, Fold{"flat", -1}, Fold{"z", -1}}) {
    INFO(one.fold);
    const Ready made = ready("[base]\nfold = \"" + one.fold + "\"\nfront = \"2 x 2 1/2\"\n");
    REQUIRE(made.drawing.pages.size() == 1);
    const bool front_up = one.fold == "flat" || one.fold == "z";
    CHECK(count(made.drawing, front_up ? "front" : "inside front") == 1);
    CHECK(has(made.drawing.pages[0], "up as the arrow points"));
    if (one.fold == "side") CHECK(count(made.drawing, "back on its other side") == 1);
    std::vector<Polyline> arrows;
    for (const Polyline& line : all_of<Polyline>(made.drawing.pages[0])) {
      if (line.arrow_at_end) arrows.push_back(line);
    }
    REQUIRE(arrows.size() == 1);
    CHECK(near(arrows[0].points[0].x, arrows[0].points[1].x));
    CHECK((arrows[0].points[1].y - arrows[0].points[0].y) * one.down > 0);
  }
}

TEST_CASE("a base that is turned on its page says so and turns its arrow") {
  const Ready made = ready("[base]\nfold = \"side\"\nfront = \"4 x 5\"\n");
  CHECK(count(made.drawing, "turned by a quarter on this page") == 1);
  for (const Polyline& line : all_of<Polyline>(made.drawing.pages[0])) {
    if (line.arrow_at_end) CHECK(line.points[1].x > line.points[0].x);
  }
  const Ready upright = ready("[base]\nfold = \"side\"\nfront = \"3 x 5\"\n");
  CHECK(count(upright.drawing, "turned by a quarter on this page") == 0);
}

TEST_CASE("windows are told within their own opening") {
  // The inside looks up: from its left the last one of the front comes first.
  const Ready made = ready(R"(
[base]
fold = "side"
front = "3 x 4"
[[window]]
name = "dawn"
in = "front"
size = "3/4 x 1"
from-left = "1/4"
from-top = "1"
[[window]]
name = "dusk"
in = "front"
size = "3/4 x 1"
from-left = "2"
from-top = "1"
[[layer]]
name = "mat"
on = "inside"
size = "2 x 2"
[[window]]
name = "view"
in = "mat"
size = "1 3/4 x 1 3/4"
)");
  REQUIRE(made.sized.verdict == Verdict::buildable);
  check_clear(made.drawing);
  const std::vector<TemplatePiece> pieces = template_pieces(made.card.front(), made.sized, made.versions);
  REQUIRE(pieces.size() == 2);
  REQUIRE(pieces[0].holes.size() == 2);
  for (const TemplateHole& hole : pieces[0].holes) {
    INFO(hole.words);
    const bool dawn = hole.words == "cut out: dawn, 3/4 x 1";
    CHECK((dawn || hole.words == "cut out: dusk, 3/4 x 1"));
    CHECK(near(hole.box.left, (dawn ? 2 : 0.25) * inch));
    CHECK(near(hole.box.top, inch));
  }
  CHECK(count(made.drawing, "cut out: dawn, 3/4 x 1") == 1);
  CHECK(count(made.drawing, "cut out: view, 1 3/4 x 1 3/4") == 1);
  // The mat's own name lies outside its hole.
  const Page& page = made.drawing.pages[0];
  const std::vector<Text> texts = all_of<Text>(page);
  const auto box_of = [&](const std::string& words) {
    const auto found =
        std::find_if(texts.begin(), texts.end(), [&](const Text& text) { return text.words == words; });
    REQUIRE(found != texts.end());
    return found->box;
  };
  const At hole = box_of("cut out: view, 1 3/4 x 1 3/4").middle();
  const double half = 0.875 * inch;
  CHECK(!overlap(box_of("mat"), {hole.x - half, hole.y - half, 2 * half, 2 * half}));
}

TEST_CASE("a window too small for words is told with the words of its piece") {
  const Ready made = ready(
      "[base]\nfold = \"flat\"\nfront = \"4 x 5\"\n[[window]]\nname = \"pinhole\"\nin = \"front\"\nsize = "
      "\"1/8 x 1/8\"\n");
  CHECK(count(made.drawing, "cut out: pinhole, 1/8 x 1/8") == 1);
  check_clear(made.drawing);
}

TEST_CASE("what of a hollow mat is hidden is drawn with its size and place") {
  const Ready made = ready(R"(
[base]
fold = "flat"
front = "5 x 7"
[[layer]]
name = "straw mat"
role = "mat"
on = "front"
size = "4 x 5"
hollow = true
[[layer]]
name = "panel"
on = "straw mat"
border = "1/8"
)");
  REQUIRE(made.sized.verdict == Verdict::buildable);
  CHECK(count(made.drawing,
              "hidden, may be cut out: 3 1/4 x 4 1/4, 3/8 from the left and 3/8 from the top") == 1);
  check_clear(made.drawing);
}
