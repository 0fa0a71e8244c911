// From a card to its sizes in one call: what every maker knows by heart, variants, and running out of time.
#include "solver/size_card.h"

#include <chrono>

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

std::vector<Rational> scores(const SizedText& card) {
  std::vector<Rational> at;
  for (const ScoreLine& score : card.plain().folding.scores) at.push_back(score.at);
  return at;
}

}  // namespace

// Common practice, no source.
TEST_CASE("a letter sheet cut to 5 1/2 and folded gives a 4 1/4 x 5 1/2 card") {
  const SizedText side("[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n");
  CHECK(side.plain().front == Size{part(17, 4), part(11, 2)});
  CHECK(side.plain().folding.blank == Size{part(17, 2), part(11, 2)});
  CHECK(scores(side) == std::vector<Rational>{part(17, 4)});
  const SizedText top("[base]\nfold = \"top\"\nfront = \"us A2 turned\"\n");
  CHECK(top.plain().folding.blank == Size{part(11, 2), part(17, 2)});
  CHECK(scores(top) == std::vector<Rational>{part(17, 4)});
  const SizedText flat("[base]\nfold = \"flat\"\nfront = \"us A2\"\n");
  CHECK(flat.plain().folding.blank == Size{part(17, 4), part(11, 2)});
  CHECK(scores(flat).empty());
}

// Common practice, no source.
TEST_CASE("cut back by 1 in, the front shows 3 1/4 and the reveal 1") {
  const SizedText card(side_fold + "cut-back = 1\n" + layer("mat", "front", "border = 0\n") +
                       layer("strip", "reveal", "border = 0\n"));
  CHECK(card.sized.verdict == Verdict::buildable);
  CHECK(card.plain().front == Size{part(13, 4), part(11, 2)});
  CHECK(card.plain().cut_back == Rational(1));
  CHECK(card.plain().cut_back_stated);
  CHECK(card.size("mat") == Size{part(13, 4), part(11, 2)});
  CHECK(card.size("strip") == Size{1, part(11, 2)});
  CHECK(card.piece("strip").left == part(13, 4));
  CHECK(card.piece("strip").from_left == 0);
  CHECK(card.plain().folding.blank == Size{part(17, 2), part(11, 2)});
}

// Common practice, no source.
TEST_CASE("a 2 3/4 x 1 greeting with an even 1/8 border takes a 3 x 1 1/4 mat") {
  const SizedText card(side_fold + layer("mat", "front", "align = \"centre\"\n") +
                       layer("greeting", "mat", "size = \"2 3/4 x 1\"\nborder = \"1/8\"\n"));
  CHECK(card.size("mat") == Size{3, part(5, 4)});
  CHECK(card.piece("mat").width_stated);
  CHECK(card.piece("mat").left_stated);
}

// Common practice, no source.
TEST_CASE("on a 5 1/2 tall front a 1/16 mat and a further 1/16 panel are 5 3/8 and 5 1/4 tall") {
  const SizedText card(side_fold + layer("mat", "front", "border = \"1/16\"\n") +
                       layer("panel", "mat", "border = \"1/16\"\n"));
  CHECK(card.size("mat") == Size{part(33, 8), part(43, 8)});
  CHECK(card.size("panel") == Size{4, part(21, 4)});
  CHECK(card.piece("panel").left == part(1, 8));
  CHECK(card.piece("panel").from_left == part(1, 16));
}

TEST_CASE("what a stated wish settles is told as stated, what is chosen as chosen") {
  const SizedText card(
      side_fold + panel + layer("bare", "panel") +
      layer("words", "bare", "artwork = \"2 x 1/2\"\nmargin = \"1/8\"\nfrom-top = \"1/4\"\n") +
      layer("tag", "bare", "width = \"at most 1\"\nheight = 1\nalign = \"bottom right\"\n"));
  const PlacedPiece& mat = card.piece("panel");
  CHECK((mat.width_stated && mat.height_stated && mat.left_stated && mat.bottom_stated));
  const PlacedPiece& bare = card.piece("bare");
  CHECK_FALSE((bare.width_stated || bare.height_stated || bare.left_stated || bare.right_stated));
  CHECK(card.size("bare") == Size{part(31, 8), part(41, 8)});  // the usual 1/16
  const PlacedPiece& words = card.piece("words");
  CHECK((words.width_stated && words.height_stated && words.top_stated));
  CHECK_FALSE((words.left_stated || words.right_stated || words.bottom_stated));
  const PlacedPiece& tag = card.piece("tag");
  CHECK((tag.height_stated && tag.right_stated && tag.bottom_stated));
  CHECK_FALSE((tag.width_stated || tag.left_stated || tag.top_stated));
  CHECK(card.sized.freedom_known);
}

