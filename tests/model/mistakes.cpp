// Every mistake a card file may hold: where it is told, in which words, and that all of them are told.
#include <algorithm>
#include <ctime>

#include "tests/catch.h"
#include "tests/model/told.h"

using namespace evenmat;
using namespace evenmat::testing;

TEST_CASE("two mistakes are told in one run") {
  check(
      "unit = \"in\"\nmark = \"1/16\"\n\n[base]\nfold  = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n\n"
      "[[layer]]\nname = \"plum mat\"\nrole = \"mat\"\non   = \"frunt\"\nborder = \"1/8\"\n\n"
      "[[layer]]\nname = \"fern panel\"\nrole = \"panel\"\non   = \"plum mat\"\nborder = \"1/l6\"\n",
      {{11, 8, {"\"frunt\"", "\"front\""}}, {18, 10, {"\"1/l6\""}}});
}

TEST_CASE("what a card cannot do without") {
  check("", {{1, 1, {"[base]"}}});
  check("# only a remark\n", {{1, 1, {"[base]"}}});
  check("unit = \"in\"\n", {{1, 1, {"[base]"}}});
  check("\n[base]\nfold = \"side\"\n", {{2, 1, {"front = "}}});
  check("\n[base]\nfront = \"4 x 5\"\n", {{2, 1, {"fold = "}}});
  after_base("[[layer]]\non = \"front\"\n", 4, 1, {"no name"});
  after_base("[[layer]]\nname = \"a\"\n", 4, 1, {"on = "});
  after_base("[[window]]\nname = \"a\"\n", 4, 1, {"in = "});
  after_base("[[paper]]\nsheet = \"8 x 8\"\n", 4, 1, {"no name"});
  after_base("[[supply]]\nper-card = 1\n", 4, 1, {"no name"});
  after_base("[[variant]]\ncards = 1\n", 4, 1, {"no name"});
}

TEST_CASE("an unknown key is told with the nearest one") {
  at_top("titel = \"x\"", 1, {"\"titel\"", "\"title\""});
  in_base("frint = \"4 x 5\"", 1, {"\"frint\"", "\"front\""});
  in_base("cut-back = { by = 1, egde = \"right\" }", 22, {"\"egde\"", "\"edge\""});
  in_layer("boarder = 1", 1, {"\"boarder\"", "\"border\""});
  in_layer("frame = 1", 1, {"\"frame\""});
  in_layer("border = { lef = 1 }", 12, {"\"lef\"", "\"left\""});
  in_layer("clear_of = [\"other\"]", 1, {"\"clear-of\""});
  after_base("[[window]]\nname = \"w\"\nin = \"front\"\npaper = \"x\"\n", 7, 1, {"\"paper\"", "a window"});
  after_base("[[window]]\nname = \"w\"\nin = \"front\"\nborder = 1\n", 7, 1, {"\"border\"", "a window"});
  after_base("[[paper]]\nname = \"p\"\nwieght = \"80 gsm\"\n", 6, 1, {"\"weight\""});
  after_base("[trimmer]\nlongst = 12\n", 5, 1, {"\"longest\""});
  after_base("[limit]\ngram = 12\n", 5, 1, {"\"grams\""});
  after_base("[mail]\nenvelop = \"us A2\"\n", 5, 1, {"\"envelope\""});
  after_base("[allowance]\ndoor = 1\n", 5, 1, {"\"doors\""});
  after_base("[[supply]]\nname = \"x\"\nper_card = 1\n", 6, 1, {"\"per-card\""});
  after_base("[[variant]]\nname = \"x\"\ncard = 1\n", 6, 1, {"\"cards\""});
  after_base("[paperr]\n", 4, 2, {"\"paper\""});
  // Columns count characters.
  check("base = { front = \"4 x 5\", paper = \"caf\u00E9\u00E9\", flod = 1, fold = \"flat\" }\n",
        {{1, 44, {"\"flod\"", "\"fold\""}}});
}

