// Closed cards worked out by hand: how thick they are and what makes them so, what they weigh, how far they
// reach, and what of their papers is not known.
#include "solver/body/closed_card.h"

#include "tests/catch.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// Thicknesses that add up to sums which tell what was added.
const std::string papers =
    "[[paper]]\nname = \"linen\"\nthickness = \"0.01\"\n[[paper]]\nname = \"board\"\nthickness = \"0.1\"\n";
const Rational linen = part(1, 100);
const Rational board = part(1, 10);

std::string base(const std::string& keys) { return "[base]\nfront = \"4 x 6\"\npaper = \"linen\"\n" + keys; }
std::string on(const std::string& face, const std::string& name, const std::string& keys) {
  return layer(name, face, "paper = \"board\"\n" + keys);
}

struct Closed : SizedText {
  explicit Closed(const std::string& text) : SizedText(text + papers) {
    REQUIRE(sized.verdict == Verdict::buildable);
    REQUIRE(plain().closed);
  }
  [[nodiscard]] const ClosedCard& closed() const { return *plain().closed; }
  [[nodiscard]] std::vector<std::string> made_of() const {
    std::vector<std::string> what;
    for (const ThickPart& one : closed().thickest) what.push_back(one.what);
    return what;
  }
};

using Names = std::vector<std::string>;
const std::string side = "fold = \"side\"\n";

}  // namespace

TEST_CASE("a closed card is as thick as the leaves that lie over each other") {
  CHECK(Closed(base("fold = \"flat\"\n")).closed().thickness == linen);
  for (const char* fold : {"side", "top", "gate"}) {
    INFO(fold);
    CHECK(Closed(base("fold = \"" + std::string(fold) + "\"\n")).closed().thickness == 2 * linen);
  }
  for (const char* fold : {"z", "tri"}) {
    INFO(fold);
    CHECK(Closed(base("fold = \"" + std::string(fold) + "\"\n")).closed().thickness == 3 * linen);
  }
  const Closed z(base("fold = \"z\"\n"));
  CHECK(z.made_of() == Names{"the back leaf", "the middle leaf", "the front"});
  const Closed tri(base("fold = \"tri\"\n"));
  CHECK(tri.made_of() == Names{"the back leaf", "the flap", "the front"});
  CHECK(tri.closed().thickest_at.x > part(1, 16));
  // A short front over a short middle: three leaves at the left only.
  const Closed easel(base("fold = \"z\"\nleaves = [1, 3, 4]\n"));
  CHECK(easel.closed().thickness == 3 * linen);
  CHECK(easel.closed().thickest_at.x > 2);
  CHECK(easel.closed().thickest_at.x < 3);
}

TEST_CASE("what makes a card thick is told from the back to the front, with the kind of each") {
  const Closed card(base(side) + on("front", "mat", "size = \"2 x 2\"\nadhesive = \"0.002\"\n") +
                    on("mat", "boat", "size = \"1 x 1\"\nraised = \"1/16\"\n") +
                    on("back", "label", "size = \"2 x 2\"\nraised = \"1/32\"\nadhesive = \"0.003\"\n"));
  CHECK(card.closed().thickness ==
        2 * linen + 3 * board + part(2, 1000) + part(3, 1000) + part(1, 16) + part(1, 32));
  // Under a label that looks away its foam is nearer to the front than its paper.
  CHECK(card.made_of() == Names{"label", "the foam under label", "the adhesive under label", "the back leaf",
                                "the front", "the adhesive under mat", "mat", "the foam under boat", "boat"});
  Rational total = 0;
  for (const ThickPart& one : card.closed().thickest) {
    INFO(one.what);
    total += one.thickness;
    const bool foam = one.what.find("foam") != std::string::npos;
    const bool leaf = one.what == "the front" || one.what == "the back leaf";
    CHECK((one.kind == ThickPart::Kind::foam) == foam);
    CHECK((one.kind == ThickPart::Kind::leaf) == leaf);
  }
  CHECK(total == card.closed().thickness);
}

