// The order of work for a base, fold by fold: what is told of cards whose folding is worked out from their
// file.
#include "cli/making.h"

#include <algorithm>
#include <list>

#include "tests/catch.h"

using namespace evenmat;

namespace {

Rational part(int numerator, int denominator) { return Rational(numerator) / denominator; }

// A card of one version on a front of 4 1/4 x 5 1/2 in.
struct Example {
  Card card;
  SizedVersion version;
  std::list<Piece> windows;  // a list, as placed pieces point into it

  explicit Example(Fold fold) {
    card.mark = part(1, 16);
    card.design.base.fold.value = fold;
    card.design.base.front.size = {part(17, 4), part(11, 2)};
    card.design.base.allowance = {part(1, 16), part(1, 16), 0};
  }
  Example(const Example&) = delete;
  Example& operator=(const Example&) = delete;

  Base& base() { return card.design.base; }
  void cut_back(Edge edge, const Rational& by) {
    base().cut_back = CutBack{edge, {}};
    version.cut_back = by;
  }
  // 1 x 2 in, 1/2 in from the left of the face and 3/4 in from its top.
  void add_window(const std::string& name, const std::string& in) {
    Piece& window = windows.emplace_back();
    window.kind = Piece::Kind::window;
    window.name.value = name;
    window.on.value = in;
    PlacedPiece& placed = version.pieces.emplace_back();
    placed.piece = &window;
    placed.left = part(1, 2);
    placed.top = part(3, 4);
    placed.box_width = placed.width = 1;
    placed.box_height = placed.height = 2;
  }

  Making making() {
    version.folding = folding_of(base());
    return making_of(card, card.design, version);
  }
  std::string order() { return all(making().order); }
  std::string lies() { return all(making().lies); }

