// What the work itself gives up: worked out by hand, and against the weight of the cards that are left.
#include <map>

#include "solver/batch/offcuts.h"
#include "tests/catch.h"
#include "tests/solver/gathered.h"
#include "tests/solver/random_cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::string base(const std::string& fold, const std::string& keys = "") {
  return "[base]\nfold = \"" + fold + "\"\nfront = \"5 x 6\"\npaper = \"ivory\"\n" + keys;
}
std::string window(const std::string& name, const std::string& in, const std::string& size,
                   const std::string& keys = "") {
  return "[[window]]\nname = \"" + name + "\"\nin = \"" + in + "\"\nsize = \"" + size + "\"\n" + keys;
}
std::string ivory(const std::string& name, const std::string& on, const std::string& size,
                  const std::string& keys = "") {
  return layer(name, on, "paper = \"ivory\"\nsize = \"" + size + "\"\n" + keys);
}

Told offcuts(const std::string& card) { return offcuts_of(Batch(card).needs("ivory")); }

}  // namespace

TEST_CASE("a cut-back gives up a strip of every front, of a gate one of each door") {
  CHECK(offcuts("cards = 7\nspare = 1\n" + base("side", "cut-back = 1\n")) == Told{"8 of 1 x 6, of front"});
  CHECK(offcuts(base("top", "cut-back = 1\n")) == Told{"1 of 5 x 1, of front"});
  CHECK(offcuts(base("side", "cut-back = { edge = \"bottom\", by = \"3/4\" }\n")) ==
        Told{"1 of 5 x 3/4, of front"});
  CHECK(offcuts(base("z", "cut-back = 1\n")) == Told{"1 of 1 x 6, of front"});
  CHECK(offcuts("cards = 3\n" + base("gate", "cut-back = \"1/2\"\n")) == Told{"6 of 1/2 x 6, of front"});
  CHECK(offcuts(base("gate", "opens = \"top\"\ncut-back = \"1/2\"\n")) == Told{"2 of 5 x 1/2, of front"});
  // Of no use, or of no paper that is known.
  CHECK(offcuts(base("side", "cut-back = \"7/16\"\n")).empty());
  CHECK(offcuts_of(Batch("[base]\nfold = \"side\"\nfront = \"5 x 6\"\ncut-back = 1\n" +
                         ivory("mat", "front", "2 x 3"))
                       .needs("ivory"))
            .empty());
}

TEST_CASE("what is too narrow to be of use goes by the unit of its card") {
  const auto strip = [](const std::string& cut_back) {
    return offcuts(
        "unit = \"mm\"\n[base]\nfold = \"side\"\nfront = \"105 x 148\"\npaper = \"ivory\"\ncut-back = " +
        cut_back + "\n");
  };
  CHECK(strip("12") == Told{"1 of 12 x 148, of front"});
  CHECK(strip("11").empty());
}

TEST_CASE("windows give up what they open, in a face and in every copy of a layer") {
  CHECK(offcuts("cards = 4\n" + base("side") + window("door", "front", "2 x 3")) ==
        Told{"4 of 2 x 3, of door"});
  CHECK(offcuts(base("side") + ivory("mat", "front", "4 x 5") + window("door", "mat", "2 x 3")) ==
        Told{"1 of 2 x 3, of door"});
  CHECK(offcuts("cards = 2\n" + base("side") + ivory("tile", "front", "2 x 2", "copies = 2\n") +
                window("door", "tile", "1 x 3/4")) == Told{"4 of 1 x 3/4, of door"});
  // In other paper, in ink, or in what is bought as it is.
  CHECK(offcuts(base("side") + layer("mat", "front", "paper = \"moss\"\nsize = \"4 x 5\"\n") +
                window("door", "mat", "2 x 3"))
            .empty());
  CHECK(offcuts(base("side") + ivory("frame", "front", "4 x 5", "cut = \"ready-made\"\n") +
                window("door", "frame", "2 x 3"))
            .empty());
  CHECK(offcuts(base("side") + window("slot", "front", "3/8 x 3")).empty());
}