TEST_CASE("a value of the wrong kind is told") {
  at_top("title = 3", 9, {"\"title\"", "a number"});
  at_top("title = \" \"", 9, {"empty"});
  at_top("unit = [\"in\"]", 8, {"a list"});
  at_top("mark = true", 8, {"true"});
  at_top("cards = \"12\"", 9, {"a text", "whole number"});
  at_top("cards = 2.5", 9, {"2.5", "whole number"});
  at_top("cards = 0", 9, {"from 1"});
  at_top("spare = -1", 9, {"from 0"});
  at_top("cards = 1979-05-27", 9, {"a date"});
  at_top("cards = 99999999999", 9, {"99999999999"});
  at_top("base2 = 3", 1, {"\"base\""});
  check("base = 3\n", {{1, 8, {"[base]"}}});
  check("[[base]]\nfold = \"flat\"\nfront = \"3 x 3\"\n", {{1, 3, {"[base]"}}});
  after_base("[layer]\nname = \"a\"\non = \"front\"\n", 4, 1, {"[[layer]]"});
  check("layer = 3\n" + side_fold, {{1, 9, {"[[layer]]"}}});
  check("layer = [3]\n" + side_fold, {{1, 10, {"[[layer]]"}}});
  check("trimmer = \"x\"\n" + side_fold, {{1, 11, {"[trimmer]"}}});
  in_layer("size = 4", 8, {"a number"});
  in_layer("size = [4, 5]", 8, {"a list"});
  in_layer("border = true", 10, {"true"});
  in_layer("width = [1]", 9, {"a list"});
  in_layer("border = { left = [1] }", 19, {"a list"});
  in_layer("stamped = \"yes\"", 11, {"true or false"});
  in_layer("stamped = 1", 11, {"true or false"});
  in_layer("clear-of = [3]", 13, {"a number"});
  in_layer("clear-of = 3", 12, {"a number"});
  in_layer("tilt = 400", 8, {"360"});
  in_layer("tilt = \"5 in\"", 8, {"\"5 in\""});
  in_layer("tilt = \"steep\"", 8, {"\"steep\"", "degrees, clockwise"});
  in_layer("tilt = true", 8, {"true", "degrees, clockwise"});
  in_layer("copies = 0", 10, {"from 1"});
  in_layer("align = 3", 9, {"a number"});
  in_layer("role = true", 8, {"true"});
  at_top("rules = [3]", 10, {"rule"});
  at_top("rules = 3", 9, {"rule"});
}

TEST_CASE("a word that is not among those for its key is told with the nearest one") {
  at_top("unit = \"inch\"", 8, {"\"inch\"", "\"in\"", "\"mm\""});
  check("[base]\nfold = \"sied\"\nfront = \"4 x 5\"\n", {{2, 8, {"\"sied\"", "Did you mean \"side\""}}});
  in_base("opens = \"lift\"", 9, {"\"left\""});
  in_base("cut-back = { edge = \"rihgt\", by = 1 }", 21, {"\"right\""});
  in_layer("role = \"matt\"", 8, {"\"mat\""});
  in_layer("cut = \"by-hand\"", 7, {"\"by hand\""});
  in_layer("align = \"lefd\"", 9, {"\"lefd\"", "\"left\""});
  in_layer("align = \"left right\"", 9, {"\"left right\""});
  in_layer("align = \"top bottom\"", 9, {"\"top bottom\""});
  in_layer("align = \"left top centre\"", 9, {"\"left top centre\""});
  in_layer("align = \"across\"", 9, {"\"across\""});
  in_layer("align = \"left left\"", 9, {"\"left left\""});
  in_layer("level-with = \"tpo of other\"", 14, {"\"tpo\"", "\"top\""});
  in_layer("show = \"half\"", 8, {"\"half\""});
  in_layer("show = \"at least 3/2\"", 8, {"\"at least 3/2\""});
  in_layer("show = \"at least 0\"", 8, {"\"at least 0\""});
  after_base("[[paper]]\nname = \"p\"\ngrain = \"lang\"\n", 6, 9, {"\"long\""});
}