TEST_CASE("what is at the left of the inside of the front lies over what is at the right of the inside") {
  const auto thickness = [](const std::string& opens, const std::string& from) {
    return Closed(base(side + opens) +
                  on("inside front", "flap note", "size = \"1 x 1\"\nfrom-left = 0\nfrom-top = 1\n") +
                  on("inside", "note", "size = \"1 x 1\"\nfrom-top = 1\n" + from + " = 0\n"));
  };
  for (const std::string opens : {"", "opens = \"left\"\n"}) {
    INFO(opens);
    const Closed over = thickness(opens, "from-right");
    CHECK(over.closed().thickness == 2 * linen + 2 * board);
    CHECK(over.closed().thickest_at.x > 3);
    CHECK(over.made_of() == Names{"the back leaf", "note", "flap note", "the front"});
    CHECK(thickness(opens, "from-left").closed().thickness == 2 * linen + board);
  }
}

TEST_CASE("the front of a top fold is turned over about its fold, the card sideways to look at its back") {
  const Closed over(base("fold = \"top\"\n") +
                    on("inside front", "note", "size = \"1 x 1\"\nfrom-left = 0\nfrom-top = 0\n") +
                    on("inside", "words", "size = \"1 x 1\"\nfrom-left = 0\nfrom-bottom = 0\n"));
  CHECK(over.closed().thickness == 2 * linen + 2 * board);
  CHECK(over.closed().thickest_at.x < 1);
  CHECK(over.closed().thickest_at.y > 5);
  const Closed back(base("fold = \"top\"\n") +
                    on("back", "note", "size = \"1 x 1\"\nfrom-left = 0\nfrom-top = 0\n") +
                    on("inside", "words", "size = \"1 x 1\"\nfrom-right = 0\nfrom-top = 0\n"));
  CHECK(back.closed().thickness == 2 * linen + 2 * board);
  CHECK(back.closed().thickest_at.x > 3);
  CHECK(back.closed().thickest_at.y < 1);
}

TEST_CASE("a layer on the inside of a right door lies where that door closes") {
  // Its door closes over 1 1/2 to 4: 1/2 in from the free end of the door is at its right, seen from inside.
  const Closed card(base("fold = \"gate\"\nleaves = [1, 4, \"2 1/2\"]\n") +
                    on("inside right front", "note", "size = \"1/2 x 1\"\nfrom-right = 0\nfrom-top = 1\n") +
                    on("inside", "words", "size = \"1/2 x 1\"\nfrom-left = \"1 1/2\"\nfrom-top = 1\n"));
  CHECK(card.closed().thickness == 2 * linen + 2 * board);
  CHECK(card.closed().thickest_at.x > part(3, 2));
  CHECK(card.closed().thickest_at.x < 2);
}

TEST_CASE("what a page behind the front has is met in the order in which the leaves lie") {
  const std::string middle = "size = \"1 x 1\"\nalign = \"centre\"\n";
  const Closed tri(base("fold = \"tri\"\nleaves = [4, 4, 4]\n") + on("inside", "first", middle) +
                   on("inside flap", "second", middle) + on("flap", "third", middle) +
                   on("inside front", "fourth", middle));
  CHECK(tri.made_of() ==
        Names{"the back leaf", "first", "second", "the flap", "third", "fourth", "the front"});
  const Closed z(base("fold = \"z\"\n") + on("inside back", "first", middle) +
                 on("inside middle", "second", middle) + on("inside", "third", middle) +
                 on("inside front", "fourth", middle) + on("back", "label", middle));
  CHECK(z.made_of() == Names{"label", "the back leaf", "first", "second", "the middle leaf", "third",
                             "fourth", "the front"});
}

TEST_CASE("beside a cut-back front a card is thinner by the front") {
  const Closed card(base(side + "cut-back = 1\n") + on("reveal", "strip", "border = 0\n"));
  CHECK(card.closed().thickness == linen + board);
  CHECK(card.made_of() == Names{"the back leaf", "strip"});
  CHECK(card.closed().thickest_at.x > 3);
  const Closed tucked(base(side + "cut-back = 1\n") + on("reveal", "strip", "tuck = \"1/4\"\n"));
  CHECK(tucked.closed().thickness == 2 * linen + board);
  CHECK(tucked.closed().thickest_at.x < 3);
}

