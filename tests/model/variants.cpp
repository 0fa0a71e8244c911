// Variants: the design each one becomes, and the mistakes in their changes.
#include "model/read_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// Lines 1 to 17; what follows begins on line 18.
const std::string tea =
    "cards = 12\n"
    "rules = [\"cup.left >= 1\", \"word.top >= 1\"]\n"
    "[base]\nfold = \"side\"\nfront = \"4 x 5\"\n"
    "[[layer]]\nname = \"mat\"\non = \"front\"\nborder = \"1/8\"\n"
    "[[layer]]\nname = \"cup\"\non = \"mat\"\nclear-of = [\"word\"]\n"
    "[[layer]]\nname = \"word\"\non = \"mat\"\nartwork = \"2 x 1\"\n";

Variant variant_of(const std::string& keys) {
  const Card card = card_of(tea + "[[variant]]\nname = \"for one\"\n" + keys);
  REQUIRE(card.variants.size() == 1);
  return card.variants[0];
}

void told(const std::string& keys, int line, int column, const std::vector<std::string>& words) {
  const CardReading reading = read_card(tea + "[[variant]]\nname = \"for one\"\n" + keys);
  INFO(keys);
  for (const Remark& mistake : reading.mistakes) {
    UNSCOPED_INFO(mistake.spot.line << ":" << mistake.spot.column << " " << mistake.says);
  }
  CHECK_FALSE(reading.card);
  REQUIRE(reading.mistakes.size() == 1);
  CHECK(reading.mistakes[0].spot == Spot{line, column});
  for (const std::string& word : words) {
    INFO(word);
    CHECK(reading.mistakes[0].says.find(word) != std::string::npos);
  }
}

}  // namespace

TEST_CASE("a variant without changes is the plain card") {
  const Variant variant = variant_of("");
  CHECK(variant.name.value == "for one");
  CHECK(variant.cards == 1);
  CHECK(variant.design.pieces.size() == 3);
  CHECK(variant.design.rules.size() == 2);
  CHECK(variant.design.pieces[0].border.all->spot == Spot{9, 10});
}

TEST_CASE("set changes one key of one layer") {
  const Card card = card_of(tea +
                            "[[variant]]\nname = \"x\"\ncards = 4\nset = { \"word.artwork\" = \"1 x 1/2\", "
                            "\"cup.size\" = \"1 x 1\" }\n");
  const Variant& variant = card.variants.at(0);
  CHECK(variant.cards == 4);
  CHECK(piece(variant.design, "word").artwork->size == Size{1, part(1, 2)});
  CHECK(piece(variant.design, "word").artwork->spot == Spot{21, 26});
  CHECK(piece(variant.design, "cup").size->size == Size{1, 1});
  CHECK(piece(card.design, "word").artwork->size == Size{2, 1});
  CHECK_FALSE(piece(card.design, "cup").size);
}

TEST_CASE("set reaches the base, limits, rules and parts of keys") {
  const Variant base =
      variant_of("set = { \"base.front\" = \"5 x 5\", \"base.cut-back\" = 1, \"limit.grams\" = 9 }\n");
  CHECK(base.design.base.front.size == Size{5, 5});
  CHECK(base.design.base.cut_back->by.exact() == 1);
  CHECK(base.design.limit.grams->value == 9);
  CHECK(variant_of("set = { rules = [\"cup.left >= 2\"] }\n").design.rules.size() == 1);
  const Piece left = piece(variant_of("set = { \"mat.border.left\" = 1 }\n").design, "mat");
  CHECK(left.border.left->exact() == 1);
  CHECK(left.border.right->exact() == part(1, 8));
  CHECK(left.border.down->exact() == part(1, 8));
  CHECK_FALSE(left.border.all);
  CHECK_FALSE(left.border.across);
  const Piece down = piece(variant_of("set = { \"mat.border.down\" = 1 }\n").design, "mat");
  CHECK(down.border.down->exact() == 1);
  CHECK(down.border.across->exact() == part(1, 8));
  CHECK_FALSE(down.border.top);
  const Piece margin = piece(variant_of("set = { \"word.margin.top\" = 1 }\n").design, "word");
  CHECK(margin.margin.top->exact() == 1);
  CHECK_FALSE(margin.margin.bottom);
}

TEST_CASE("set reaches foam and the limit of thickness, with their texts") {
  const Variant variant = variant_of(
      "set = { \"cup.raised\" = \"1/8\", \"cup.adhesive\" = 0.01, \"limit.thickness\" = \"1/4\" }\n");
  CHECK(piece(variant.design, "cup").raised->text == "1/8");
  CHECK(piece(variant.design, "cup").raised->spot == Spot{20, 24});
  CHECK(piece(variant.design, "cup").adhesive->text == "0.01");
  CHECK(variant.design.limit.thickness->numbered.numbers.at(0).value == part(1, 4));
  told("set = { \"cup.raised\" = -1 }\n", 20, 24, {"\"raised\"", "less than 0"});
}

TEST_CASE("a variant's own base is held to its leaves and scores") {
  told("set = { \"base.leaves\" = \"3, 3\" }\n", 20, 25, {"3 in wide", "\"4 x 5\"", "\"for one\""});
  told("set = { \"base.scores\" = 9 }\n", 20, 25, {"9 in", "8 in"});
}

TEST_CASE("a base larger than any sheet there is of its paper is no mistake of the card") {
  const std::string papers =
      "[[paper]]\nname = \"wide\"\nsheet = \"us letter\"\n[[paper]]\nname = \"small\"\nsheet = \"6 x 6\"\n";
  CHECK(variant_of("set = { \"base.paper\" = \"small\" }\n" + papers).design.base.paper->value == "small");
  CHECK(variant_of("set = { \"base.paper\" = \"wide\" }\n" + papers).design.base.paper->value == "wide");
}

