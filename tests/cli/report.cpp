// The report and the clash, over sized cards made by hand: what is told, and that it fits the page.
#include "cli/report.h"

#include <algorithm>

#include "cli/clash.h"
#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;

namespace {

const Style plain;

Rational sixteenths(int count) { return Rational(count) / 16; }

Piece layer(const std::string& name, const std::string& on) {
  Piece piece;
  piece.name.value = name;
  piece.on.value = on;
  return piece;
}

PlacedPiece placed(const Piece& piece, const Rational& width, const Rational& height,
                   const Rational& border) {
  PlacedPiece one;
  one.piece = &piece;
  one.width = width;
  one.height = height;
  one.from_left = one.from_right = one.from_top = one.from_bottom = border;
  one.width_stated = one.height_stated = one.left_stated = one.top_stated = true;
  one.right_stated = one.bottom_stated = true;
  return one;
}

// A side-fold card of three layers, each with its size and place stated.
struct Example {
  Card card;
  SizedCard sized;

  explicit Example(const std::vector<std::string>& names = {"mat", "panel", "greeting"}) {
    card.title = "A card";
    card.mark = sixteenths(1);
    card.cards = 12;
    card.design.base.fold.value = Fold::side;
    card.design.base.front.size = {sixteenths(68), sixteenths(88)};
    std::string below = "front";
    for (const std::string& name : names) {
      card.design.pieces.push_back(layer(name, below));
      below = name;
    }
    sized.versions.push_back(version(card.design));
  }
  Example(const Example&) = delete;
  Example& operator=(const Example&) = delete;

  static SizedVersion version(const Design& design) {
    SizedVersion one;
    one.front = design.base.front.size;
    one.folding = folding_of(design.base);
    int inset = 2;
    for (const Piece& piece : design.pieces) {
      one.pieces.push_back(
          placed(piece, sixteenths(68 - 2 * inset), sixteenths(88 - 2 * inset), sixteenths(2)));
      inset += 2;
    }
    return one;
  }

  [[nodiscard]] std::string text() const { return report(card, sized, plain); }
  SizedVersion& version() { return sized.versions.front(); }
  PlacedPiece& piece(std::size_t i) { return sized.versions.front().pieces.at(i); }

  void add_variant(const std::string& name, int cards) {
    Variant& variant = card.variants.emplace_back();
    variant.name.value = name;
    variant.cards = cards;
    variant.design = card.design;
    sized.versions.push_back(version(card.variants.back().design));
    sized.versions.back().name = name;
    sized.versions.back().cards = cards;
  }
};

bool has_line(const std::string& text, const std::string& wanted) {
  const std::vector<std::string> all = testing::lines(text);
  return std::find(all.begin(), all.end(), wanted) != all.end();
}

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

void check_fits(const std::string& text) {
  for (const std::string& line : testing::lines(text)) {
    INFO(line);
    CHECK(columns(line) <= 80);
    CHECK(printable(line) == line);
  }
}

}  // namespace

TEST_CASE("a report tells sizes before places, and ends on a caution") {
  const Example example;
  CHECK(example.text() ==
        "A card\n"
        "Side-fold card, 4 1/4 x 5 1/2 in closed\n"
        "12 cards, marks every 1/16 in\n"
        "\n"
        "To cut      width    height\n"
        "  base      8 1/2  x 5 1/2   score 4 1/4 from its left\n"
        "  mat       4      x 5 1/4\n"
        "  panel     3 3/4  x 5\n"
        "  greeting  3 1/2  x 4 3/4\n"
        "\n"
        "To fold\n"
        "  1.  Cut the blank, 8 1/2 x 5 1/2 in.\n"
        "  2.  Lay it inside up. Its score is 4 1/4 in from its left edge and folds\n"
        "      towards you (a valley).\n"
        "  3.  Score it before folding, turned over with its left edge still at the left,\n"
        "      so that the ridge comes inside the fold.\n"
        "  4.  With its inside up again, fold the front towards you.\n"
        "  Closed, front to back: front, back leaf.\n"
        "  Opened out, from left to right: inside front, inside.\n"
        "\n"
        "To place, from the edges of what it lies on\n"
        "              left  right  top  bottom\n"
        "  on the front\n"
        "    mat       1/8   1/8    1/8  1/8\n"
        "  on mat\n"
        "    panel     1/8   1/8    1/8  1/8\n"
        "  on panel\n"
        "    greeting  1/8   1/8    1/8  1/8\n"
        "\n"
        "Mind the blade, and build one card whole before you cut the batch.\n");
}

