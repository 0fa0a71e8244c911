// Cards that may be no thicker than so much: held against trying every place, and worked out by hand.
#include <optional>
#include <set>

#include "solver/body/closed_card.h"
#include "solver/check_card.h"
#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string papers =
    "[[paper]]\nname = \"linen\"\nthickness = \"0.01\"\n[[paper]]\nname = \"board\"\nthickness = \"0.1\"\n";

std::string limited(const std::string& limit, const std::string& fold = "fold = \"side\"\n") {
  return "[limit]\nthickness = \"" + limit + "\"\n" + papers +
         "[base]\nfront = \"4 x 4\"\npaper = \"linen\"\n" + fold;
}
std::string board(const std::string& name, const std::string& face, const std::string& keys) {
  return layer(name, face, "paper = \"board\"\n" + keys);
}

struct Checked {
  explicit Checked(const std::string& file)
      : text(file), card(card_of(file)), checked(check_card(card, file, {})) {}
  [[nodiscard]] std::set<std::string> offered() const {
    std::set<std::string> all;
    for (const Conflict& conflict : checked.conflicts) {
      for (const Change& change : conflict.changes) all.insert(change.from + " to " + change.to);
    }
    return all;
  }

  std::string text;
  Card card;
  CheckedCard checked;
};

// Small cards on a 4 x 4 base: layers that stand where they are stated on any face, of which one is free, now
// and then with a window in the front or a front that is cut back.
class LimitedCard {
 public:
  explicit LimitedCard(unsigned seed) : dice_(seed) {}

  std::string base() {
    const std::vector<std::string> folds = {"fold = \"side\"\n",
                                            "fold = \"top\"\n",
                                            "fold = \"side\"\nopens = \"left\"\n",
                                            "fold = \"flat\"\n",
                                            "fold = \"z\"\nleaves = [2, 2, 4]\n",
                                            "fold = \"z\"\n",
                                            "fold = \"gate\"\nleaves = [1, 4, 2]\n",
                                            "fold = \"tri\"\nleaves = [4, 4, 3]\n"};
    std::string text = dice_.any_of(folds);
    const bool cut =
        text.find("leaves") == std::string::npos && text.find("flat") == std::string::npos && dice_.one_in(3);
    if (cut) text += "cut-back = 1\n";
    faces_ = text.find("flat") != std::string::npos ? Names{"front", "back"}
             : text.find("gate") != std::string::npos
                 ? Names{"front", "left front", "right front", "inside", "inside right front", "back"}
             : text.find('z') != std::string::npos
                 ? Names{"front", "inside", "inside front", "inside middle", "inside back", "back"}
             : text.find("tri") != std::string::npos ? Names{"front", "flap", "inside", "inside flap", "back"}
                                                     : Names{"front", "inside", "inside front", "back"};
    return text;
  }

  // The free one comes last.
  std::string layers(int count) {
    std::string text;
    if (dice_.one_in(3)) {
      text += "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"" +
              dice_.any_of<std::string>({"1", "5/2", "3"}) + " x 2\"\nfrom-left = \"1/2\"\nfrom-top = \"" +
              half(1, 3) + "\"\n";
    }
    for (int i = 0; i < count; ++i) {
      const std::string name(1, static_cast<char>('a' + i));
      const bool free = i + 1 == count;
      text += layer(name, dice_.any_of(faces_), "paper = \"board\"\n");
      text += free ? "size = \"" + half(1, 3) + " x " + half(1, 4) + "\"\n"
                   : "size = \"" + half(1, 2) + " x " + half(1, 4) + "\"\nfrom-left = \"" + half(0, 4) +
                         "\"\nfrom-top = \"" + half(0, 4) + "\"\n";
      if (dice_.one_in(3)) text += "raised = \"1/10\"\n";
      if (dice_.one_in(5)) text += "adhesive = \"1/50\"\n";
    }
    return text;
  }

  std::string limit() { return "0." + std::to_string(dice_.between(12, 45)); }

 private:
  using Names = std::vector<std::string>;
  std::string half(int least, int most) { return std::to_string(dice_.between(least, most)) + "/2"; }

  Dice dice_;
  Names faces_;
};

