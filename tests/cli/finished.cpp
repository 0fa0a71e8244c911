// What a report tells of the card in the hand: how much of each layer is seen, how thick and heavy it is
// closed, where it goes in. Over sized cards made by hand.
#include <algorithm>
#include <list>
#include <utility>

#include "cli/check/builds.h"
#include "cli/printable.h"
#include "cli/quantities.h"
#include "cli/report.h"
#include "cli/report/placing.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;

namespace {

const Style plain;

Rational part(int numerator, int denominator) { return Rational(numerator) / denominator; }

// A side-fold card with a raised boat on a panel, closed 4 1/4 x 5 1/2 in.
struct Example {
  Card card;
  CheckedCard checked;

  explicit Example(const std::string& panel = "sea panel", const std::string& boat = "boat") {
    card.mark = part(1, 16);
    card.design.base.fold.value = Fold::side;
    card.design.base.front.size = {part(17, 4), part(11, 2)};
    for (const auto& [name, on] : {std::pair<std::string, std::string>{panel, "front"}, {boat, panel}}) {
      Piece& piece = card.design.pieces.emplace_back();
      piece.name.value = name;
      piece.on.value = on;
    }
    checked.sized.emplace().versions.push_back(version(card.design));
  }
  Example(const Example&) = delete;
  Example& operator=(const Example&) = delete;

  static SizedVersion version(const Design& design) {
    SizedVersion one;
    one.front = design.base.front.size;
    one.folding = folding_of(design.base);
    for (const Piece& piece : design.pieces) {
      PlacedPiece& placed = one.pieces.emplace_back();
      placed.piece = &piece;
      placed.width = placed.height = 2;
      placed.shown = {1, 1};
    }
    one.closed.emplace().front = one.front;
    one.closed->over_all = one.front;
    one.closed->no_thickness = one.closed->no_weight = {""};
    return one;
  }

  [[nodiscard]] SizedCard& sized() { return *checked.sized; }
  [[nodiscard]] SizedVersion& version() { return sized().versions.front(); }
  [[nodiscard]] ClosedCard& closed() { return *version().closed; }
  [[nodiscard]] std::vector<MailNote>& mail() { return version().mail; }
  [[nodiscard]] std::string text() { return report(card, sized(), plain); }
  [[nodiscard]] std::string check() const { return builds_text({"card.toml", ""}, card, checked, plain); }

  // With the thickness and weight of every paper stated.
  void weigh() {
    closed().thickness = part(221, 2000);
    closed().thickest = {{"the back leaf", part(12, 1000)},
                         {"the front", part(12, 1000)},
                         {"sea panel", part(12, 1000)},
                         {"the foam under boat", part(1, 16)},
                         {"boat", part(12, 1000)}};
    closed().grams = part(6526, 1000);
    closed().no_thickness.clear();
    closed().no_weight.clear();
  }