TEST_CASE("what was chosen has a sign of its own") {
  Example example;
  CHECK_FALSE(has(example.text(), "*"));
  example.piece(1).width_stated = false;
  example.piece(2).top_stated = example.piece(2).bottom_stated = false;
  CHECK(has_line(example.text(), "  panel     3 3/4*  x 5"));
  CHECK(has_line(example.text(), "    greeting  1/8   1/8    1/8*  1/8*"));
  CHECK(has_line(example.text(), "* chosen, where what is stated leaves it open"));
}

TEST_CASE("what lies between marks says so") {
  Example example;
  CHECK_FALSE(has(example.text(), "^"));
  example.piece(0).from_top = Rational(63) / 32;
  CHECK(has_line(example.text(), "    mat       1/8   1/8    1 31/32^  1/8"));
  CHECK(has_line(example.text(), "^ between marks (every 1/16 in)"));

  Example front;
  front.card.design.base.front.size.width = Rational(4) + Rational(1) / 3;
  CHECK(has_line(front.text(), "Side-fold card, 4 1/3^ x 5 1/2 in closed"));
}

TEST_CASE("rounded millimetres say so") {
  Example example;
  example.card.unit = Unit::millimetre;
  example.card.mark = 1;
  for (PlacedPiece& one : example.version().pieces) one.width = one.height = 50;
  example.piece(0).width = Rational(100) / 3;
  CHECK(has(example.text(), "~33.333^"));
  CHECK(has_line(example.text(), "~ rounded"));
  CHECK(has_line(example.text(), "^ between marks (every 1 mm)"));
}

TEST_CASE("the base tells its paper, its scores and what is cut back") {
  Example example;
  example.card.design.base.paper = Stated<std::string>{"ivory", {}};
  example.card.design.base.cut_back = CutBack{Edge::right, {}};
  example.version().front.width = sixteenths(52);
  example.version().cut_back = 1;
  CHECK(has(example.text(), "ivory, score 4 1/4 from its left\n"));
  CHECK(has(example.text(), "  front, cut back  3 1/4  x 5 1/2   once folded, 1 off its right edge\n"));

  example.version().cut_back_stated = false;
  CHECK(has(example.text(), "3 1/4*  x 5 1/2   once folded, 1* off its right edge\n"));
}

TEST_CASE("copies, artwork, tilt and windows are told") {
  Example example;
  example.piece(0).copies = {{sixteenths(2), 0}, {2, 0}, {sixteenths(2), 3}, {2, 3}};
  CHECK(has(example.text(), "  4 alike\n"));
  CHECK(has_line(example.text(), "      4 alike: 1/8, 2 from the left, 0, 3 from the top"));

  example.card.design.pieces[2].artwork = StatedSize{{2, 1}, "2 x 1", {}, {}};
  example.piece(2).artwork_at = {sixteenths(3), sixteenths(4)};
  CHECK(has_line(example.text(), "      artwork 2 x 1: 3/16 from its left, 1/4 from its top"));

  example.card.design.pieces[2].tilt = Stated<Rational>{Rational(-5) / 2, {}};
  example.piece(2).box_width = 4;
  example.piece(2).box_height = 3;
  CHECK(has(example.text(), "tilted 2.5 degrees anticlockwise"));
  CHECK(has_line(example.text(), "      to its outermost corners, 4 x 3 as it lies"));

  example.card.design.pieces[0].kind = Piece::Kind::window;
  CHECK(has(example.text(), "window in the front"));
  CHECK(has_line(example.text(), "  cut in the front"));
}