TEST_CASE("a length, size or wish that cannot be read is quoted") {
  at_top("mark = \"1/l6\"", 8, {"\"1/l6\""});
  in_layer("size = \"2 x\"", 8, {"\"\""});
  in_layer("size = \"A6\"", 8, {"iso A6", "us A6"});
  in_layer("artwork = \"us A9\"", 11, {"\"us A9\"", "\"us A"});
  in_layer("width = \"at lest 3\"", 9, {"\"at lest 3\""});
  in_layer("border = { across = \"1/x\" }", 21, {"\"1/x\""});
  in_layer("margin = \"1/x\"\nartwork = \"1 x 1\"", 10, {"\"1/x\""});
  in_layer("width = \"at least 3, at most 2\"", 9, {"contradicts itself"});
  in_layer("width = \"even\"", 9, {"even"});
  in_layer("ratio = \"3:\"", 9, {"\"3:\""});
  in_layer("ratio = \"3:0\"", 9, {"\"3:0\""});
  in_layer("ratio = \"3 in:4\"", 9, {"\"3 in:4\""});
  in_base("cut-back = \"same as it\"", 12, {"cut-back"});
  in_base("cut-back = \"1/x\"", 12, {"\"1/x\""});
  in_base("leaves = \"2, x\"", 10, {"\"x\""});
  in_base("scores = [\"x\", \"1\"]", 11, {"\"x\""});
  after_base("[[paper]]\nname = \"p\"\nweight = \"80 lb\"\n", 6, 10, {"\"80 lb\"", "cover"});
  after_base("[[paper]]\nname = \"p\"\nweight = 80\n", 6, 10, {"gsm"});
  after_base("[[paper]]\nname = \"p\"\nthickness = \"11 pts\"\n", 6, 13, {"\"11 pts\""});
  after_base("[[paper]]\nname = \"p\"\ncost = \"3 in\"\n", 6, 8, {"\"3 in\""});
}

TEST_CASE("sizes of nothing and less are told") {
  at_top("mark = 0", 8, {"more than 0"});
  at_top("mark = -0.5", 8, {"-0.5", "more than 0"});
  check("[base]\nfold = \"flat\"\nfront = \"0 x 5\"\n", {{3, 9, {"\"0 x 5\"", "more than 0"}}});
  in_layer("size = \"2 x 0\"", 8, {"more than 0"});
  in_layer("artwork = \"0 x 1\"", 11, {"more than 0"});
  in_layer("width = 0", 9, {"more than 0"});
  in_layer("width = \"at most 0\"", 9, {"more than 0"});
  in_layer("height = \"one of 0, 1\"", 10, {"more than 0"});
  in_layer("height = \"at least -1\"", 10, {"more than 0"});
  in_layer("border = \"at least -1\"", 10, {"less than 0"});
  in_layer("clearance = -1\nclear-of = \"other\"", 13, {"less than 0"});
  in_layer("raised = -1", 10, {"\"raised\" is -1", "less than 0"});
  in_layer("adhesive = \"-0.1\"", 12, {"\"adhesive\"", "less than 0"});
  in_layer("ratio = 0", 9, {"more than 0"});
  in_base("cut-back = 0", 12, {"more than 0"});
  after_base("[[paper]]\nname = \"p\"\nthickness = 0\n", 6, 13, {"more than 0"});
  after_base("[[paper]]\nname = \"p\"\nsheet = \"0 x 0\"\n", 6, 9, {"more than 0"});
  after_base("[[paper]]\nname = \"p\"\nweight = \"0 gsm\"\n", 6, 10, {"nothing"});
  after_base("[trimmer]\nlongest = 0\n", 5, 11, {"more than 0"});
  after_base("[limit]\ngrams = 0\n", 5, 9, {"more than 0"});
  after_base("[limit]\nthickness = 0\n", 5, 13, {"more than 0"});
  for (const char* frame : {"0", "at most 0", "-1/8", "0 to 0", "one of 0, 1"}) {
    after_base("[[window]]\nname = \"w\"\nin = \"front\"\nframe = \"" + std::string(frame) + "\"\n", 7, 9,
               {"\"" + std::string(frame) + "\"", "no paper around the window", "larger"});
  }
}

TEST_CASE("numbers that no ruler knows are told") {
  for (const char* number : {"0x10", "0o7", "0b1", "inf", "-inf", "nan", "1e99"})
    at_top("mark = " + std::string(number), 8, {number});
  in_layer("width = \"" + std::string(1000, '1') + "\"", 9, {"30 digits"});
  in_layer("width = \"1/" + std::string(1000, '1') + "\"", 9, {"30 digits"});
  in_layer("width = " + std::string(1000, '1'), 9, {"too many digits"});
  in_layer("width = 0." + std::string(60, '1'), 9, {"30 digits"});
  at_top("rules = \"front.left <= " + std::string(1000, '1') + "\"", 9, {"30 digits"});
}