TEST_CASE("in a window there is no leaf, under its frame there is") {
  const std::string window =
      "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n";
  const Closed through(base(side) + window + on("hole", "print", "border = 0\n"));
  CHECK(through.closed().thickness == linen + board);
  CHECK(through.made_of() == Names{"the back leaf", "print"});
  const Closed tucked(base(side) + window + on("hole", "print", "tuck = \"1/4\"\n"));
  CHECK(tucked.closed().thickness == 2 * linen + board);
  // A window stated on the leaf's other side is cut through it all the same.
  const std::string from_behind =
      "[[window]]\nname = \"hole\"\nin = \"inside front\"\nsize = \"1 x 1\"\nfrom-left = \"1/2\"\nfrom-top = "
      "1\n";
  const Closed behind(base(side) + from_behind +
                      on("inside", "print", "size = \"1 x 1\"\nfrom-right = \"1/2\"\nfrom-top = 1\n"));
  CHECK(behind.closed().thickness == linen + board);
  // In a mat too.
  const std::string in_mat =
      "[[window]]\nname = \"hole\"\nin = \"mat\"\nsize = \"2 x 2\"\nalign = \"centre\"\n";
  const Closed framed(base(side) + on("front", "mat", "border = \"1/4\"\n") + in_mat +
                      on("hole", "print", "border = 0\nraised = \"1/16\"\n"));
  CHECK(framed.closed().thickness == 2 * linen + board + part(1, 16));
  CHECK(framed.made_of() == Names{"the back leaf", "the front", "the foam under print", "print"});
}

TEST_CASE("a window in the front of a gate is cut in both doors") {
  const Closed card(base("fold = \"gate\"\n") +
                    "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n" +
                    on("hole", "print", "border = 0\n"));
  CHECK(card.closed().thickness == linen + board);
  CHECK(card.piece("print").shown.closed == 1);
}

TEST_CASE("copies lie side by side, and ink has no thickness") {
  const Closed card(base(side) + on("front", "dot", "size = \"1 x 1\"\ncopies = 3\nraised = \"1/16\"\n") +
                    layer("ink", "dot", "stamped = true\npaper = \"board\"\nraised = \"1/16\"\n"));
  CHECK(card.closed().thickness == 2 * linen + board + part(1, 16));
  CHECK(card.made_of() == Names{"the back leaf", "the front", "the foam under dot", "dot"});
}

TEST_CASE("copies are met one by one by what lies on the other side") {
  const auto card = [](const std::string& from_left) {
    return Closed(
        base(side) +
        on("front", "dot", "size = \"1/2 x 1/2\"\ncopies = 2\ngap = 1\nfrom-left = 1\nfrom-top = 1\n") +
        on("inside", "bar", "size = \"1/2 x 1/2\"\nfrom-top = 1\nfrom-left = \"" + from_left + "\"\n"));
  };
  CHECK(card("1 3/4").closed().thickness == 2 * linen + board);  // between the two
  CHECK(card("2 3/4").closed().thickness == 2 * linen + 2 * board);
  CHECK(card("3").closed().thickness == 2 * linen + board);  // edge to edge
}

TEST_CASE("a tilted layer is met where its paper is, not where its box is") {
  const auto card = [](const std::string& from_left) {
    return Closed(base(side) + on("front", "kite", "size = \"2 x 2\"\ntilt = 45\nalign = \"centre\"\n") +
                  on("inside", "bar",
                     "size = \"1/4 x 1/4\"\nfrom-top = \"1 3/4\"\nfrom-left = \"" + from_left + "\"\n"));
  };
  CHECK(card("3").closed().thickness == 2 * linen + board);          // in a corner of the box
  CHECK(card("1 7/8").closed().thickness == 2 * linen + 2 * board);  // under the upper point
}

TEST_CASE("what hangs over an edge makes the card larger over all") {
  const Closed card(base(side) + on("front", "bow",
                                    "size = \"2 x 2\"\noverhang = \"at most 1/4\"\nfrom-right = \"-1/4\"\n"
                                    "from-top = \"-1/8\"\n"));
  CHECK(card.closed().front == Size{4, 6});
  CHECK(card.closed().over_all == Size{part(17, 4), part(49, 8)});
  const Closed cut(base(side + "cut-back = 1\n"));
  CHECK(cut.closed().over_all == Size{4, 6});
  // On the back at its left is at the right of the closed card.
  const Closed both(
      base(side) +
      on("front", "bow", "size = \"2 x 2\"\noverhang = \"at most 1/4\"\nfrom-right = \"-1/4\"\n") +
      on("back", "tab", "size = \"2 x 2\"\noverhang = \"at most 1/2\"\nfrom-left = \"-1/2\"\n"));
  CHECK(both.closed().over_all.width == part(9, 2));
}