TEST_CASE("what lies on a tilted layer turns with it and is held by its own edges") {
  const SizedText card(side_fold + layer("tag", "front", "size = \"2 x 1\"\ntilt = 10\n") +
                       layer("print", "tag", "border = \"1/16\"\n"));
  CHECK(card.size("print") == Size{part(15, 8), part(7, 8)});
  CHECK(card.piece("print").from_left == part(1, 16));
  CHECK(card.piece("print").from_bottom == part(1, 16));
  CHECK(card.piece("tag").box_width > 2);
  CHECK(card.piece("tag").box_height > 1);
}

TEST_CASE("copies are told one by one, artwork by its place in the layer") {
  const SizedText card(
      side_fold + panel +
      layer("stamp", "panel",
            "size = \"1 x 1\"\ncopies = 3\ncolumns = 2\ngap = \"1/2\"\n"
            "from-left = \"1/4\"\nfrom-top = 1\n") +
      layer("words", "panel", "artwork = \"2 x 1/2\"\nmargin = \"1/8\"\nbelow = \"stamp\"\n"));
  const Rational near = part(1, 4);
  const Rational far = part(7, 4);
  const std::vector<std::pair<Rational, Rational>> corners = {{near, 1}, {far, 1}, {near, part(5, 2)}};
  CHECK(card.piece("stamp").copies == corners);
  CHECK(card.piece("stamp").box_width == part(5, 2));
  CHECK(card.piece("words").copies.empty());
  CHECK(card.piece("words").artwork_at == std::pair{part(1, 8), part(1, 8)});
}

TEST_CASE("the plain card is the batch less what variants claim, and each version has its own sizes") {
  const SizedText card(
      "cards = 12\n" + side_fold + panel + layer("words", "panel", "artwork = \"2 x 1/2\"\n") +
      "[[variant]]\nname = \"short\"\ncards = 5\nset = { \"words.artwork\" = \"1 x 1/2\" }\n" +
      "[[variant]]\nname = \"none\"\ncards = 3\nwithout = [\"words\"]\n");
  REQUIRE(card.sized.versions.size() == 3);
  CHECK(card.plain().cards == 4);
  CHECK(card.sized.versions[1].cards == 5);
  CHECK(card.sized.versions[2].name == "none");
  CHECK(card.sized.versions[2].pieces.size() == 1);
  // A wider layer serves both: one setting of the trimmer.
  CHECK(card.size("words", 0) == Size{2, part(1, 2)});
  CHECK(card.size("words", 1) == Size{2, part(1, 2)});
}

TEST_CASE("a variant that cannot be built leaves the others answered") {
  const SizedText card(
      "cards = 12\n" + side_fold + panel + layer("words", "panel", "artwork = \"2 x 1/2\"\n") +
      "[[variant]]\nname = \"wide\"\ncards = 5\nset = { \"words.artwork\" = \"6 x 1/2\" }\n" +
      "[[variant]]\nname = \"tall\"\ncards = 3\nset = { \"words.artwork\" = \"1 x 1 1/2\" }\n");
  CHECK(card.sized.verdict == Verdict::conflict);
  CHECK(card.plain().verdict == Verdict::buildable);
  CHECK(card.size("panel") == Size{4, part(21, 4)});
  CHECK(card.sized.versions[1].verdict == Verdict::conflict);
  CHECK(card.sized.versions[1].pieces.empty());
  CHECK(card.sized.versions[2].verdict == Verdict::buildable);
  CHECK(card.size("words", 2).height == part(3, 2));
  CHECK(card.sized.clash_of == "wide");
  CHECK_FALSE(card.sized.clash.empty());
}

TEST_CASE("out of time, a card is undecided") {
  std::string text = side_fold + panel;
  for (const char* name : {"a", "b", "c", "d", "e", "f"})
    text += layer(name, "panel", "width = \"1/2 to 2\"\n");
  SizeOptions options;
  options.limit = 0.0001;
  const SizedText card(text, options);
  CHECK(card.sized.verdict == Verdict::undecided);
  CHECK(card.plain().verdict == Verdict::undecided);
}