TEST_CASE("names that are not found are told with the nearest") {
  in_layer("clear-of = [\"othr\"]", 13, {"\"othr\"", "\"other\""});
  in_layer("over = [\"othr\"]", 9, {"\"other\""});
  in_layer("below = \"othr\"", 9, {"\"other\""});
  in_layer("level-with = \"top of othr\"", 14, {"\"othr\"", "\"other\""});
  in_layer("width = \"same as othr\"", 9, {"\"othr\"", "\"other\""});
  in_layer("clear-of = [\"front\"]", 13, {"face"});
  in_layer("clear-of = [\"reveal\"]", 13, {"no reveal", "cut-back"});
  in_layer("over = [\"reveal\"]", 9, {"\"reveal\""});
  in_layer("clear-of = [\"it\"]", 13, {"itself"});
  in_layer("width = \"same as it\"", 9, {"itself"});
  in_layer("clear-of = [\"other\", \"other\"]", 22, {"twice"});
  after_base("[[layer]]\nname = \"a\"\non = \"reveal\"\n", 6, 6, {"cut-back"});
  after_base("[[layer]]\nname = \"a\"\non = \"insid\"\n", 6, 6, {"\"inside\""});
  after_base("[[window]]\nname = \"a\"\nin = \"fron\"\n", 6, 6, {"\"front\""});
  after_base("[[window]]\nname = \"a\"\nin = \"front\"\n[[window]]\nname = \"b\"\nin = \"a\"\n", 9, 6,
             {"window"});
  check(
      "[base]\nfold = \"side\"\nfront = \"4 x 5\"\ncut-back = 1\n[[window]]\nname = \"a\"\nin = \"reveal\"\n",
      {{7, 6, {"\"inside\""}}});
  check("[base]\nfold = \"flat\"\nfront = \"4 x 5\"\n[[layer]]\nname = \"a\"\non = \"reveal\"\n",
        {{6, 6, {"flat base has no reveal"}}});
  check("[base]\nfold = \"flat\"\nfront = \"4 x 5\"\n[[layer]]\nname = \"a\"\non = \"inside\"\n",
        {{6, 6, {"\"inside\""}}});
  at_top("rules = [\"front.left <= a.left\"]", 10, {"\"a\""});
}

TEST_CASE("a base that cannot be read leaves names of faces in peace") {
  check("[base]\nfold = \"sid\"\nfront = \"4 x 5\"\n[[layer]]\nname = \"a\"\non = \"inside\"\n",
        {{2, 8, {"\"side\""}}});
  check(
      "[base]\nfold = \"side\"\nfront = \"4 x 5\"\ncut-back = \"x\"\n[[layer]]\nname = \"a\"\non = "
      "\"reveal\"\n",
      {{4, 12, {"\"x\""}}});
  check("[[layer]]\nname = \"a\"\non = \"reveal\"\n", {{1, 1, {"[base]"}}});
}

TEST_CASE("a name used twice is told at the second") {
  after_base("[[layer]]\nname = \"a\"\non = \"front\"\n[[layer]]\nname = \"a\"\non = \"front\"\n", 8, 8,
             {"\"a\"", "line 5"});
  after_base("[[layer]]\nname = \"a\"\non = \"front\"\n[[window]]\nname = \"a\"\nin = \"front\"\n", 8, 8,
             {"\"a\"", "line 5"});
  after_base("[[layer]]\nname = \"a\"\non = \"front\"\n[[variant]]\nname = \"a\"\n", 8, 8,
             {"\"a\"", "line 5"});
  after_base("[[layer]]\nname = \"front\"\non = \"front\"\n", 5, 8, {"\"front\"", "base"});
  after_base("[[layer]]\nname = \"reveal\"\non = \"front\"\n", 5, 8, {"\"reveal\"", "base"});
  after_base("[[layer]]\nname = \"base\"\non = \"front\"\n", 5, 8, {"\"base\"", "base"});
  after_base("[[variant]]\nname = \"inside\"\n", 5, 8, {"\"inside\"", "base"});
  after_base("[[supply]]\nname = \"a\"\n[[supply]]\nname = \"a\"\n", 7, 8, {"\"a\"", "line 5"});
  // Papers may share a name, with each other and with a layer.
  CHECK(card_of(side_fold +
                "[[layer]]\nname = \"a\"\non = \"front\"\n[[paper]]\nname = \"a\"\n[[paper]]\nname = \"a\"\n")
            .papers.size() == 2);
}