 private:
  static std::string all(const std::vector<std::string>& sentences) {
    std::string text;
    for (const std::string& one : sentences) text += one + "\n";
    return text;
  }
};

bool has(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

// Whether each is said, and after the one before.
bool in_order(const std::string& text, const std::vector<std::string_view>& wanted) {
  std::size_t at = 0;
  return std::all_of(wanted.begin(), wanted.end(), [&](std::string_view one) {
    at = text.find(one, at);
    return at != std::string::npos;
  });
}

}  // namespace

TEST_CASE("a side fold is scored from what comes outside, then its front is folded over") {
  Example card(Fold::side);
  CHECK(card.order() ==
        "Cut the blank, 8 1/2 x 5 1/2 in.\n"
        "Lay it inside up. Its score is 4 1/4 in from its left edge and folds towards you (a valley).\n"
        "Score it before folding, turned over with its left edge still at the left, so that the ridge comes "
        "inside the fold.\n"
        "With its inside up again, fold the front towards you.\n");
  CHECK(card.lies() ==
        "Closed, front to back: front, back leaf.\n"
        "Opened out, from left to right: inside front, inside.\n");
  card.base().opens = Stated<Edge>{Edge::left, {}};
  CHECK(has(card.lies(), "from left to right: inside, inside front."));
}

TEST_CASE("a top fold is measured from the top, and its front's own back is the other way up") {
  Example card(Fold::top);
  CHECK(has(card.order(), "5 1/2 in from its top edge"));
  CHECK(has(card.order(), "turned over with its top edge still at the top"));
  CHECK(has(card.lies(), "from top to bottom: inside front, inside.\n"));
  CHECK(has(card.lies(), "Which way is up: the top of inside front lies behind the bottom of front.\n"));
  CHECK_FALSE(has(Example(Fold::side).lies(), "way is up"));
}

TEST_CASE("both doors of a gate are folded, side by side on its back") {
  Example card(Fold::gate);
  CHECK(has(
      card.order(),
      "Its scores, from its left edge: 2 3/32 in, folds towards you (a valley); 6 11/32 in, folds towards "
      "you (a valley).\n"));
  CHECK(has(card.order(), "fold both doors towards you.\n"));
  CHECK(card.lies() ==
        "Closed, front to back: left door beside right door, back leaf.\n"
        "Opened out, from left to right: inside left front, inside, inside right front.\n");
  card.base().opens = Stated<Edge>{Edge::top, {}};
  CHECK(has(card.lies(),
            "Which way is up: the top of inside top front lies behind the bottom of top front and the top of "
            "inside bottom front lies behind the bottom of bottom front.\n"));
}

TEST_CASE("the flap of a tri fold is folded first and lies in the middle") {
  Example card(Fold::tri);
  CHECK(has(card.order(), "fold the flap towards you first, then the front.\n"));
  CHECK(has(card.lies(), "Closed, front to back: front, flap, back leaf.\n"));
  CHECK(has(card.lies(), "Opened out, from left to right: inside front, inside, inside flap.\n"));
}

TEST_CASE("a z lies front up, and is scored from both sides") {
  Example card(Fold::z);
  card.base().front.size = {part(11, 2), part(17, 4)};
  card.base().leaves = {{part(11, 4), {}}, {part(11, 4), {}}, {part(11, 2), {}}};
  CHECK(card.order() ==
        "Cut the blank, 11 x 4 1/4 in.\n"
        "Lay it front up. Its scores, from its left edge: 2 3/4 in, folds away from you (a mountain); 5 1/2 "
        "in, "
        "folds towards you (a valley).\n"
        "Score it before folding, so that each ridge comes inside its fold: what folds away from you as it "
        "lies, "
        "what folds towards you turned over with its left edge still at the left.\n"
        "With its front up again, fold the back leaf towards you first, then the front away from you.\n");
  CHECK(card.lies() ==
        "Closed, front to back: front, middle leaf, back leaf.\n"
        "Opened out, from left to right: front, inside middle, inside back.\n");
}

TEST_CASE("an extra score folds against the fold beside it, and last") {
  Example card(Fold::side);
  card.base().scores = {{part(51, 8), {}}};
  CHECK(has(card.order(),
            "4 1/4 in, folds towards you (a valley); 6 3/8 in, folds away from you (a mountain), against the "
            "fold beside it.\n"));
  CHECK(in_order(card.order(), {"fold the front towards you.\n", "Fold the extra score last.\n"}));
}

TEST_CASE("a front is cut back once it is folded, alone under the blade") {
  Example card(Fold::side);
  CHECK_FALSE(has(card.order(), "trim"));
  card.cut_back(Edge::right, 1);
  CHECK(in_order(card.order(), {"fold the front",
                                "Once it is folded, and before any layer goes on it, trim 1 in off "
                                "the front's right edge, with only the front leaf under the "
                                "blade: a blank that is trimmed first gives only a smaller "
                                "plain card.\n"}));
  Example gate(Fold::gate);
  gate.cut_back(Edge::right, part(1, 2));
  CHECK(has(gate.order(),
            "trim 1/2 in off each door where the doors meet, with only that door under the blade"));
}

TEST_CASE("windows are cut while the base lies flat, before layers go on") {
  Example card(Fold::side);
  card.add_window("porthole", "front");
  card.add_window("pane", "sea mat");
  CHECK(in_order(card.order(),
                 {"Lay it",
                  "With its inside up, while the base lies flat and before any layer goes on it, cut the "
                  "window porthole in the front: 1 x 2, 2 3/4 from the left and 3/4 in from the top edge of "
                  "the blank.\n",
                  "Cut the window pane in sea mat before that layer is glued on.\n", "fold the front"}));
  card.add_window("hatch", "inside");
  card.add_window("slot", "name tag");
  CHECK(has(card.order(),
            "cut the windows porthole in the front: 1 x 2, 2 3/4 from the left and 3/4 in from the top edge "
            "of the blank; hatch in the inside: 1 x 2, 4 3/4 from the left and 3/4 in from the top edge of "
            "the blank.\n"));
  CHECK(has(card.order(),
            "Cut the windows pane in sea mat and slot in name tag before those layers are glued on.\n"));
}

// Worked by hand: the fronts' own backs look up, so what is 1/2 from the front's left is 1/2 from the right
// of that, 4 1/4 - 1/2 - 1 = 2 3/4 from its left; below a top fold's 5 1/2 - 3/4 - 2 = 2 3/4 from the top.
TEST_CASE("a window is told where it lies on the flat blank with the side up that is scored") {
  const auto place = [](Fold fold, const std::string& face) {
    Example card(fold);
    card.add_window("pane", face);
    const std::string order = card.order();
    const std::size_t from = order.find(face + ": ");
    REQUIRE(from != std::string::npos);
    return order.substr(from, order.find('\n', from) - from);
  };
  CHECK(place(Fold::top, "front") ==
        "front: 1 x 2, 1/2 from the left and 2 3/4 in from the top edge of the blank.");
  CHECK(place(Fold::top, "inside front") ==
        "inside front: 1 x 2, 1/2 from the left and 3/4 in from the top edge of the blank.");
  CHECK(place(Fold::top, "inside") ==
        "inside: 1 x 2, 1/2 from the left and 6 1/4 in from the top edge of the blank.");
  // The card is turned over sideways to look at its back.
  CHECK(place(Fold::top, "back") ==
        "back: 1 x 2, 2 3/4 from the left and 6 1/4 in from the top edge of the blank.");
  CHECK(place(Fold::side, "back") ==
        "back: 1 x 2, 7 from the left and 3/4 in from the top edge of the blank.");
  CHECK(place(Fold::flat, "front") ==
        "front: 1 x 2, 1/2 from the left and 3/4 in from the top edge of the blank.");
  CHECK(place(Fold::flat, "back") ==
        "back: 1 x 2, 2 3/4 from the left and 3/4 in from the top edge of the blank.");
  // A z of three leaves of 4 1/4 lies front up, its middle leaf shows its other side: 4 1/4 + 2 3/4.
  CHECK(place(Fold::z, "front") ==
        "front: 1 x 2, 1/2 from the left and 3/4 in from the top edge of the blank.");
  CHECK(place(Fold::z, "inside middle") ==
        "inside middle: 1 x 2, 4 3/4 from the left and 3/4 in from the top edge of the blank.");
  CHECK(place(Fold::z, "inside") ==
        "inside: 1 x 2, 7 from the left and 3/4 in from the top edge of the blank.");
}

// Doors of 2 3/32 with 1/16 between them. A window from 1/2 to 1 1/2 is in the left one alone: 2 3/32 - 1 1/2
// = 19/32 from the blank's left. From 1 1/2 to 3 it takes the last 19/32 of the left door, at the blank's
// left edge, and 3 - 2 5/32 = 27/32 of the right one, which begins 6 11/32 + 4 1/4 - 3 = 7 19/32 from there.
TEST_CASE("a window in the front of a gate is told for each door it goes through") {
  Example gate(Fold::gate);
  gate.add_window("porthole", "front");
  CHECK(
      has(gate.order(),
          "porthole in the front: 1 x 2, 19/32 from the left and 3/4 in from the top edge of the blank.\n"));
  gate.version.pieces.front().left = part(3, 2);
  gate.version.pieces.front().box_width = part(3, 2);
  CHECK(has(gate.order(),
            "porthole in the front (through both doors): 19/32 x 2, 0 from the left and 3/4 in from the top "
            "edge of the blank and 27/32 x 2, 7 19/32 from the left and 3/4 in from the top edge of the "
            "blank.\n"));
}

TEST_CASE("the grain is told where it is known, and what to do about it") {
  Example card(Fold::side);
  CHECK_FALSE(has(card.order(), "grain"));
  card.version.grain = GrainAtFold::along;
  CHECK(has(card.order(), "\nIt folds with the grain.\n"));
  card.version.grain = GrainAtFold::across;
  CHECK(
      has(card.order(),
          "It folds against the grain: score it deeply, or cut the blank the other way from a sheet that is "
          "large enough.\n"));
  card.version.grain = GrainAtFold::either;
  CHECK(has(card.order(), "Turn the blank on the sheet so that it folds with the grain"));
}

TEST_CASE("a flat base has a blank and nothing to fold") {
  Example card(Fold::flat);
  card.base().paper = Stated<std::string>{"ivory", {}};
  CHECK(card.order() == "Cut the blank from ivory, 4 1/4 x 5 1/2 in.\n");
  CHECK(card.lies().empty());
}

TEST_CASE("the order of work is told in the card's unit") {
  Example card(Fold::side);
  card.card.unit = Unit::millimetre;
  card.base().front.size = {105, 148};
  CHECK(has(card.order(), "Cut the blank, 210 x 148 mm.\n"));
  CHECK(has(card.order(), "105 mm from its left edge"));
}

TEST_CASE("of a card that was not found there is nothing to make") {
  const Example card(Fold::side);
  CHECK(making_of(card.card, card.card.design, card.version).order.empty());
}