TEST_CASE("a card weighs what its blank and its layers weigh, less what is cut out and back") {
  const std::string weights =
      "[[paper]]\nname = \"linen\"\nweight = \"200 gsm\"\n[[paper]]\nname = \"board\"\nweight = \"100 "
      "gsm\"\n";
  const auto grams = [&](const std::string& fold, const std::string& more = "") {
    const SizedText card("unit = \"mm\"\n[base]\nfront = \"100 x 150\"\npaper = \"linen\"\n" + fold + more +
                         weights);
    REQUIRE(card.plain().closed);
    CHECK(card.plain().closed->no_weight.empty());
    return card.plain().closed->grams;
  };
  CHECK(grams("fold = \"flat\"\n") == 3);
  CHECK(grams(side) == 6);
  CHECK(grams("fold = \"top\"\n") == 6);
  CHECK(grams("fold = \"gate\"\nleaves = [50, 100, 40]\n") == part(57, 10));
  CHECK(grams("fold = \"z\"\n") == 9);
  CHECK(grams("fold = \"tri\"\n") == part(894, 100));
  CHECK(grams(side + "cut-back = 20\n") == part(54, 10));
  CHECK(grams(side + "cut-back = { edge = \"top\", by = 30 }\n") == part(54, 10));
  CHECK(grams("fold = \"gate\"\nleaves = [50, 100, 40]\ncut-back = 10\n") == part(51, 10));
  // What each fold takes up of the blank is paper too.
  CHECK(grams(side, "[allowance]\nfold = 2\n") == part(606, 100));
  const std::string window = "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"50 x 50\"\n";
  CHECK(grams(side, window) == part(55, 10));
  CHECK(grams("fold = \"gate\"\nleaves = [45, 100, 45]\n",
              "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"50 x 50\"\nalign = \"centre\"\n") ==
        part(57, 10) - part(4, 10));  // 10 mm of it are the gap between the doors
  CHECK(grams(side, on("front", "mat", "size = \"80 x 100\"\n")) == part(68, 10));
  CHECK(grams(side, on("front", "mat", "size = \"80 x 100\"\nraised = 2\nadhesive = 1\ntilt = 3\n")) ==
        part(68, 10));
  CHECK(grams(side, on("front", "mat", "size = \"80 x 100\"\nstamped = true\n")) == 6);
  CHECK(grams(side, on("front", "dot", "size = \"20 x 50\"\ncopies = 3\n")) == part(63, 10));
  CHECK(grams(side, on("front", "mat", "size = \"80 x 100\"\n") +
                        "[[window]]\nname = \"hole\"\nin = \"mat\"\nsize = \"20 x 50\"\n") == part(67, 10));
}

TEST_CASE("papers of which it is not known how thick or heavy they are are named, each once") {
  const SizedText card("[base]\nfold = \"side\"\nfront = \"4 x 6\"\npaper = \"plain\"\n" +
                       layer("a", "front", "size = \"1 x 1\"\npaper = \"thin\"\nfrom-left = 0\n") +
                       layer("b", "back", "size = \"1 x 1\"\n") +
                       layer("c", "front", "size = \"1 x 1\"\npaper = \"heavy\"\nfrom-right = 0\n") +
                       layer("ink", "inside", "size = \"1 x 1\"\nstamped = true\n") +
                       "[[paper]]\nname = \"plain\"\n[[paper]]\nname = \"thin\"\nthickness = \"0.01\"\n"
                       "[[paper]]\nname = \"heavy\"\nweight = \"200 gsm\"\n");
  REQUIRE(card.plain().closed);
  const auto sorted = [](Names names) {
    std::sort(names.begin(), names.end());
    return names;
  };
  CHECK(sorted(card.plain().closed->no_thickness) == Names{"", "heavy", "plain"});
  CHECK(sorted(card.plain().closed->no_weight) == Names{"", "plain", "thin"});
  CHECK(card.plain().closed->thickness == linen);
}

TEST_CASE("of papers that share a name the first that says so tells its thickness") {
  const Closed card(
      "[[paper]]\nname = \"linen\"\nsheet = \"us letter\"\n[[paper]]\nname = \"linen\"\n"
      "thickness = \"0.02\"\n" +
      base(side));
  CHECK(card.closed().thickness == part(4, 100));
}