TEST_CASE("layers that sit on each other in a circle are told once") {
  after_base("[[layer]]\nname = \"a\"\non = \"a\"\n", 6, 6, {"\"a\"", "itself"});
  after_base("[[layer]]\nname = \"a\"\non = \"b\"\n[[layer]]\nname = \"b\"\non = \"a\"\n", 6, 6,
             {"\"a\"", "\"b\""});
  after_base(
      "[[layer]]\nname = \"z\"\non = \"a\"\n[[layer]]\nname = \"a\"\non = \"b\"\n[[layer]]\nname = \"b\"\non "
      "= \"c\"\n"
      "[[layer]]\nname = \"c\"\non = \"a\"\n",
      9, 6, {"\"a\" sits on \"b\"", "\"c\"", "again"});
  after_base("[[layer]]\nname = \"a\"\non = \"w\"\n[[window]]\nname = \"w\"\nin = \"a\"\n", 6, 6,
             {"\"a\"", "\"w\""});
}

TEST_CASE("places on faces that share no frame are not compared") {
  const std::string two =
      "[base]\nfold = \"side\"\nfront = \"4 x 5\"\n[[layer]]\nname = \"a\"\non = \"front\"\n[[layer]]\nname "
      "= \"b\"\non = \"back\"\n";
  for (const char* key : {"below = \"a\"", "level-with = \"a\"", "clear-of = \"a\"", "over = \"a\""}) {
    const int column = static_cast<int>(std::string_view(key).find('"')) + 1;
    check(two + key + "\n", {{10, column, {"\"a\"", "\"b\"", "front", "back"}}});
  }
  check("rules = [\"a.left <= b.left\"]\n" + two, {{1, 10, {"front", "back", "\"a\"", "\"b\""}}});
  check("rules = [\"a.left <= 1 and a.top = back.top or a.left <= 2\"]\n" + two, {{1, 10, {"back"}}});
  // Sizes can be compared wherever they are, and so can distances.
  CHECK(card_of("rules = [\"a.width <= b.width\", \"a.left - front.left <= b.left - back.left\", \"a.top <= "
                "inside.top\"]\n" +
                two)
            .design.rules.size() == 3);
  CHECK(card_of(two + "width = \"same as a\"\n").design.pieces.size() == 2);
  // What is behind a window in the front is in the closed card's frame.
  CHECK(card_of(side_fold + "[[window]]\nname = \"w\"\nin = \"front\"\n[[layer]]\nname = \"a\"\non = \"w\"\n"
                            "[[layer]]\nname = \"b\"\non = \"inside\"\nclear-of = \"a\"\n")
            .design.pieces[2]
            .clear_of.size() == 1);
}

TEST_CASE("what keeps clear of the reveal is on a face that looks the same way") {
  const std::string cut = side_fold + "cut-back = 1\n[[layer]]\nname = \"a\"\nclear-of = [\"reveal\"]\n";
  for (const char* face : {"front", "inside"}) {
    const Card card = card_of(cut + "on = \"" + face + "\"\n");
    CHECK(card.design.pieces[0].clear_of.at(0).value == "reveal");
  }
  check(cut + "on = \"inside front\"\n", {{7, 13, {"\"a\" is on the inside front", "reveal", "inside,"}}});
  check(cut + "on = \"back\"\n", {{7, 13, {"\"a\" is on the back", "cannot be compared"}}});
  // Between the doors of a gate there is one as they are.
  CHECK(card_of("[base]\nfold = \"gate\"\nfront = \"4 x 5\"\n[[layer]]\nname = \"a\"\non = \"inside\"\n"
                "clear-of = \"reveal\"\n")
            .design.pieces[0]
            .clear_of.size() == 1);
}

TEST_CASE("an envelope or post that is not known is told with the nearest") {
  after_base("[mail]\nenvelope = \"us A22\"\n", 5, 12, {"\"us A22\"", "\"us A"});
  after_base("[mail]\nenvelope = [\"us A2\", \"A7\"]\n", 5, 22, {"\"A7\""});
  after_base("[mail]\npost = [\"usps\", \"upps\"]\n", 5, 17, {"\"upps\"", "usps"});
}