TEST_CASE("set may be written as tables") {
  CHECK(piece(variant_of("set.word.artwork = \"1 x 1\"\n").design, "word").artwork->size == Size{1, 1});
  CHECK(piece(variant_of("[variant.set]\n\"word.artwork\" = \"1 x 1\"\n").design, "word").artwork->size ==
        Size{1, 1});
  CHECK(piece(variant_of("[variant.set.word]\nartwork = \"1 x 1\"\n").design, "word").artwork->size ==
        Size{1, 1});
  const Piece dots = piece(variant_of("set = { mat.border.left = 1 }\n").design, "mat");
  CHECK(dots.border.left->exact() == 1);
  CHECK(dots.border.right->exact() == part(1, 8));
  const Piece braces = piece(variant_of("set = { mat = { border = { left = 1 } } }\n").design, "mat");
  CHECK(braces.border.left->exact() == 1);
  CHECK_FALSE(braces.border.right);
}

TEST_CASE("the longest declared name is what set means") {
  const Card card =
      card_of(side_fold +
              "[[layer]]\nname = \"no\"\non = \"front\"\n[[layer]]\nname = \"no. 5\"\non = \"front\"\n"
              "[[variant]]\nname = \"v\"\nset = { \"no. 5.width\" = 2 }\n");
  CHECK(piece(card.variants[0].design, "no. 5").width->exact() == 2);
  CHECK_FALSE(piece(card.variants[0].design, "no").width);
}

TEST_CASE("what regards a layer that is left out asks nothing") {
  const Variant variant = variant_of("without = [\"word\"]\n");
  CHECK(find_piece(variant.design, "word") == nullptr);
  CHECK(piece(variant.design, "cup").clear_of.empty());
  REQUIRE(variant.design.rules.size() == 1);
  CHECK(variant.design.rules[0].text == "cup.left >= 1");
  CHECK(variant_of("without = \"word\"\n").design.pieces.size() == 2);
  CHECK(variant_of("without = []\n").design.pieces.size() == 3);
}

TEST_CASE("mistakes in what a variant changes") {
  told("set = { \"wrd.artwork\" = \"1 x 1\" }\n", 20, 9, {"\"wrd.artwork\"", "\"word\""});
  told("set = { \"word.artwrk\" = \"1 x 1\" }\n", 20, 9, {"\"artwrk\"", "\"artwork\"", "\"for one\""});
  told("set = { \"word.artwork\" = \"1 x l\" }\n", 20, 26, {"\"l\"", "\"for one\""});
  told("set = { word = 1 }\n", 20, 9, {"word.width"});
  told("set = { \"word.name\" = \"x\" }\n", 20, 9, {"name"});
  told("set = { \"word.artwork.left\" = 1 }\n", 20, 9, {"\"artwork\"", "no parts"});
  told("set = { \"mat.border.lft\" = 1 }\n", 20, 9, {"\"lft\"", "\"left\""});
  told("set = 3\n", 20, 7, {"[set]"});
  told("set = { \"word.artwork\" = \"1 x 1\" }\nwithout = [\"word\"]\n", 20, 9, {"leaves it out"});
  told("without = [\"wrd\"]\n", 20, 12, {"\"wrd\"", "\"word\""});
  told("without = [\"word\", \"word\"]\n", 20, 20, {"twice"});
  told("cards = 0\n", 20, 9, {"from 1"});
  told("cards = 13\n", 20, 9, {"13", "12"});
}

TEST_CASE("a variant is checked like the plain card") {
  // Changed so that what stands unchanged no longer holds: told where that stands.
  told("without = [\"mat\", \"cup\"]\n", 16, 6, {"\"for one\"", "\"word\"", "\"mat\"", "leaves out"});
  told("set = { \"mat.on\" = \"cup\" }\n", 20, 20, {"\"for one\"", "again"});
  told("set = { \"mat.border\" = \"at least 3, at most 2\" }\n", 20, 24, {"contradicts itself"});
  told("set = { \"mat.on\" = \"reveal\" }\n", 20, 20, {"cut-back"});
  const CardReading same = read_card(side_fold +
                                     "[[layer]]\nname = \"a\"\non = \"front\"\n[[layer]]\nname = \"b\"\non = "
                                     "\"front\"\nwidth = \"same as a\"\n"
                                     "[[variant]]\nname = \"v\"\nwithout = [\"a\"]\n");
  REQUIRE(same.mistakes.size() == 1);
  CHECK(same.mistakes[0].spot == Spot{10, 9});
  CHECK(same.mistakes[0].says.find("leaves out") != std::string::npos);
}

TEST_CASE("a mistake of the plain card is not told again for its variants") {
  const CardReading reading = read_card(side_fold +
                                        "[[layer]]\nname = \"a\"\non = \"frunt\"\n[[variant]]\nname = \"v\"\n"
                                        "[[variant]]\nname = \"w\"\n");
  CHECK(reading.mistakes.size() == 2);  // the name, and the batch of one that two variants claim
}

TEST_CASE("variants claim no more cards than the batch has") {
  const std::string two = "[[variant]]\nname = \"v\"\ncards = 8\n[[variant]]\nname = \"w\"\ncards = 5\n";
  const CardReading reading = read_card(tea + two);
  REQUIRE(reading.mistakes.size() == 1);
  CHECK(reading.mistakes[0].spot == Spot{23, 9});
  CHECK(reading.mistakes[0].says.find("13") != std::string::npos);
  CHECK(card_of("cards = 13\n" + tea.substr(tea.find('\n') + 1) + two).variants.size() == 2);
}
