// What each key of the card file becomes in the Card.
#include "model/read_card.h"

#include <tuple>

#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::vector<std::string> values(const std::vector<Name>& names) {
  std::vector<std::string> all;
  for (const Name& name : names) all.push_back(name.value);
  return all;
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("the head of a card file and its usual values") {
  const Card usual = card_of(side_fold);
  CHECK(usual.title.empty());
  CHECK(usual.unit == Unit::inch);
  CHECK(usual.mark == part(1, 16));
  CHECK(usual.cards == 1);
  CHECK(usual.spare == 0);
  const Card metric = card_of("title = \"Tea\"\nunit = \"mm\"\ncards = 12\nspare = 2\n" + side_fold);
  CHECK(metric.title == "Tea");
  CHECK(metric.unit == Unit::millimetre);
  CHECK(metric.mark == 1);
  CHECK(metric.cards == 12);
  CHECK(metric.spare == 2);
  CHECK(metric.design.base.front.size == Size{part(17, 4), part(11, 2)});
  CHECK(card_of("unit = \"mm\"\nmark = \"1/16 in\"\n" + side_fold).mark == part(127, 80));
}

TEST_CASE("TOML numbers are read from the file's own digits") {
  CHECK(card_of("mark = 0.1\n" + side_fold).mark == part(1, 10));
  CHECK(card_of("mark = +1_0.2_5\n" + side_fold).mark == part(41, 4));
  CHECK(card_of("mark = 25e-2\n" + side_fold).mark == part(1, 4));
  CHECK(card_of("mark = 1.5E1\n" + side_fold).mark == 15);
  CHECK(card_of("mark = 0.30000000000000000000000000001\n" + side_fold).mark ==
        part(3, 10) + 1 / Rational("100000000000000000000000000000"));
  CHECK(card_of("cards = 1_2\n" + side_fold).cards == 12);
  // Behind characters of more than one byte on the same line.
  const Card card = card_of(
      "base = { paper = \"caf\u00E9 \u2764\", fold = \"flat\", front = \"3 x 3\" }\n"
      "layer = [{ name = \"\u00E9\", on = \"front\", border = 0.7 }]\n");
  CHECK(card.design.pieces[0].border.all->exact() == part(7, 10));
  CHECK(card.design.pieces[0].border.all->text == "0.7");
}

TEST_CASE("the base") {
  const Base base =
      card_of(
          "[base]\nfold = \"side\"\nfront = \"us A2\"\ncut-back = \"1/2 to 1\"\npaper = \"ivory\"\n"
          "leaves = \"4 1/4, 4\"\nscores = [\"4\", 2.5]\nopens = \"left\"\n")
          .design.base;
  CHECK(base.fold.value == Fold::side);
  CHECK(base.fold.spot == Spot{2, 8});
  CHECK(base.front.size == Size{part(17, 4), part(11, 2)});
  CHECK(base.front.text == "us A2");
  CHECK(base.front.spot == Spot{3, 9});
  REQUIRE(base.cut_back);
  CHECK(base.cut_back->edge == Edge::left);
  CHECK(base.cut_back->by.at_most == 1);
  CHECK(base.cut_back->by.spot == Spot{4, 12});
  CHECK(base.paper->value == "ivory");
  REQUIRE(base.leaves.size() == 2);
  CHECK(base.leaves[0].value == part(17, 4));
  REQUIRE(base.scores.size() == 2);
  CHECK(base.scores[1].value == part(5, 2));
  CHECK(base.opens->value == Edge::left);
  const Base edge =
      card_of(
          "[base]\nfold = \"side\"\nfront = \"4 x 5\"\ncut-back = { edge = \"bottom\", by = \"1 to 2\" }\n")
          .design.base;
  CHECK(edge.cut_back->edge == Edge::bottom);
  CHECK(edge.cut_back->by.at_least == 1);
  const std::vector<std::pair<std::string, Fold>> folds{{"flat", Fold::flat}, {"side", Fold::side},
                                                        {"top", Fold::top},   {"gate", Fold::gate},
                                                        {"z", Fold::z},       {"tri", Fold::tri}};
  for (const auto& [word, fold] : folds) {
    CHECK(card_of("[base]\nfold = \"" + word + "\"\nfront = \"4 x 5\"\n").design.base.fold.value == fold);
  }
}