TEST_CASE("mistakes about folds, foam, post and envelope are told in one run") {
  check(
      "unit = \"in\"\n[base]\nfold = \"gate\"\nfront = \"5 1/2 x 4 1/4\"\nleaves = \"3, 5 1/2, 3\"\n"
      "[[window]]\nname = \"porthole\"\nin = \"front\"\nsize = \"1 x 1\"\nframe = 0\n"
      "[[layer]]\nname = \"boat\"\non = \"inside\"\ntilt = \"a little\"\nraised = \"-1/16\"\n"
      "[mail]\nenvelope = \"us A77\"\npost = \"pigeon\"\n",
      {{5, 10, {"doors", "6 in", "5 1/2 in", "narrower"}},
       {10, 9, {"\"frame\" is \"0\"", "no paper around the window"}},
       {14, 8, {"\"a little\"", "degrees, clockwise"}},
       {15, 10, {"\"raised\" is -1/16", "cannot be less than 0"}},
       {17, 12, {"\"us A77\""}},
       {18, 8, {"\"pigeon\""}}});
}

TEST_CASE("a rule that cannot be read is told") {
  at_top("rules = [\"front.left <= 1\", \"front.lft <= 1\"]", 29, {"\"lft\"", "\"left\""});
  at_top("rules = [\"front.left < 1\"]", 10, {"<="});
  at_top("rules = [\"1 <= 2\"]", 10, {"numbers only"});
}

TEST_CASE("a key that says nothing without another is told") {
  in_layer("gap = 1", 7, {"below"});
  in_layer("clearance = 1", 13, {"clear-of"});
  in_layer("margin = 1", 10, {"artwork"});
  in_layer("columns = 2", 11, {"copies"});
  in_layer("columns = 3\ncopies = 2", 11, {"more columns"});
  in_layer("tuck = 1", 8, {"window or the reveal"});
}