TEST_CASE("what lies in a window or behind it says so, and how far it reaches past") {
  Example example({"pane", "print"});
  example.card.design.pieces[0].kind = Piece::Kind::window;
  CHECK(has_line(example.text(), "  in the opening of pane"));
  CHECK_FALSE(has(example.text(), "reaches past"));

  example.card.design.pieces[1].tuck = Wish{};
  example.piece(1).from_left = example.piece(1).from_right = sixteenths(-3);
  CHECK(has_line(example.text(), "  behind pane"));
  CHECK(has_line(example.text(), "    print  -3/16  -3/16  1/8  1/8"));
  CHECK(has_line(example.text(), "- reaches past the edge by so much"));
}

TEST_CASE("what can still move is told in both directions") {
  Example example;
  example.version().slides = {{{"greeting"}, false, sixteenths(10), sixteenths(10)},
                              {{"mat", "panel"}, true, 0, sixteenths(1)},
                              {{"panel"}, true, sixteenths(2), sixteenths(3)}};
  CHECK(has_line(example.text(), "  greeting: 5/8 in up or down"));
  CHECK(has_line(example.text(), "  mat, panel (together): 1/16 in right"));
  CHECK(has_line(example.text(), "  panel: 1/8 in left, 3/16 in right"));
}

TEST_CASE("ranges and warnings are told") {
  Example example;
  example.version().ranges = {{"mat", "width", sixteenths(60), sixteenths(66)}};
  example.version().warnings = {{{12, 3}, "The front is off the marks."}, {{}, "So is the blank."}};
  CHECK(has_line(example.text(), "  mat                 width  3 3/4  4 1/8"));
  CHECK(has_line(example.text(), "  The front is off the marks. (line 12)"));
  CHECK(has_line(example.text(), "  So is the blank."));
}

TEST_CASE("a variant tells only what differs while that is little") {
  Example example;
  example.add_variant("for the crew", 4);
  CHECK(has_line(example.text(), "The plain card (1 card)"));
  CHECK(has_line(example.text(), "Variant: for the crew (4 cards)"));
  CHECK(has_line(example.text(), "Cut and placed like the plain card."));

  example.sized.versions[1].pieces[2].width = 3;
  std::string variant = example.text();
  variant.erase(0, variant.find("Variant:"));
  CHECK(has_line(variant, "  greeting  3      x 4 3/4"));
  CHECK_FALSE(has(variant, "panel  "));
  CHECK_FALSE(has(variant, "base"));

  example.sized.versions[1].pieces.erase(example.sized.versions[1].pieces.begin());
  CHECK(has_line(example.text(), "Left out: mat"));
}

TEST_CASE("a variant that differs in most is told whole") {
  Example example;
  example.add_variant("for the crew", 4);
  for (PlacedPiece& one : example.sized.versions[1].pieces) one.width = 3;
  std::string variant = example.text();
  variant.erase(0, variant.find("Variant:"));
  CHECK(has(variant, "  base "));
  CHECK(has_line(variant, "  mat       3      x 5 1/4"));
}

TEST_CASE("an undecided card says that there may be a better one") {
  Example example;
  example.sized.verdict = example.version().verdict = Verdict::undecided;
  CHECK(has(example.text(), "Whether a card shows as much as is asked for is not settled"));
  CHECK_FALSE(has(example.text(), "time allowed"));
  example.sized.time_ran_out = true;
  CHECK(has(example.text(), "Not settled within the time allowed."));
  CHECK(has(example.text(), "  mat       4      x 5 1/4"));
  example.version().pieces.clear();
  CHECK(has_line(example.text(), "No card was found within the time allowed. --limit allows more."));
  CHECK_FALSE(has(example.text(), "best card found"));
}