TEST_CASE("a window over both doors of a gate gives a piece of each") {
  // Doors of 2 1/2 less 1/16 in between them: each loses 2 in less half of that.
  const std::string gate = base("gate", "leaves = [\"2 1/4\", 5, \"2 1/4\"]\n");
  CHECK(offcuts(gate + window("both", "front", "4 x 3", "align = \"centre\"\n")) ==
        Told{"2 of 7/4 x 3, of both"});
  CHECK(offcuts(gate + window("one", "left front", "1 x 3")) == Told{"1 of 1 x 3, of one"});
}

TEST_CASE("windows of both sides of a leaf give up the paper between them once") {
  const std::string front = window("door", "front", "2 x 3", "from-left = 1\nfrom-top = 1\n");
  // Seen from behind, left and right change places.
  CHECK(offcuts(base("side") + front +
                window("again", "inside front", "2 x 3", "from-right = 2\nfrom-top = 2\n")) ==
        Told{"1 of 2 x 3, of door"});
  CHECK(offcuts(base("side") + front +
                window("beside", "inside front", "2 x 3", "from-left = 1\nfrom-top = 1\n")) ==
        Told{"1 of 2 x 3, of door"});
  CHECK(offcuts(base("side") + front +
                window("beside", "inside front", "1 x 3", "from-left = \"1/2\"\nfrom-top = 1\n")) ==
        Told{"1 of 2 x 3, of door", "1 of 1 x 3, of beside"});
}

TEST_CASE("the middle of a hollow mat is free under a layer that hides it, less a lip all round") {
  const auto middle = [](const std::string& keys, const std::string& others = "") {
    return offcuts("cards = 3\n" + base("side") + ivory("mat", "front", "4 x 5", "hollow = true\n") +
                   layer("panel", "mat", keys) + others);
  };
  const std::string panel = "size = \"3 1/2 x 4 1/2\"\nalign = \"centre\"\n";
  const Told whole{"3 of 3 x 4, of mat"};
  CHECK(middle(panel) == whole);
  CHECK(offcuts(base("side") + ivory("mat", "front", "4 x 5") + layer("panel", "mat", panel)).empty());
}

TEST_CASE("nothing of a mat is known to be hidden under what is no whole rectangle or lies aslant") {
  const auto middle = [](const std::string& keys, const std::string& others = "") {
    return offcuts(base("side") + ivory("mat", "front", "4 x 5", "hollow = true\n") +
                   layer("panel", "mat", "size = \"3 x 3\"\nalign = \"centre\"\n" + keys) + others);
  };
  const Told whole{"1 of 5/2 x 5/2, of mat"};
  CHECK(middle("") == whole);
  CHECK(middle("tilt = 90\n") == whole);
  CHECK(middle("raised = \"1/16\"\n") == whole);
  CHECK(middle("tilt = 5\n").empty());
  CHECK(middle("cut = \"die\"\n").empty());
  CHECK(middle("cut = \"by hand\"\n").empty());
  CHECK(middle("cut = \"ready-made\"\n").empty());
  CHECK(middle("stamped = true\n").empty());
  CHECK(middle("", window("hole", "panel", "1/4 x 1/4")).empty());
  // What lies over the panel lies on it; what lies under it is glued to the mat.
  CHECK(middle("", layer("boat", "mat",
                         "size = \"1 x 1\"\nover = [\"panel\"]\nfrom-left = 1\nfrom-top = 1\n")) == whole);
  const std::string boat = layer("boat", "mat", "size = \"1 x 1\"\nfrom-left = 1\nfrom-top = 2\n");
  CHECK(middle("over = [\"boat\"]\n", boat) == Told{"1 of 1/2 x 1/2, of mat"});  // under the boat itself
  CHECK(middle("over = [\"boat\"]\n", boat + "cut = \"die\"\n").empty());
  CHECK(middle("", layer("words", "panel", "size = \"1 x 1\"\n")) == whole);
}

TEST_CASE("two panels on a hollow mat leave a middle each, and copies none") {
  const std::string mat = base("side") + ivory("mat", "front", "4 x 5", "hollow = true\n");
  CHECK(offcuts(mat + layer("upper", "mat", "size = \"3 x 2\"\nalign = \"top\"\n") +
                layer("lower", "mat", "size = \"2 x 2\"\nalign = \"bottom\"\n")) ==
        Told{"1 of 5/2 x 3/2, of mat", "1 of 3/2 x 3/2, of mat"});
  CHECK(offcuts(mat + layer("tile", "mat", "size = \"1 1/2 x 2\"\ncopies = 2\n")).empty());
}