  void add_variant(const std::string& name) {
    Variant& variant = card.variants.emplace_back();
    variant.name.value = name;
    variant.design = card.design;
    SizedVersion& added = sized().versions.emplace_back(version(card.variants.back().design));
    added.name = name;
    added.closed = closed();
    added.mail = mail();
  }
};

MailNote note(MailNote::Kind kind, const std::string& name, bool asked, bool fits, const std::string& says) {
  MailNote one;
  one.kind = kind;
  one.name = name;
  one.asked = asked;
  one.fits = fits;
  one.says = says;
  return one;
}
MailNote envelope(const std::string& name, bool asked, bool fits) {
  return note(MailNote::Kind::envelope, name, asked, fits,
              fits ? "It goes into it with 1/8 in to spare." : "It does not go in, by 1/16 in.");
}
MailNote post(const std::string& name) {
  return note(MailNote::Kind::post, name, true, true, "A letter. Check with your post office.");
}

bool has(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

bool has_line(const std::string& text, const std::string& wanted) {
  const std::vector<std::string> all = testing::lines(text);
  return std::find(all.begin(), all.end(), wanted) != all.end();
}

void check_fits(const std::string& text) {
  for (const std::string& line : testing::lines(text)) {
    INFO(line);
    CHECK(columns(line) <= 80);
    CHECK(printable(line) == line);
  }
}

}  // namespace

TEST_CASE("a share is told as a fraction while that is a plain one, else in percents") {
  CHECK(share_text(part(3, 4)) == "3/4");
  CHECK(share_text(part(1, 3)) == "1/3");
  CHECK(share_text(1) == "1");
  CHECK(share_text(part(11, 25)) == "44 %");
  CHECK(share_text(part(4, 9)) == "about 44 %");
  CHECK(share_text(part(7, 32)) == "about 22 %");
  CHECK(share_text(0) == "nothing");
  CHECK(share_text(part(1, 1000)) == "less than 1 %");
  CHECK(share_text(part(999, 1000)) == "more than 99 %");
}

TEST_CASE("a thickness is told as calipers show it") {
  CHECK(thickness_with_unit(part(12, 1000), Unit::inch) == "0.012 in");
  CHECK(thickness_with_unit(part(221, 2000), Unit::inch) == "0.1105 in");
  CHECK(thickness_with_unit(part(1, 16), Unit::inch) == "0.0625 in");
  CHECK(thickness_with_unit(part(1, 64), Unit::inch) == "about 0.0156 in");
  CHECK(thickness_with_unit(2, Unit::millimetre) == "2 mm");
  CHECK(thickness_with_unit(part(3, 10), Unit::millimetre) == "0.3 mm");
  CHECK(thickness_with_unit(part(1, 3), Unit::millimetre) == "about 0.333 mm");
}

// One ounce is 28.349523125 g exactly.
TEST_CASE("a weight is told in grams, and in ounces beside inches") {
  CHECK(weight_text(part(6526, 1000), Unit::millimetre) == "6.5 g");
  CHECK(weight_text(part(6526, 1000), Unit::inch) == "6.5 g (0.23 oz)");
  CHECK(weight_text(Rational("28349523125/1000000000"), Unit::inch) == "28.3 g (1.00 oz)");
  CHECK(weight_text(part(1, 100), Unit::millimetre) == "less than 0.1 g");
}

TEST_CASE("only what is hidden of a layer is worth a word") {
  CHECK(seen_words({1, 1}).empty());
  CHECK(seen_words({part(3, 4), part(3, 4)}) == "3/4 seen");
  CHECK(seen_words({1, part(4, 9)}) == "about 44 % seen when closed");
  CHECK(seen_words({part(3, 4), part(1, 4)}) == "3/4 seen, 1/4 when closed");
  CHECK(seen_words({0, 0}) == "nothing seen");
  // The inside of a closed card is not seen: no layer there is to be told of for that.
  CHECK(seen_words({1, 0}).empty());
  CHECK(seen_words({part(3, 4), 0}) == "3/4 seen");
}

TEST_CASE("a layer that is partly hidden says so where it is placed") {
  Example example;
  CHECK_FALSE(has(example.text(), "seen"));
  example.version().pieces[0].shown = {part(3, 4), part(3, 4)};
  CHECK(has_line(example.text(), "      3/4 seen"));
  example.card.design.pieces[0].kind = Piece::Kind::window;
  CHECK_FALSE(has(example.text(), "seen"));
}

TEST_CASE("of papers that state nothing there is little to say") {
  Example example;
  const std::string text = example.text();
  CHECK_FALSE(has(text, "thick"));
  CHECK_FALSE(has(text, "Closed\n"));
  CHECK_FALSE(has(text, "Envelope and post"));
  CHECK(example.check() == "It builds.\n");
  example.mail() = {envelope("us A2", false, true)};
  CHECK_FALSE(has(example.text(), "us A2"));
}

TEST_CASE("a closed card tells how thick it is and what makes it so, and its weight") {
  Example example;
  example.weigh();
  CHECK(has(example.text(),
            "\nClosed\n"
            "  4 1/4 x 5 1/2 in\n"
            "  0.1105 in at its thickest: the back leaf 0.012 in, the front 0.012 in, sea\n"
            "    panel 0.012 in, the foam under boat 0.0625 in, boat 0.012 in\n"
            "  6.5 g (0.23 oz)\n"
            "\n"));
  example.closed().over_all.width += part(1, 8);
  CHECK(has_line(example.text(), "  4 1/4 x 5 1/2 in, over all 4 3/8 x 5 1/2 in"));
}

TEST_CASE("a card that reaches past its edges says so though nothing else is known") {
  Example example;
  example.closed().over_all.height = 6;
  CHECK(has(example.text(), "\nClosed\n  4 1/4 x 5 1/2 in, over all 4 1/4 x 6 in\n\n"));
}

TEST_CASE("papers without a thickness or weight are named, and what is told is the least") {
  Example example;
  example.weigh();
  example.closed().no_thickness = {"indigo", "", "linen"};
  CHECK(has(example.text(), "  at least 0.1105 in at its thickest: "));
  CHECK(has_line(example.text(), "  6.5 g (0.23 oz)"));
  CHECK(has(example.text(),
            "  Not counted, as it is not stated: the thickness of indigo, linen and what has\n"
            "    no paper named.\n"));
  example.closed().no_weight = {"indigo"};
  CHECK(has_line(example.text(), "  at least 6.5 g (0.23 oz)"));
  CHECK(has(example.text(), "; the weight of"));
  example.closed().no_thickness = {"indigo"};
  CHECK(has_line(example.text(), "  Not counted, as it is not stated: thickness and weight of indigo."));
}

TEST_CASE("each envelope and post that was asked for has its paragraph") {
  Example example;
  example.mail() = {envelope("us A2", true, true), envelope("us A1", true, false), post("usps")};
  CHECK(has(example.text(),
            "\nEnvelope and post\n"
            "  It goes into it with 1/8 in to spare.\n"
            "  It does not go in, by 1/16 in.\n"
            "  usps: A letter. Check with your post office.\n"
            "\n"));
}

TEST_CASE("where no envelope was asked for, those that take the card are on one line") {
  Example example;
  example.weigh();
  example.mail() = {envelope("us A2", false, true), envelope("iso C6", false, true)};
  CHECK(has(example.text(),
            "\nEnvelope and post\n  The smallest standard envelopes that take it: us A2, iso C6.\n"));
  example.mail().pop_back();
  CHECK(has_line(example.text(), "  The smallest standard envelope that takes it: us A2."));
}

TEST_CASE("check tells thickness, weight and post in short, and what does not go in at length") {
  Example example;
  example.weigh();
  example.mail() = {envelope("us A2", true, true), envelope("us A1", true, false), post("usps")};
  CHECK(example.check() ==
        "It builds.\n"
        "\n"
        "Closed\n"
        "  0.1105 in at its thickest, 6.5 g (0.23 oz)\n"
        "  It goes into us A2.\n"
        "  It does not go in, by 1/16 in.\n"
        "  usps takes it.\n"
        "  Posts' rules and prices change. Check with your post office.\n");
  example.mail()[2].by_hand = true;
  CHECK(has_line(example.check(), "  usps takes it, by hand."));
  example.mail()[2].fits = false;
  CHECK(has_line(example.check(), "  usps: A letter. Check with your post office."));
  example.mail() = {envelope("us A2", false, true)};
  CHECK_FALSE(has(example.check(), "us A2"));
}

TEST_CASE("a variant tells of the closed card only what differs") {
  Example example;
  example.weigh();
  example.mail() = {envelope("us A2", true, true)};
  example.add_variant("for the crew");
  const auto variant = [&] {
    const std::string text = example.text();
    return text.substr(text.find("Variant:"));
  };
  CHECK(has_line(variant(), "Cut and placed like the plain card."));
  for (const char* section : {"To fold", "Closed\n", "Envelope and post"})
    CHECK_FALSE(has(variant(), section));
  CHECK_FALSE(has(example.check(), "for the crew"));

  SizedVersion& version = example.sized().versions[1];
  version.closed->grams = 7;
  CHECK(has_line(variant(), "Cut and placed like the plain card."));
  CHECK(has_line(variant(), "  7.0 g (0.25 oz)"));
  CHECK_FALSE(has(variant(), "Envelope and post"));
  CHECK(has(example.check(),
            "\nClosed, \"for the crew\"\n"
            "  0.1105 in at its thickest, 7.0 g (0.25 oz)\n"
            "  It goes into us A2.\n"));

  version.mail = {envelope("us A2", true, false)};
  CHECK(has_line(variant(), "  It does not go in, by 1/16 in."));
  version.pieces[0].shown = {part(1, 2), part(1, 2)};
  CHECK(has_line(variant(), "      1/2 seen"));
  version.grain = GrainAtFold::across;
  CHECK(has(variant(), "It folds against the grain"));
}

TEST_CASE("a gate that is cut back tells the size of each door") {
  Example example;
  Base& base = example.card.design.base;
  base.fold.value = Fold::gate;
  base.front.size = {part(11, 2), part(17, 4)};
  base.leaves = {{part(5, 2), {}}, {part(11, 2), {}}, {3, {}}};
  base.cut_back = CutBack{Edge::right, {}};
  example.version().folding = folding_of(base);
  example.version().cut_back = part(1, 2);
  CHECK(has(example.text(), "  left door, cut back   2 "));
  CHECK(has(example.text(), "  right door, cut back  2 1/2 "));
  CHECK(has(example.text(), "once folded, 1/2 off where the doors\n"));
}

TEST_CASE("a card that opens at an unusual side says so at its head") {
  Example example;
  CHECK(has_line(example.text(), "Side-fold card, 4 1/4 x 5 1/2 in closed"));
  example.card.design.base.opens = Stated<Edge>{Edge::left, {}};
  CHECK(has_line(example.text(), "Side-fold card, 4 1/4 x 5 1/2 in closed, opens at the left"));
}

TEST_CASE("what is told of the closed card fits the page whatever the names are") {
  for (const std::string& name :
       {std::string(300, 'n'),
        std::string("灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠"),
        std::string("a\tb\nc\x1b[31m\xff"), std::string("e\xcc\x81 e\xcc\x81")}) {
    Example example(name, name + "2");
    example.weigh();
    example.closed().thickest[2].what = name;
    example.closed().no_thickness = {name};
    example.mail() = {envelope(name, true, true), post(name),
                      note(MailNote::Kind::envelope, name, true, false, name)};
    example.card.design.pieces[0].kind = Piece::Kind::window;
    example.card.design.base.paper = Stated<std::string>{name, {}};
    example.add_variant(name);
    example.sized().versions[1].closed->grams = 9;
    check_fits(example.text());
    check_fits(example.check());
  }
}