TEST_CASE("a layer's size keys") {
  const Piece piece = layer_with(
      "size = \"2 x 1\"\nwidth = \"at least 1\"\nheight = \"same as other\"\nratio = \"3:4\"\nartwork = \"1 "
      "x 1/2\"\n"
      "margin = { left = 1, across = \"at least 1/8\" }\nborder = \"even, at least 1/8\"\n");
  CHECK(piece.kind == Piece::Kind::layer);
  CHECK(piece.size->size == Size{2, 1});
  CHECK(piece.width->at_least == 1);
  CHECK(piece.height->same_as == "other");
  CHECK(piece.ratio->value == part(3, 4));
  CHECK(piece.artwork->size == Size{1, part(1, 2)});
  CHECK(piece.margin.left->exact() == 1);
  CHECK(piece.margin.across->at_least == part(1, 8));
  CHECK_FALSE(piece.margin.all);
  CHECK(piece.margin.any());
  CHECK(piece.border.all->even);
  CHECK(piece.border.all->at_least == part(1, 8));
  const Piece sides =
      layer_with("border = { right = 1, top = 2, bottom = 3, down = \"about 2\" }\nratio = 0.75\n");
  CHECK(sides.border.right->exact() == 1);
  CHECK(sides.border.top->exact() == 2);
  CHECK(sides.border.bottom->exact() == 3);
  CHECK(sides.border.down->about == 2);
  CHECK(sides.ratio->value == part(3, 4));
  CHECK(layer_with("border = 0\n").border.all->exact() == 0);
  CHECK_FALSE(layer_with("").border.any());
}

TEST_CASE("a layer's place keys") {
  const Piece piece = layer_with(
      "from-left = \"at least 1\"\nfrom-right = -1\nfrom-top = 2\nfrom-bottom = \"about 3\"\n"
      "above = \"other\"\nleft-of = [\"other\"]\ngap = \"even\"\nclear-of = \"other\"\nclearance = \"1/8\"\n"
      "over = [\"other\"]\noverhang = \"at most 1/4\"\ncopies = 9\ncolumns = 3\ntilt = -5.5\n");
  CHECK(piece.from_left->at_least == 1);
  CHECK(piece.from_right->exact() == -1);
  CHECK(piece.from_top->exact() == 2);
  CHECK(piece.from_bottom->about == 3);
  REQUIRE(piece.beside.size() == 2);
  CHECK(piece.beside[0].side == Edge::top);
  CHECK(piece.beside[0].name.value == "other");
  CHECK(piece.beside[1].side == Edge::left);
  CHECK(piece.gap->even);
  CHECK(values(piece.clear_of) == Texts{"other"});
  CHECK(piece.clearance->exact() == part(1, 8));
  CHECK(values(piece.over) == Texts{"other"});
  CHECK(piece.overhang->at_most == part(1, 4));
  CHECK(piece.copies->value == 9);
  CHECK(piece.columns->value == 3);
  CHECK(piece.tilt->value == part(-11, 2));
  CHECK(layer_with("below = \"other\"\n").beside[0].side == Edge::bottom);
  CHECK(layer_with("right-of = \"other\"\n").beside[0].side == Edge::right);
}

TEST_CASE("align takes its words in any sensible order") {
  const auto align = [](const std::string& words) {
    const Piece piece = layer_with("align = \"" + words + "\"\n");
    return std::pair(piece.align->value.across, piece.align->value.down);
  };
  using enum Along;
  CHECK(align("left") == std::pair(low, unstated));
  CHECK(align("right") == std::pair(high, unstated));
  CHECK(align("top") == std::pair(unstated, low));
  CHECK(align("bottom") == std::pair(unstated, high));
  CHECK(align("top right") == std::pair(high, low));
  CHECK(align("right top") == std::pair(high, low));
  CHECK(align("bottom-left") == std::pair(low, high));
  CHECK(align("centre") == std::pair(centre, centre));
  CHECK(align("center") == std::pair(centre, centre));
  CHECK(align("centre across") == std::pair(centre, unstated));
  CHECK(align("center down") == std::pair(unstated, centre));
  CHECK(align("left centre") == std::pair(low, centre));
  CHECK(align("centre left") == std::pair(low, centre));
  CHECK(align("top centre") == std::pair(centre, low));
  CHECK(align("top centre across") == std::pair(centre, low));
  CHECK(align("centre across, centre down") == std::pair(centre, centre));
}