TEST_CASE("whenever time runs out, it ends, and a card that is shown holds what is stated") {
  std::string text = side_fold + panel;
  for (const char* name : {"a", "b", "c", "d", "e", "f", "g", "h"}) {
    text += layer(name, "panel", "width = \"1/4 to 2\"\nheight = \"at least 1/4\"\nratio = \"2:3\"\n");
  }
  for (const double limit : {0.01, 0.1, 0.5}) {
    INFO(limit << " s");
    const auto before = std::chrono::steady_clock::now();
    SizeOptions options;
    options.limit = limit;
    const SizedText card(text, options);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - before;
    CHECK(taken.count() < limit + 5);  // generous, for machines that are busy
    CHECK(card.sized.verdict != Verdict::conflict);
    for (const PlacedPiece& placed : card.plain().pieces) {
      CHECK((placed.from_left >= 0 && placed.from_right >= 0));
      CHECK((placed.from_top >= 0 && placed.from_bottom >= 0));
      if (placed.piece->ratio) CHECK(placed.width * 3 == placed.height * 2);
    }
  }
}

TEST_CASE("no fold is refused") {
  for (const char* fold : {"flat", "side", "top", "gate", "z", "tri"}) {
    INFO(fold);
    const SizedText card("[base]\nfold = \"" + std::string(fold) + "\"\nfront = \"4 x 5\"\n" + panel);
    CHECK_FALSE(refusal(card.card));
    CHECK(card.sized.verdict == Verdict::buildable);
    CHECK(card.size("panel") == Size{part(15, 4), part(19, 4)});
  }
}

TEST_CASE("more layers on one thing than can be told apart in time are refused, with the first too many") {
  std::string text = side_fold + panel;
  for (std::size_t i = 0; i < most_side_by_side; ++i) text += layer(std::to_string(i), "panel");
  CHECK_FALSE(refusal(card_of(text)));
  text += layer("one more", "panel");
  const auto remark = refusal(card_of(text));
  REQUIRE(remark);
  CHECK(remark->says.find("panel") != std::string::npos);
  CHECK(remark->spot.line == 4 + 4 + 3 * static_cast<int>(most_side_by_side) + 1);
}

TEST_CASE("a card of which borders are chosen on the marks in several versions is sized to the end") {
  // Choosing as many of them as can be brings lengths of its own.
  const SizedText card(R"(
mark = "0.0625"
cards = 9
rules = ["'clay panel'.left = 'pebble tag'.left"]

[base]
fold = "gate"
front = "5 x 7"
paper = "ivory"
cut-back = "0.4375"

[[layer]]
name = "clay panel"
on = "left front"
cut = "die"
border = "9/64"
paper = "plum card"

[[layer]]
name = "pebble tag"
on = "clay panel"
stamped = true
width = "at least 1.625, about 13/8"
height = "5 1/16 in to 5-5/16"
from-bottom = 1.53125

[[layer]]
name = "dune tag"
on = "inside left front"
copies = 2
columns = 1
gap = "even"
size = "3/16 x 9/16"
border = "at least 5/8, about 3/4"

[[variant]]
name = "for table 1"
cards = 2
set = { "clay panel.border" = "5/64 to 13/64", "dune tag.border" = "at least 5/8" }

[[variant]]
name = "for table 2"
cards = 2
set = { "dune tag.border" = "15.875 mm to 100.0125 mm", "clay panel.border" = "at least 0.015625, about 11/64" }

[[paper]]
name = "ivory"
sheet = "24 in x 36 in"
have = 50
thickness = "12 pt"

[[paper]]
name = "plum card"
sheet = "24 in x 36 in"
have = 50
weight = "24 lb bond"
thickness = "12 pt"
)");
  CHECK(card.sized.verdict == Verdict::buildable);
}

TEST_CASE("a window whose frame may be nothing can take all of its paper") {
  const SizedText card(
      "mark = \"1/16\"\n[base]\nfold = \"flat\"\nfront = \"4 x 5\"\n"
      "[[window]]\nname = \"pane\"\nin = \"front\"\nframe = \"0 to 5/8, about 0\"\n");
  REQUIRE(card.sized.verdict == Verdict::buildable);
  CHECK(card.size("pane") == Size{4, 5});
  CHECK(card.plain().closed->over_all == Size{0, 0});
}