TEST_CASE("a layer that reaches past its hollow mat leaves the mat a lip of its own") {
  CHECK(offcuts(base("side") + ivory("mat", "front", "2 x 5", "hollow = true\nalign = \"centre\"\n") +
                layer("banner", "mat", "size = \"3 x 2\"\noverhang = \"1/2\"\nalign = \"centre\"\n")) ==
        Told{"1 of 3/2 x 3/2, of mat"});
}

TEST_CASE("variants of one size give up to one heap, of another to another") {
  const std::string card = "cards = 9\n" + base("side") + window("door", "front", "2 x 3") +
                           "[[variant]]\nname = \"a\"\ncards = 2\n"
                           "[[variant]]\nname = \"b\"\ncards = 3\nset = { \"door.size\" = \"2 x 2\" }\n";
  CHECK(offcuts(card) == Told{"6 of 2 x 3, of door", "3 of 2 x 2, of door"});
}

namespace {

// Square inches of all paper that is cut for one card, bases and layers as they are in the end.
Rational cut_area(const Batch& batch) {
  Rational area = 0;
  for (const batch::PaperNeeds& needs : batch.needs()) {
    for (const CutPiece& piece : needs.pieces) {
      for (const PieceUse& use : piece.uses) area += use.count * use.finished.width * use.finished.height;
    }
  }
  return area;
}

Rational given_up_area(const Batch& batch) {
  Rational area = 0;
  for (const batch::PaperNeeds& needs : batch.needs()) {
    for (const CutSheet& sheet : needs.stock) {
      if (sheet.from == CutSheet::From::cut_back || sheet.from == CutSheet::From::window)
        area += *sheet.have * sheet.size.width * sheet.size.height;
    }
  }
  return area;
}

// Square inches of paper in a card that is made of one paper, by its weight: 1 g/m2 to the square metre.
Rational weighed_area(const SizedVersion& version) {
  const Rational inches_per_metre = convert(1000, Unit::millimetre, Unit::inch);
  return version.closed->grams * inches_per_metre * inches_per_metre;
}

}  // namespace

TEST_CASE("what is cut less what comes off is what the card weighs") {
  const std::string light = paper("ivory", "weight = \"1 gsm\"\nsheet = \"12 x 20\"\n");
  const std::string door = window("door", "front", "2 x 3", "from-left = \"1/2\"\nfrom-top = \"1/2\"\n");
  const std::string inner = window("inner", "inside", "2 x 3", "from-left = \"1/2\"\nfrom-top = 1\n");
  const std::string behind =
      window("behind", "inside front", "1 x 1", "from-left = \"1/2\"\nfrom-bottom = 1\n");
  const std::string rear = window("rear", "back", "1 x 1", "from-left = 1\nfrom-bottom = \"1/2\"\n");
  const std::string frame =
      ivory("frame", "inside", "4 x 2", "align = \"bottom\"\n") + window("pane", "frame", "1 x 1") +
      ivory("tile", "frame", "3/4 x 3/4", "copies = 2\nabove = \"pane\"\nover = [\"pane\"]\n");
  const std::string panes =
      ivory("frame", "back", "1 1/2 x 2", "copies = 2\n") + window("pane", "frame", "1 x 1");
  const Told cards{
      base("side"),
      base("side", "cut-back = 1\n") + door + inner + behind,
      base("top", "cut-back = 1\n") + door + rear,
      base("z", "cut-back = 1\n") + door + behind,
      base("tri", "cut-back = \"1/2\"\n") + door + inner,
      base("gate", "cut-back = \"1/2\"\n") + window("both", "front", "4 x 3", "align = \"centre\"\n") + inner,
      base("gate", "cut-back = \"1/2\"\n") + window("one", "inside left front", "1 x 1") + rear,
      base("side") + panes + door};
  for (const std::string& card : cards) {
    INFO(card);
    const Batch batch(card + light);
    CHECK(cut_area(batch) - given_up_area(batch) == weighed_area(batch.sized.front().plain()));
  }
}

