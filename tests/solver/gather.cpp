// What a batch needs of each paper, worked out by hand: pieces and their uses, and the sheets there are.
#include "tests/catch.h"
#include "tests/solver/gathered.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// A base of 8 1/2 x 5 1/2 once it is opened out.
const std::string ivory_base = "[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\npaper = \"ivory\"\n";
const std::string bare_base = "[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n";
const std::string letter = "sheet = \"8 1/2 x 11\"\n";

std::string moss(const std::string& name, const std::string& size, const std::string& keys = "") {
  return layer(name, "front", "paper = \"moss\"\nsize = \"" + size + "\"\n" + keys);
}

using Numbers = std::vector<int>;

}  // namespace

TEST_CASE("what variants do not claim of a batch is the plain card, and spares are cut for it") {
  const std::string variants = "[[variant]]\nname = \"a\"\ncards = 4\n[[variant]]\nname = \"b\"\ncards = 3\n";
  CHECK(Batch("cards = 12\nspare = 2\n" + bare_base + variants).counts.front() == Numbers{7, 4, 3});
  // They have claimed all of it: the spares are of the first.
  CHECK(Batch("cards = 7\nspare = 2\n" + bare_base + variants).counts.front() == Numbers{0, 6, 3});
  CHECK(Batch("spare = 1\n" + bare_base).counts.front() == Numbers{2});
}

TEST_CASE("bases and layers are cut for every card and every copy, ink and ready-made things are not") {
  const Batch batch("cards = 5\nspare = 1\n" + ivory_base + moss("mat", "4 x 5") +
                    layer("tile", "mat", "size = \"1 x 1/2\"\ncopies = 3\npaper = \"moss\"\n") +
                    layer("words", "inside", "size = \"2 x 1\"\nstamped = true\npaper = \"moss\"\n") +
                    layer("gem", "inside",
                          "size = \"1/4 x 1/4\"\ncut = \"ready-made\"\npaper = \"moss\"\n"
                          "above = \"words\"\n") +
                    layer("label", "back", "size = \"3 x 2\"\n"));
  const auto needs = batch.needs();
  REQUIRE(needs.size() == 2);
  CHECK(needs[0].paper == "ivory");
  CHECK(told(needs[0].pieces) == Told{"6 of 17/2 x 11/2"});
  CHECK(needs[0].pieces.front().uses.front().layer == "base");
  CHECK(needs[0].pieces.front().uses.front().base);
  CHECK(needs[1].paper == "moss");
  CHECK(told(needs[1].pieces) == Told{"6 of 4 x 5", "18 of 1 x 1/2"});
  CHECK_FALSE(needs[1].pieces.front().uses.front().base);

  const auto no_paper = batch::not_cut(batch.cards);
  REQUIRE(no_paper.size() == 2);
  CHECK(no_paper[0].layer == "gem");
  CHECK(no_paper[0].why == "it comes ready-made");
  CHECK(no_paper[1].layer == "label");
  CHECK(no_paper[1].why == "it states no paper");
  CHECK(batch::not_cut(Batch(bare_base).cards).front().layer == "base");
}

TEST_CASE("a die, scissors and a stamp want a rough piece, larger by 1/4 in or 6 mm each way") {
  const auto rough = [](const std::string& unit, const std::string& keys) {
    const Batch batch("unit = \"" + unit + "\"\n" + "[base]\nfold = \"flat\"\nfront = \"40 x 50\"\n" +
                      moss("boat", "20 x 30", keys));
    const CutPiece piece = batch.needs("moss").pieces.front();
    CHECK(piece.uses.front().finished == Size{20, 30});
    return std::pair(told(piece), piece.uses.front().rough);
  };
  CHECK(rough("in", "") == std::pair(std::string("1 of 20 x 30"), Rough::none));
  CHECK(rough("in", "cut = \"die\"\n") == std::pair(std::string("1 of 81/4 x 121/4"), Rough::die));
  CHECK(rough("in", "cut = \"by hand\"\n") == std::pair(std::string("1 of 81/4 x 121/4"), Rough::by_hand));
  CHECK(rough("in", "stamp-first = true\n") ==
        std::pair(std::string("1 of 81/4 x 121/4"), Rough::stamp_first));
  CHECK(rough("mm", "cut = \"die\"\n") == std::pair(std::string("1 of 26 x 36"), Rough::die));
  CHECK(rough("mm", "stamp-first = true\n") == std::pair(std::string("1 of 26 x 36"), Rough::stamp_first));
}

TEST_CASE("a tilted layer is cut at its own size, not at that of the box around it") {
  const Batch batch(bare_base + moss("boat", "2 x 3", "tilt = 7\n"));
  CHECK(told(batch.needs("moss").pieces) == Told{"1 of 2 x 3"});
}