bool overlap(const PlacedPiece& a, const PlacedPiece& b) {
  return a.left < b.left + b.width && b.left < a.left + a.width && a.top < b.top + b.height &&
         b.top < a.top + a.height;
}

// The least thickness of the card over places of its last layer, a quarter apart; absent if it has none.
std::optional<Rational> thinnest(const SizedText& without_limit) {
  SizedVersion version = without_limit.plain();
  PlacedPiece& free = version.pieces.back();
  const Rational low_x = free.left - free.from_left;
  const Rational low_y = free.top - free.from_top;
  const Rational high_x = free.left + free.from_right;
  const Rational high_y = free.top + free.from_bottom;
  std::optional<Rational> least;
  for (Rational x = low_x; x <= high_x; x += part(1, 4)) {
    for (Rational y = low_y; y <= high_y; y += part(1, 4)) {
      free.left = x;
      free.top = y;
      const bool taken =
          std::any_of(version.pieces.begin(), version.pieces.end() - 1, [&](const PlacedPiece& other) {
            return other.piece->kind == Piece::Kind::layer && other.piece->on.value == free.piece->on.value &&
                   overlap(other, free);
          });
      if (taken) continue;
      const Rational found = closed_card_of(without_limit.card, without_limit.card.design, version).thickness;
      if (!least || found < *least) least = found;
    }
  }
  return least;
}

}  // namespace

TEST_CASE("no card is thicker than its limit, and none is refused that some place would make thin enough") {
  int kept = 0;
  int moved = 0;
  int refused = 0;
  for (unsigned seed = 1; seed <= 150; ++seed) {
    LimitedCard made(seed);
    const std::string fold = made.base();
    const std::string body = fold + made.layers(3);
    const std::string limit = made.limit();
    std::string plain = papers;
    plain.append("[base]\nfront = \"4 x 4\"\npaper = \"linen\"\n").append(body);
    const SizedText free(plain);
    if (free.sized.verdict != Verdict::buildable) continue;
    const SizedText card(limited(limit, body));
    INFO("seed " << seed << "\n" << limited(limit, body));
    const Rational most = card.card.design.limit.thickness->value;
    const auto least = thinnest(free);
    REQUIRE(least);
    UNSCOPED_INFO("at best " << fraction_text(*least));
    CHECK(card.sized.verdict == (*least <= most ? Verdict::buildable : Verdict::conflict));
    if (card.sized.verdict == Verdict::buildable) {
      CHECK(card.plain().closed->thickness <= most);
      ++(free.plain().closed->thickness <= most ? kept : moved);
    } else {
      ++refused;
    }
  }
  CHECK(kept > 20);
  CHECK(moved > 5);
  CHECK(refused > 20);
}

TEST_CASE(
    "a change that is said to mend a card that is too thick mends it, and nothing less on thousandths does") {
  int offered = 0;
  for (unsigned seed = 200; seed < 240; ++seed) {
    LimitedCard made(seed);
    const std::string fold = made.base();
    const std::string body = fold + made.layers(3);
    const Checked card(limited(made.limit(), body));
    INFO("seed " << seed << "\n" << card.text);
    if (card.checked.verdict != Verdict::conflict) continue;
    for (const Conflict& conflict : card.checked.conflicts) {
      for (const Change& change : conflict.changes) {
        if (!change.mends_card) continue;
        INFO(change.from << " to " << change.to << ", line " << change.spot.line);
        const auto mended = with_changes(card.text, {change});
        REQUIRE(mended);
        CHECK(SizedText(*mended).sized.verdict == Verdict::buildable);
        ++offered;
      }
    }
    if (!card.checked.mend.empty()) {
      const auto mended = with_changes(card.text, card.checked.mend);
      REQUIRE(mended);
      CHECK(SizedText(*mended).sized.verdict == Verdict::buildable);
    }
  }
  CHECK(offered > 15);
}