TEST_CASE("generated cards give up no more and no less than they come to weigh less") {
  int gave_up = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    Card card = card_of(random_card(seed));
    INFO(random_card(seed));
    card.cards = 1;
    card.variants.clear();
    Paper light;
    light.name.value = "ivory";
    light.grams_per_square_metre = Stated<Rational>{1, {}};
    card.papers = {light};
    card.design.base.paper = Stated<std::string>{"ivory", {}};
    for (Piece& piece : card.design.pieces) piece.paper = Stated<std::string>{"ivory", {}};
    const SizedCard sized = size_card(card, {});
    if (sized.verdict != Verdict::buildable) continue;
    const SizedVersion& version = sized.versions.front();
    const std::vector<BatchCard> cards{{"card.toml", &card, &sized}};
    const batch::Counts counts = batch::stated_counts(cards);
    const auto needs = batch::gather(cards, {}, {}, counts);
    REQUIRE(needs.size() == 1);
    Rational area = 0;
    for (const CutPiece& piece : needs.front().pieces) {
      for (const PieceUse& use : piece.uses) {
        area += use.count * use.finished.width * use.finished.height;
        const Rational larger = use.rough == Rough::none  ? 0
                                : card.unit == Unit::inch ? part(1, 4)
                                                          : Rational(6);
        Size size{use.finished.width + larger, use.finished.height + larger};
        if (use.turned) std::swap(size.width, size.height);
        CHECK(piece.size == size);
      }
    }
    for (const CutSheet& sheet : needs.front().stock) {
      REQUIRE(sheet.is_offcut());
      area -= *sheet.have * sheet.size.width * sheet.size.height;
      ++gave_up;
    }
    // What is too narrow to be kept.
    for (const PlacedPiece& placed : version.pieces) {
      if (placed.piece->kind != Piece::Kind::window) continue;
      const Rational least = card.unit == Unit::inch ? part(1, 2) : Rational(12);
      if (placed.width < least || placed.height < least) area -= placed.width * placed.height;
    }
    const Rational per_metre = convert(1000, Unit::millimetre, card.unit);
    CHECK(area == version.closed->grams * per_metre * per_metre);
  }
  CHECK(gave_up > 10);
}

TEST_CASE("kinds are apart only where something keeps them apart") {
  int turned = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    Dice dice(seed);
    std::string card =
        "cards = 3\n" + base(dice.any_of<std::string>({"flat", "side", "gate"})) +
        paper("ivory", "sheet = \"12 x 12\"\n" + std::string(dice.one_in(3) ? "up = true\n" : ""));
    std::map<std::pair<int, int>, int> wanted;  // by half inches
    for (int i = 0; i < 6; ++i) {
      const int width = dice.between(1, 4);
      const int height = dice.between(1, 4);
      const int copies = dice.between(1, 2);
      wanted[{width, height}] += 3 * copies;
      card += ivory("piece " + std::to_string(i), i % 2 == 0 ? "front" : "back",
                    std::to_string(width) + "/2 x " + std::to_string(height) + "/2",
                    "copies = " + std::to_string(copies) + "\nover = [" +
                        (i > 1 ? "\"piece " + std::to_string(i - 2) + "\"" : "") +
                        (i > 3 ? ", \"piece " + std::to_string(i - 4) + "\"" : "") + "]\n");
    }
    INFO(card);
    const auto needs = Batch(card).needs("ivory");
    std::map<std::pair<int, int>, int> had;
    for (std::size_t a = 0; a < needs.pieces.size(); ++a) {
      const CutPiece& piece = needs.pieces[a];
      int in_uses = 0;
      for (const PieceUse& use : piece.uses) {
        in_uses += use.count;
        turned += use.turned ? 1 : 0;
        if (use.base) continue;
        had[{static_cast<int>(use.finished.width * 2), static_cast<int>(use.finished.height * 2)}] +=
            use.count;
      }
      CHECK(in_uses == piece.count);
      for (std::size_t b = 0; b < a; ++b) {
        const CutPiece& other = needs.pieces[b];
        const Size swapped{other.size.height, other.size.width};
        const bool alike = piece.turned == other.turned && needs.may[a] == needs.may[b];
        CHECK_FALSE((alike && (piece.size == other.size || (piece.turned && piece.size == swapped))));
      }
    }
    CHECK(had == wanted);
  }
  CHECK(turned > 10);
}