TEST_CASE("pieces of one size are one kind, turned or not, and each use says how it lies") {
  const std::string card =
      "cards = 2\n" + bare_base + moss("upright", "2 x 3") +
      layer("other", "inside", "paper = \"moss\"\nsize = \"3 x 2\"\n") +
      layer("rough", "back", "paper = \"moss\"\nsize = \"1 3/4 x 2 3/4\"\ncut = \"die\"\n");
  const auto needs = Batch(card).needs("moss");
  CHECK(told(needs.pieces) == Told{"6 of 2 x 3"});
  const std::vector<PieceUse>& uses = needs.pieces.front().uses;
  REQUIRE(uses.size() == 3);
  CHECK_FALSE(uses[0].turned);
  CHECK(uses[1].turned);
  CHECK(uses[1].layer == "other");
  CHECK(uses[1].finished == Size{3, 2});
  CHECK_FALSE(uses[2].turned);
  // A print that may not turn keeps them apart, on whichever entry of it that is said.
  for (const std::string& prints : {paper("moss", letter + "up = true\n"),
                                    paper("moss", "sheet = \"12 x 12\"\n") + paper("moss", "up = true\n")}) {
    const auto up = Batch(card + prints).needs("moss");
    CHECK(told(up.pieces) == Told{"4 of 2 x 3, as it stands", "2 of 3 x 2, as it stands"});
    for (const CutSheet& sheet : up.stock) CHECK(sheet.up);
  }
}

TEST_CASE("a base of print that may not turn lies as it is scored") {
  const Batch side(ivory_base + paper("ivory", letter + "up = true\n"));
  CHECK(told(side.needs("ivory").pieces) == Told{"1 of 17/2 x 11/2, as it stands"});
  const Batch top("[base]\nfold = \"top\"\nfront = \"4 x 5\"\npaper = \"ivory\"\n" +
                  paper("ivory", letter + "up = true\n"));
  CHECK(told(top.needs("ivory").pieces) == Told{"1 of 4 x 10, as it stands"});
}

TEST_CASE("variants are cut from the paper, in the size and without the layers that they say") {
  const Batch batch("cards = 9\n" + bare_base + moss("mat", "4 x 5") +
                    moss("inner", "2 x 3", "over = [\"mat\"]\n") +
                    "[[variant]]\nname = \"blue\"\ncards = 2\nset = { \"mat.paper\" = \"sky\" }\n"
                    "[[variant]]\nname = \"small\"\ncards = 3\nset = { \"mat.size\" = \"3 x 5\" }\n"
                    "[[variant]]\nname = \"bare\"\ncards = 1\nwithout = [\"inner\"]\n");
  const auto moss = batch.needs("moss");
  CHECK(told(moss.pieces) == Told{"4 of 4 x 5", "8 of 2 x 3", "3 of 3 x 5"});
  CHECK(told(batch.needs("sky").pieces) == Told{"2 of 4 x 5"});
  // The plain card's mats and those of "bare" are piles of their own.
  REQUIRE(moss.pieces.front().uses.size() == 2);
  CHECK(moss.pieces.front().uses[0].version == 0);
  CHECK(moss.pieces.front().uses[0].count == 3);
  CHECK(moss.pieces.front().uses[1].version == 3);
  CHECK(moss.pieces.front().uses[1].count == 1);
}

TEST_CASE("a version of which no card is cut asks for nothing") {
  Batch batch("cards = 5\n" + bare_base + moss("mat", "4 x 5") +
              "[[variant]]\nname = \"blue\"\ncards = 5\nset = { \"mat.paper\" = \"sky\" }\n");
  REQUIRE(batch.needs().size() == 1);
  CHECK(batch.needs().front().paper == "sky");
  batch.counts = {{2, 0}};
  REQUIRE(batch.needs().size() == 1);
  CHECK(told(batch.needs("moss").pieces) == Told{"2 of 4 x 5"});
}

TEST_CASE("the cards of several files are cut together, in the unit of the first") {
  const Batch batch(
      {"cards = 2\n" + bare_base + moss("mat", "2 x 5") + paper("moss", letter + "have = 3\n"),
       "unit = \"mm\"\nmark = \"1/16 in\"\ncards = 4\n[base]\nfold = \"flat\"\nfront = \"148 x 148\"\n"
       "[[layer]]\nname = \"mat\"\non = \"front\"\nsize = \"5 in x 2 in\"\npaper = \"moss\"\n"
       "[[layer]]\nname = \"boat\"\non = \"mat\"\nsize = \"1 in x 1 in\"\ncut = \"die\"\n"
       "paper = \"moss\"\n"});
  const auto needs = batch.needs("moss");
  CHECK(told(needs.pieces) == Told{"6 of 2 x 5", "4 of 157/127 x 157/127"});
  REQUIRE(needs.pieces.front().uses.size() == 2);
  CHECK(needs.pieces.front().uses[1].card == 1);
  CHECK(needs.pieces.front().uses[1].turned);
}