TEST_CASE("foam that is pinned over foam is too thick, and thinner foam or a higher limit would mend it") {
  const std::string pinned = "size = \"1 x 1\"\nalign = \"centre\"\n";
  const Checked card(limited("0.3") + board("boat", "front", pinned + "raised = \"0.05\"\n") +
                     board("wave", "inside", pinned + "raised = \"0.062\"\n"));
  REQUIRE(card.checked.verdict == Verdict::conflict);
  REQUIRE(card.checked.conflicts.size() == 1);
  // 2 x 0.01 + 2 x 0.1 + 0.05 + 0.062 = 0.332
  CHECK(card.checked.conflicts[0].short_by == part(32, 1000));
  const std::set<std::string> offered = card.offered();
  CHECK(offered.contains("0.3 to 0.332"));
  CHECK(offered.contains("0.05 to 0.018"));
  CHECK(offered.contains("0.062 to 0.03"));
}

TEST_CASE("a pile too thick by its papers alone is mended by its limit alone") {
  const Checked card(limited("0.2") + board("a", "front", "size = \"4 x 4\"\n") +
                     board("b", "a", "size = \"1 x 1\"\n"));
  REQUIRE(card.checked.verdict == Verdict::conflict);
  CHECK(card.offered() == std::set<std::string>{"0.2 to 0.22"});
}

TEST_CASE("what is offered for the limit is enough for all that lies there") {
  // Two layers as large as the card lie over one another wherever they lie.
  const Checked card(limited("0.1") + board("a", "front", "size = \"4 x 4\"\n") +
                     board("b", "inside", "size = \"4 x 4\"\n"));
  REQUIRE(card.checked.verdict == Verdict::conflict);
  for (const Conflict& conflict : card.checked.conflicts) {
    for (const Change& change : conflict.changes) CHECK(change.mends_card == (change.to == "0.22"));
  }
  REQUIRE_FALSE(card.checked.mend.empty());
  CHECK(card.checked.mend[0].to == "0.22");
}

TEST_CASE("foam on either side of a card moves apart where nothing holds it") {
  const SizedText card(limited("0.2") + board("boat", "front", "size = \"1 x 1\"\nraised = \"0.05\"\n") +
                       board("wave", "inside", "size = \"2 x 1\"\nraised = \"0.05\"\n"));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  CHECK_FALSE(overlap(card.piece("boat"), card.piece("wave")));
  CHECK(card.plain().closed->thickness == part(17, 100));
  const SizedText free("[base]\nfold = \"side\"\nfront = \"4 x 4\"\n" +
                       board("boat", "front", "size = \"1 x 1\"\n") +
                       board("wave", "inside", "size = \"2 x 1\"\n") + papers);
  CHECK(overlap(free.piece("boat"), free.piece("wave")));
}

TEST_CASE("layers on sides that look away part as they lie when the card is closed") {
  // On the back at its left is at the right of the closed card.
  const auto card = [](const std::string& from) {
    return SizedText(limited("0.15") + board("label", "back", "size = \"2 x 4\"\n" + from + " = 0\n") +
                     board("boat", "front", "size = \"2 x 1\"\n"));
  };
  CHECK(card("from-left").piece("boat").left == 0);
  CHECK(card("from-right").piece("boat").left == 2);
}

TEST_CASE("a limit that is just kept changes nothing") {
  const std::string layers =
      board("boat", "front", "size = \"1 x 1\"\n") + board("wave", "inside", "size = \"2 x 1\"\n");
  const SizedText card(limited("0.22") + layers);
  CHECK(card.plain().closed->thickness == part(22, 100));
  const SizedText free("[base]\nfold = \"side\"\nfront = \"4 x 4\"\n" + layers + papers);
  CHECK(card.piece("boat").left == free.piece("boat").left);
  CHECK(card.piece("wave").top == free.piece("wave").top);
}

TEST_CASE("in a window the front adds nothing to what lies behind it") {
  const std::string window =
      "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n";
  // Back leaf 0.01, print 0.1: 0.11; with the front 0.12.
  const SizedText through(limited("0.11") + window + board("print", "hole", "border = 0\n"));
  CHECK(through.sized.verdict == Verdict::buildable);
  CHECK(through.plain().closed->thickness == part(11, 100));
  const SizedText tucked(limited("0.11") + window + board("print", "hole", "tuck = \"1/8\"\n"));
  CHECK(tucked.sized.verdict == Verdict::conflict);
  // A layer that is not stated to be in the window may find its place there.
  const SizedText finds(limited("0.11") + window +
                        board("print", "inside", "size = \"1 x 1\"\nfrom-left = \"at least 1/8\"\n"));
  REQUIRE(finds.sized.verdict == Verdict::buildable);
  CHECK(finds.plain().closed->thickness == part(11, 100));
  const SizedText larger(limited("0.11") + window + board("print", "inside", "size = \"2 1/8 x 1\"\n"));
  CHECK(larger.sized.verdict == Verdict::conflict);
}