TEST_CASE("where it is not known what was chosen, nothing is said to be") {
  Example example;
  example.piece(1).width_stated = false;
  example.sized.freedom_known = false;
  CHECK(has(example.text(), "before it was known what was stated and what chosen"));
  CHECK_FALSE(has(example.text(), "*"));
}

TEST_CASE("a report fits the page whatever the names are") {
  for (const std::string& name :
       {std::string(300, 'n'),
        std::string("灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠"),
        std::string("a\tb\nc\x1b[31m\xff"), std::string("e\xcc\x81 e\xcc\x81")}) {
    Example example({name, name + "2", name + "3"});
    example.card.title = name;
    example.card.design.base.paper = Stated<std::string>{name, {}};
    example.card.design.pieces[0].paper = Stated<std::string>{name, {}};
    example.version().slides = {{{name, name}, false, sixteenths(10), sixteenths(10)}};
    example.version().ranges = {{name, "from left", sixteenths(60), sixteenths(66)}};
    example.version().warnings = {{{12, 3}, name}};
    example.add_variant(name, 4);
    example.sized.versions[1].pieces.pop_back();
    check_fits(example.text());
  }
}

TEST_CASE("a report fits the page whatever the lengths are") {
  Example example;
  const Rational long_one("123456789012345678901234567890/997");
  for (PlacedPiece& one : example.version().pieces) {
    one.width = one.height = one.from_left = one.from_right = one.from_top = one.from_bottom = long_one;
  }
  example.version().ranges = {{"mat", "width", long_one, long_one}};
  example.version().slides = {{{"mat"}, false, long_one, 0}};
  check_fits(example.text());
}

TEST_CASE("colour adds nothing but dress") {
  const Example example;
  std::string dressed = report(example.card, example.sized, {.colour = true});
  CHECK(has(dressed, "\x1b["));
  for (std::size_t at = 0; (at = dressed.find('\x1b', at)) != std::string::npos;) {
    dressed.erase(at, dressed.find('m', at) - at + 1);
  }
  CHECK(dressed == example.text());
}

TEST_CASE("a clash shows each rule with its line") {
  Example example;
  example.sized.verdict = example.version().verdict = Verdict::conflict;
  example.sized.clash = {{"The mat is 5 wide.", {2, 9}}, {"The front is 4 1/4 wide.", {1, 9}}};
  const Source source{"card.toml", "front = \"us A2\"\nwidth = 5\n"};
  CHECK(clash(source, example.sized, plain) ==
        "This card cannot be built as stated.\n"
        "These cannot all hold:\n"
        "\n"
        "card.toml:2:9: The mat is 5 wide.\n"
        "   2 | width = 5\n"
        "     |         ^\n"
        "\n"
        "card.toml:1:9: The front is 4 1/4 wide.\n"
        "   1 | front = \"us A2\"\n"
        "     |         ^\n");

  example.sized.off_marks = "Only the marks stand in the way.";
  CHECK(has_line(clash(source, example.sized, plain), "Only the marks stand in the way."));
}

TEST_CASE("a clash names the variant that cannot be built") {
  Example example;
  example.add_variant("for the crew", 4);
  example.sized.verdict = example.sized.versions[1].verdict = Verdict::conflict;
  CHECK(has_line(clash({"c", ""}, example.sized, plain),
                 "The variant \"for the crew\" cannot be built as stated; the plain card can."));
  example.sized.clash = {{"The mat is 5 wide.", {}}};
  example.sized.clash_of = "for the crew";
  CHECK(has_line(clash({"c", ""}, example.sized, plain), "This cannot hold in \"for the crew\":"));
  example.version().verdict = Verdict::conflict;
  CHECK(has_line(clash({"c", ""}, example.sized, plain), "This card cannot be built as stated."));
}