TEST_CASE("limits on what is read end in one message") {
  std::string many = side_fold;
  for (std::size_t i = 0; i <= most_pieces; ++i) {
    many += "[[layer]]\nname = \"l" + std::to_string(i) + "\"\non = \"front\"\n";
  }
  check(many, {{4 + 3 * static_cast<int>(most_pieces), 1, {"600"}}});
  CHECK(card_of(many.substr(0, many.rfind("[[layer]]"))).design.pieces.size() == most_pieces);
  std::string variants = "cards = 100\n" + side_fold;
  for (std::size_t i = 0; i <= most_variants; ++i)
    variants += "[[variant]]\nname = \"v" + std::to_string(i) + "\"\n";
  check(variants, {{5 + 2 * static_cast<int>(most_variants), 1, {"50 variants"}}});
  std::string rules = "rules = [\n";
  for (std::size_t i = 0; i <= most_rules; ++i) rules += "\"front.left <= 1\",\n";
  check(rules + "]\n" + side_fold, {{2 + static_cast<int>(most_rules), 1, {"1000 rules"}}});
  check(std::string(10'000'000, '#'), {{0, 0, {"larger than"}}});
  check(side_fold + "[[layer]]\nname = \"" + std::string(5000, 'n') + "\"\non = \"front\"\n",
        {{5, 8, {"too long"}}});
  check(
      side_fold + "[[layer]]\nname = \"a\"\non = \"front\"\nborder = \"" + std::string(900'000, ',') + "\"\n",
      {{7, 10, {"4000"}}});
}

TEST_CASE("what nests without end is refused and nothing breaks") {
  check("a = " + std::string(400'000, '['), {{1, 37, {"nests"}}});
  std::string dots = "a";
  for (int i = 0; i < 300'000; ++i) dots += ".a";
  check(dots + " = 1", {{1, 34, {"nests"}}});
  check("a = " + std::string(400'000, '{'), {{1, 37, {"nests"}}});
}

TEST_CASE("text that is not TOML is told with what mends it") {
  check("[base]\nfold = side\n", {{2, 8, {"\"side\"", "quotes"}}});
  check("[base]\nfront = 4 1/4 x 5 1/2 # inches\n", {{2, 9, {"\"4 1/4 x 5 1/2\"", "quotes"}}});
  check("[base]\n  fold = \"side\"\n  fold = \"top\"\n", {{3, 3, {"\"fold\"", "twice"}}});
  check("[base\nfold = \"side\"\n", {{1, 1, {"bracket"}}});
  check("[base]\nfold = \"side\n", {{2, 13, {"quotation mark"}}});
  check("[base]\nfront = \"4 1/4\" x 5 1/2\"\n", {{2, 17, {"quotation mark"}}});
  check("rules = [\"a\",\n", {{1, 14, {"ends"}}});
  check(
      "[base]\nfold = \"si\x01"
      "de\"\n",
      {{2, 11, {"cannot be seen"}}});
  check("fold \"side\"\n", {{1, 6, {"TOML"}}});
  check("[base]\nfold = \u201Cside\u201D\n", {{2, 8, {"plain", "\u201C"}}});
  check("[base]\nfold =\u00A0\"side\"\n", {{2, 7, {"blank"}}});
  check("[base]\nf\u00F3ld = \"side\"\n", {{2, 2, {"\"\u00F3\"", "quotes"}}});
  check("title = \"\\\u00E9\"\n", {{1, 11, {"stands for nothing"}}});
  check("[[[layer]]]\n", {{1, 3, {"TOML"}}});
}

TEST_CASE("bytes that are not UTF-8 are told where they are") {
  for (const char* bytes : {"\xC3\x28", "\xFF", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80",
                            "\xF4\x90\x80\x80", "\xF0\x9F\x98", "\x80"}) {
    check("title = \"\u00E9" + std::string(bytes) + "\"\n", {{1, 11, {"UTF-8"}}});
    check("# " + std::string(bytes) + "\n", {{1, 3, {"UTF-8"}}});
    check(bytes, {{1, 1, {"UTF-8"}}});
  }
  for (const char* good : {"\u00E9", "\u0800", "\uD7FF", "\uFFFD", "\U0001F600", "\U0010FFFF"}) {
    CHECK(card_of("title = \"" + std::string(good) + "\" # " + good + "\n" + side_fold).title == good);
  }
}

TEST_CASE("texts over several lines are read") {
  CHECK(card_of("title = \"\"\"a\\\n   b \u00E9\"\"\"\n" + side_fold).title == "ab \u00E9");
  CHECK(card_of("title = \"\"\"\u00E9\"\"\"\"\" # \u00E9\n" + side_fold).title == "\u00E9\"\"");
  CHECK(card_of("title = '''\u00E9\\'''\n" + side_fold).title == "\u00E9\\");
  CHECK(card_of("title = '\u00E9\\'\n" + side_fold).title == "\u00E9\\");
}

TEST_CASE("all mistakes of a card are told in file order") {
  const CardReading reading = read_card(
      "spare = -1\nmark = 0\n[[layer]]\nname = \"a\"\non = \"b\"\nwidth = 0\nheigth = 1\n[base]\nfold = "
      "\"sid\"\nfront = 1\n"
      "[[window]]\nname = \"a\"\nin = \"fron\"\n");
  INFO(told(reading.mistakes));
  CHECK(reading.mistakes.size() == 9);
  CHECK(std::is_sorted(reading.mistakes.begin(), reading.mistakes.end(),
                       [](const Remark& a, const Remark& b) { return a.spot < b.spot; }));
}

// A file full of mistakes may not keep its maker waiting. The bound is generous, and counts work, not
// waiting.
TEST_CASE("a file full of wrong names is told within a second") {
  std::string text = side_fold;
  const auto line = [&](const char* before, const std::string& number, const char* after) {
    text.append(before).append(number).append(after);
  };
  for (std::size_t i = 0; i < most_pieces; ++i) {
    const std::string number = std::to_string(i);
    line("[[layer]]\nname = \"a rather long layer number ", number, "\"\n");
    line("on = \"an absent layer number ", number, "\"\n");
    line("clear-of = [\"nope nope nope nope ", number, "\", ");
    line("\"nope nope nope nope ", number, " again\"]\n");
  }
  const std::clock_t start = std::clock();
  CHECK(read_card(text).mistakes.size() == 3 * most_pieces);
  CHECK(std::clock() - start < CLOCKS_PER_SEC);
}