TEST_CASE("a print behind the window of a mat is no thicker than the mat") {
  const std::string window =
      "[[window]]\nname = \"hole\"\nin = \"mat\"\nsize = \"2 x 2\"\nalign = \"centre\"\n";
  const std::string mat = board("mat", "front", "border = \"1/4\"\n");
  const SizedText through(limited("0.12") + mat + window + board("print", "hole", "border = 0\n"));
  CHECK(through.sized.verdict == Verdict::buildable);
  const SizedText tucked(limited("0.12") + mat + window + board("print", "hole", "tuck = \"1/8\"\n"));
  CHECK(tucked.sized.verdict == Verdict::conflict);
}

TEST_CASE("beside a cut-back front there is one leaf less") {
  const std::string cut = "fold = \"side\"\ncut-back = 1\n";
  CHECK(SizedText(limited("0.11", cut) + board("strip", "reveal", "border = 0\n")).sized.verdict ==
        Verdict::buildable);
  CHECK(SizedText(limited("0.11", cut) + board("strip", "reveal", "tuck = \"1/8\"\n")).sized.verdict ==
        Verdict::conflict);
  // A layer on the inside finds the reveal.
  const SizedText finds(limited("0.11", cut) + board("strip", "inside", "size = \"1 x 2\"\n"));
  REQUIRE(finds.sized.verdict == Verdict::buildable);
  CHECK(finds.piece("strip").left == 3);
}

TEST_CASE("each variant keeps its own limit") {
  const SizedText card("cards = 2\n" + limited("0.3") +
                       board("boat", "front", "size = \"1 x 1\"\nalign = \"centre\"\n") +
                       board("wave", "inside", "size = \"2 x 1\"\nalign = \"centre\"\n") +
                       "[[variant]]\nname = \"thin\"\nset = { \"limit.thickness\" = \"0.2\" }\n");
  CHECK(card.plain().verdict == Verdict::buildable);
  CHECK(card.sized.versions[1].verdict == Verdict::conflict);
}

TEST_CASE("a card that is thin enough is never told to be too thick, whatever its layers are") {
  // Two strips that cross only in a window of the front.
  const std::string window =
      "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n";
  const std::string strips = board("across", "inside", "size = \"4 x 1\"\nalign = \"centre\"\n") +
                             board("down", "back", "size = \"1 x 4\"\nalign = \"centre\"\n");
  CHECK(SizedText(limited("0.21") + window + strips).sized.verdict == Verdict::buildable);
  CHECK(SizedText(limited("0.21") + strips).sized.verdict == Verdict::conflict);
  // A label in the gap between two copies, and one at an empty corner of a tilted layer's box.
  const auto label = [](const std::string& from) {
    return board("label", "back", "size = \"1/4 x 1/4\"\nfrom-top = 0\n" + from + "\n");
  };
  const std::string copies =
      board("dot", "front", "size = \"1 x 1\"\ncopies = 2\ngap = 2\nfrom-top = 0\nfrom-left = 0\n");
  CHECK(SizedText(limited("0.12") + copies + label("from-left = \"2\"")).sized.verdict == Verdict::buildable);
  CHECK(SizedText(limited("0.12") + copies + label("from-left = \"3 1/2\"")).sized.verdict ==
        Verdict::undecided);
  const std::string tilted =
      board("kite", "front", "size = \"2 x 2\"\ntilt = 45\nfrom-top = 0\nfrom-left = 0\n");
  CHECK(SizedText(limited("0.12") + tilted + label("from-right = 0")).sized.verdict == Verdict::buildable);
  CHECK(SizedText(limited("0.12") + tilted + label("from-right = \"1 1/4\"")).sized.verdict ==
        Verdict::undecided);
}