TEST_CASE("level-with names an edge or the middle") {
  const auto level = [](const std::string& words) {
    return layer_with("level-with = \"" + words + "\"\n").level_with.at(0);
  };
  CHECK(level("other").line == Line::centre_down);
  CHECK(level("other").name.value == "other");
  CHECK(level("top of other").line == Line::top);
  CHECK(level("bottom of other").line == Line::bottom);
  CHECK(level("left of 'other'").line == Line::left);
  CHECK(level("right of other").name.value == "other");
  CHECK(level("centre of other").line == Line::centre_down);
  CHECK(level("centre down of other").line == Line::centre_down);
  CHECK(level("center-across of other").line == Line::centre_across);
  // A declared name is not taken apart.
  const Card card = card_of(
      side_fold +
      "[[layer]]\nname = \"top of it\"\non = \"front\"\n"
      "[[layer]]\nname = \"it\"\non = \"front\"\n"
      "[[layer]]\nname = \"third\"\non = \"front\"\nlevel-with = [\"top of it\", \"top of top of it\"]\n");
  const Piece& third = piece(card.design, "third");
  REQUIRE(third.level_with.size() == 2);
  CHECK(third.level_with[0].line == Line::centre_down);
  CHECK(third.level_with[0].name.value == "top of it");
  CHECK(third.level_with[1].line == Line::top);
  CHECK(third.level_with[1].name.value == "top of it");
}

TEST_CASE("a layer's paper and hand keys") {
  const Piece piece = layer_with(
      "role = \"image\"\npaper = \"ivory\"\ncut = \"by hand\"\nraised = \"1/16\"\nadhesive = 0\nshow = \"at "
      "least 3/4\"\n"
      "stamped = true\nhollow = true\nstamp-first = true\n");
  CHECK(piece.role == Role::image);
  CHECK(piece.paper->value == "ivory");
  CHECK(piece.cut == Cut::by_hand);
  CHECK(piece.raised->value == part(1, 16));
  CHECK(piece.raised->text == "1/16");
  CHECK(piece.raised->spot == Spot{13, 10});
  CHECK(piece.adhesive->value == 0);
  CHECK(piece.adhesive->text == "0");
  CHECK(piece.show->value.at_least == part(3, 4));
  CHECK(piece.show->value.text == "at least 3/4");
  CHECK(piece.stamped);
  CHECK(piece.hollow);
  CHECK(piece.stamp_first);
  CHECK(layer_with("show = \"all\"\n").show->value.at_least == 1);
  CHECK(layer_with("show = \"at least 75%\"\n").show->value.at_least == part(3, 4));
  const Piece usual = layer_with("stamped = false\n");
  CHECK(usual.role == Role::none);
  CHECK(usual.cut == Cut::trimmer);
  CHECK_FALSE(usual.stamped);
  CHECK(layer_with("cut = \"die\"\n").cut == Cut::die);
  CHECK(layer_with("cut = \"ready-made\"\n").cut == Cut::ready_made);
  for (const auto& [word, role] : std::vector<std::pair<std::string, Role>>{{"mat", Role::mat},
                                                                            {"panel", Role::panel},
                                                                            {"strip", Role::strip},
                                                                            {"sentiment", Role::sentiment}}) {
    CHECK(layer_with("role = \"" + word + "\"\n").role == role);
  }
}

TEST_CASE("a thickness keeps its text, for a change of it to be offered in the maker's own way") {
  const auto raised = [](const std::string& written) {
    return layer_with("raised = " + written + "\n").raised.value();
  };
  for (const auto& [written, text, value] :
       std::vector<std::tuple<std::string, std::string, Rational>>{{"\" 1/16 in \"", "1/16 in", part(1, 16)},
                                                                   {"\"1.5 mm\"", "1.5 mm", part(15, 254)},
                                                                   {"0.0625", "0.0625", part(1, 16)},
                                                                   {"6.25e-2", "6.25e-2", part(1, 16)}}) {
    const StatedLength length = raised(written);
    INFO(written);
    CHECK(length.value == value);
    CHECK(length.text == text);
    CHECK(length.numbered.text == text);
    REQUIRE(length.numbered.numbers.size() == 1);
    const NumberIn& number = length.numbered.numbers[0];
    CHECK(number.part == NumberPart::thickness);
    CHECK(number.value == value);
    CHECK(number.begin == 0);
    CHECK(number.end == text.size());
  }
  CHECK(with_numbers(raised("\"1.5 mm\"").numbered, {{0, part(1, 8)}}, Unit::inch) == "0.125 in");
  CHECK(with_numbers(raised("0.0625").numbered, {{0, part(1, 8)}}, Unit::inch) == "0.125");
}

TEST_CASE("layers and windows keep the order of the file") {
  const Card card = card_of(side_fold +
                            "[[layer]]\nname = \"one\"\non = \"front\"\n"
                            "[[window]]\nname = \"two\"\nin = \"front\"\nsize = \"1 x 1\"\nframe = \"at "
                            "least 1/2\"\nalign = \"top\"\n"
                            "[[layer]]\nname = \"three\"\non = \"two\"\ntuck = \"at least 1/8\"\n");
  REQUIRE(card.design.pieces.size() == 3);
  CHECK(card.design.pieces[0].name.value == "one");
  const Piece& window = card.design.pieces[1];
  CHECK(window.name.value == "two");
  CHECK(window.name.spot == Spot{8, 8});
  CHECK(window.kind == Piece::Kind::window);
  CHECK(window.on.value == "front");
  CHECK(window.frame->at_least == part(1, 2));
  CHECK(window.align->value.down == Along::low);
  CHECK(card.design.pieces[2].tuck->at_least == part(1, 8));
}