TEST_CASE("two entries in a file are two stacks, in two files the same one, and what is left over adds") {
  const auto sheets = [](const std::string& first, const std::string& second) {
    const std::string mat = moss("mat", "2 x 3");
    const Batch batch({bare_base + mat + first,
                       "unit = \"mm\"\n[base]\nfold = \"flat\"\nfront = \"105 x 148\"\n" + second});
    return sheets_of(batch.needs("moss"));
  };
  const std::string three = paper("moss", "sheet = \"us letter\"\nhave = 3\n");
  const std::string two = paper("moss", "sheet = \"us letter\"\nhave = 2\n");
  const std::string turned = paper("moss", "sheet = \"us letter turned\"\nhave = 3\n");
  const std::string endless = paper("moss", "sheet = \"us letter\"\n");
  const std::string square = paper("moss", "sheet = \"12 in x 12 in\"\n");
  CHECK(sheets(three + two, "") == Told{"3 of 17/2 x 11", "2 of 17/2 x 11"});
  CHECK(sheets(three, three) == Told{"3 of 17/2 x 11"});
  CHECK(sheets(three, turned) == Told{"3 of 17/2 x 11"});
  CHECK(sheets(three, endless) == Told{"3 of 17/2 x 11"});
  CHECK(sheets(endless, three) == Told{"3 of 17/2 x 11"});
  CHECK(sheets(three + two, three + two) == Told{"3 of 17/2 x 11", "2 of 17/2 x 11"});
  CHECK(sheets(three, three + two) == Told{"3 of 17/2 x 11", "2 of 17/2 x 11"});
  CHECK(sheets(three, square) == Told{"3 of 17/2 x 11", "12 x 12"});
  CHECK(sheets("", three) == Told{"3 of 17/2 x 11"});
  CHECK(sheets(paper("moss", "weight = \"216 gsm\"\n"), three) == Told{"3 of 17/2 x 11"});
  // Upright and lying are different prints where they may not turn, and an untrue edge is at one side.
  CHECK(sheets(three, turned + "up = true\n") == Told{"3 of 17/2 x 11", "3 of 11 x 17/2"});
  CHECK(sheets(three, turned + "trim-first = \"1/4 in\"\n") == Told{"3 of 17/2 x 11", "3 of 11 x 17/2"});

  Batch batch(bare_base + moss("mat", "2 x 3") + three);
  batch.also("left-over.toml", two + paper("sky", letter));
  const auto needs = batch.needs("moss");
  CHECK(sheets_of(needs) == Told{"3 of 17/2 x 11", "2 of 17/2 x 11"});
  CHECK(needs.stock[0].from == CutSheet::From::stated);
  CHECK(needs.stock[0].file == "first.toml");
  CHECK(needs.stock[1].from == CutSheet::From::more);
  CHECK(needs.stock[1].file == "left-over.toml");
}

TEST_CASE("what one file says of a stack and another does not holds for it") {
  const Batch batch(
      {bare_base + moss("mat", "2 x 3") + paper("moss", letter + "cost = \"1/2\"\n"),
       bare_base + paper("moss", letter + "have = 4\ntrim-first = \"6.35 mm\"\ngrain = \"short\"\n")});
  const auto needs = batch.needs("moss");
  REQUIRE(needs.stock.size() == 1);
  CHECK(needs.stock.front().have == 4);
  CHECK(needs.stock.front().cost == part(1, 2));
  CHECK(needs.stock.front().trim_first == part(1, 4));
  CHECK(needs.stock.front().grain == "short");
}