TEST_CASE("papers, tools, limits, mail and supplies") {
  const Card card =
      card_of(side_fold +
              "[[paper]]\nname = \"ivory\"\nsheet = \"us letter\"\nhave = 0\nweight = \"80 lb cover\"\n"
              "thickness = \"11 pt\"\ncost = 0.35\nup = true\ngrain = \"long\"\ntrim-first = \"1/8\"\n"
              "[[paper]]\nname = \"ivory\"\nthickness = 0.011\n"
              "[trimmer]\nlongest = 12\nblade-loss = 0\nhold = 1\nsliver = \"1/8\"\n"
              "[limit]\nthickness = \"1/4\"\ngrams = 28.3\n"
              "[mail]\nenvelope = \"us A2\"\npost = [\"upu\", \"usps\"]\n"
              "[[supply]]\nname = \"ribbon\"\nper-card = \"1/2\"\n");
  REQUIRE(card.papers.size() == 2);
  const Paper& ivory = card.papers[0];
  CHECK(ivory.sheet->size == Size{part(17, 2), 11});
  CHECK(ivory.have->value == 0);
  CHECK(floor(ivory.grams_per_square_metre->value) == 216);
  CHECK(ivory.weight_words == "80 lb cover");
  CHECK(ivory.thickness->value == part(11, 1000));
  CHECK(ivory.thickness_words == "11 pt");
  CHECK(card.papers[1].thickness_words.empty());
  CHECK(ivory.cost->value == part(7, 20));
  CHECK(ivory.up);
  CHECK(ivory.grain->value == "long");
  CHECK(ivory.trim_first->value == part(1, 8));
  CHECK(card.papers[1].thickness->value == part(11, 1000));
  CHECK(card.trimmer.longest->value == 12);
  CHECK(card.trimmer.blade_loss->value == 0);
  CHECK(card.trimmer.hold->value == 1);
  CHECK(card.trimmer.sliver->value == part(1, 8));
  CHECK(card.design.limit.thickness->value == part(1, 4));
  CHECK(card.design.limit.thickness->text == "1/4");
  CHECK(card.design.limit.grams->value == part(283, 10));
  CHECK(values(card.mail.envelopes) == Texts{"us A2"});
  CHECK(values(card.mail.posts) == Texts{"upu", "usps"});
  REQUIRE(card.supplies.size() == 1);
  CHECK(card.supplies[0].name.value == "ribbon");
  CHECK(card.supplies[0].per_card->value == part(1, 2));
  // Thousandths of an inch stay that in a card of millimetres.
  CHECK(card_of("unit = \"mm\"\n" + side_fold + "[[paper]]\nname = \"a\"\nthickness = \"10 pt\"\n")
            .papers[0]
            .thickness->value == part(254, 1000));
}

TEST_CASE("rules know their names and spots") {
  const Card card = card_of(
      "rules = [\n  \"it.left <= reveal.left\",\n  \"it.right - it.left <= back.right - "
      "back.left\",\n]\n[base]\n"
      "fold = \"side\"\nfront = \"4 x 5\"\ncut-back = 1\n[[layer]]\nname = \"it\"\non = \"reveal\"\n");
  REQUIRE(card.design.rules.size() == 2);
  CHECK(card.design.rules[0].spot == Spot{2, 3});
  CHECK(card.design.rules[0].choices[0][0].terms[0].name == "it");
  CHECK(card.design.rules[0].choices[0][0].terms[1].name == "reveal");
  CHECK(card_of("rules = \"front.width <= 9\"\n" + side_fold).design.rules.size() == 1);
}

TEST_CASE("a mark at the start of the file and other line ends change nothing") {
  std::string text = side_fold + "[[layer]]\nname = \"it\"\non = \"front\"\nborder = 0.1\n";
  CHECK(card_of("\xEF\xBB\xBF" + text).design.base.fold.spot == Spot{2, 8});
  std::string windows;
  for (char c : text) windows += c == '\n' ? "\r\n" : std::string(1, c);
  const Card card = card_of(windows);
  CHECK(card.design.pieces[0].on.spot == Spot{6, 6});
  CHECK(card.design.pieces[0].border.all->exact() == part(1, 10));
}