TEST_CASE("a base may be asked to lie with the grain along its first score") {
  const auto lies = [](const std::string& fold, const std::string& sheet) {
    Batch batch("[base]\nfold = \"" + fold + "\"\nfront = \"3 x 4\"\npaper = \"ivory\"\n" +
                layer("mat", "front", "paper = \"ivory\"\nsize = \"1 x 2\"\n") + paper("ivory", sheet));
    batch.along_the_grain();
    CHECK(batch.mistakes().empty());
    const auto needs = batch.needs("ivory");
    // Layers lie as is best.
    CHECK(told(needs.pieces[1]).starts_with("1 of 1 x 2"));
    CHECK(needs.pieces[1].turned == (sheet.find("up") == std::string::npos));
    CHECK(needs.may[0][0]);
    return std::pair(told(needs.pieces[0]), needs.pieces[0].uses.front().turned);
  };
  using Lies = std::pair<std::string, bool>;
  const std::string upright = "sheet = \"8 x 11\"\ngrain = \"long\"\n";  // it runs down
  const std::string lying = "sheet = \"11 x 8\"\ngrain = \"long\"\n";
  // Scores that run down, 6 x 4 opened out; and across, 3 x 8.
  CHECK(lies("side", upright) == Lies{"1 of 6 x 4, as it stands", false});
  CHECK(lies("side", lying) == Lies{"1 of 4 x 6, as it stands", true});
  CHECK(lies("side", "sheet = \"8 x 11\"\ngrain = \"short\"\n") == Lies{"1 of 4 x 6, as it stands", true});
  CHECK(lies("top", upright) == Lies{"1 of 8 x 3, as it stands", true});
  CHECK(lies("top", lying) == Lies{"1 of 3 x 8, as it stands", false});
  CHECK(lies("side", upright + "up = true\n").first == "1 of 6 x 4, as it stands");
  // Nothing folds.
  CHECK(lies("flat", upright) == Lies{"1 of 3 x 4", false});
}

TEST_CASE("sheets lie so that the grain runs the same way on all") {
  const auto sheets = [](const std::string& papers) {
    Batch batch(ivory_base + papers);
    batch.along_the_grain();
    auto needs = batch.needs("ivory");
    for (std::size_t i = 0; i < needs.stock.size(); ++i) CHECK(needs.may[0][i]);
    return sheets_of(needs);
  };
  const std::string upright = paper("ivory", "sheet = \"9 x 11\"\ngrain = \"long\"\n");
  const std::string across = paper("ivory", "sheet = \"9 x 12\"\ngrain = \"short\"\n");
  const std::string untrue = paper("ivory", "sheet = \"9 x 13\"\ngrain = \"short\"\ntrim-first = \"1/4\"\n");
  CHECK(sheets(upright + across) == Told{"9 x 11", "12 x 9"});
  CHECK(sheets(across + upright) == Told{"9 x 12", "11 x 9"});
  CHECK(sheets(upright + untrue) == Told{"11 x 9", "9 x 13"});
  // A square lies turned though nobody sees it; the height counts as its longer side.
  Batch batch(ivory_base + upright + paper("ivory", "sheet = \"12 x 12\"\ngrain = \"short\"\n"));
  CHECK(batch.needs("ivory").stock[1].grain == "short");
  CHECK(batch.along_the_grain().needs("ivory").stock[1].grain == "long");
}

TEST_CASE("bases are not cut from offcuts, and what else is of their size is a kind of its own then") {
  const std::string tag = "[base]\nfold = \"flat\"\nfront = \"4 x 5\"\npaper = \"ivory\"\n" +
                          layer("twin", "front", "size = \"4 x 5\"\npaper = \"ivory\"\n");
  CHECK(told(Batch(tag).needs("ivory").pieces) == Told{"2 of 4 x 5"});
  const auto needs = Batch(tag + "[[window]]\nname = \"opening\"\nin = \"twin\"\nsize = \"2 x 2\"\n" +
                           paper("ivory", letter))
                         .needs("ivory");
  CHECK(told(needs.pieces) == Told{"1 of 4 x 5", "1 of 4 x 5"});
  REQUIRE(needs.stock.size() == 2);
  CHECK(needs.may == std::vector<std::vector<bool>>{{true, false}, {true, true}});
}

TEST_CASE("foam lies under raised layers, adhesive goes once round those that lie flat, supplies add up") {
  const std::string supply = "[[supply]]\nname = \"ribbon\"\nper-card = \"1/2\"\n";
  const Batch batch(
      {"cards = 3\nspare = 1\n" + bare_base + moss("mat", "2 x 3") +
           layer("boat", "mat", "size = \"1 x 1/2\"\nraised = \"1/16\"\ncopies = 2\n") +
           layer("words", "inside", "size = \"2 x 1\"\nstamped = true\n") + supply +
           "[[supply]]\nname = \"gem\"\n",
       "unit = \"mm\"\nmark = \"1/16 in\"\ncards = 2\n[base]\nfold = \"flat\"\nfront = \"105 x 148\"\n" +
           layer("sun", "front", "size = \"1 in x 2 in\"\nraised = 2\n") + supply});
  const BatchTotals totals = batch::totals(batch.cards, batch.counts);
  CHECK(totals.foam == 4 * 2 * part(1, 2) + 2 * 2);
  CHECK(totals.adhesive == 4 * 10);
  REQUIRE(totals.supplies.size() == 2);
  CHECK(totals.supplies[0] == std::pair(std::string("ribbon"), Rational(3)));
  CHECK(totals.supplies[1] == std::pair(std::string("gem"), Rational(4)));
}
