// Layers on every face of every fold: how large the faces are, and where what lies on them is, worked out by
// hand.
#include "tests/catch.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// A base that closes to 4 x 6.
std::string base(const std::string& keys) { return "[base]\nfront = \"4 x 6\"\n" + keys; }

// With a layer that covers each of the faces, of the face's name.
std::string covered(const std::string& keys, const std::vector<std::string>& faces) {
  std::string text = base(keys);
  for (const std::string& face : faces) text += layer("on " + face, face, "border = 0\n");
  return text;
}

struct Place {
  Rational left, top, width, height;
  bool operator==(const Place& other) const {
    return left == other.left && top == other.top && width == other.width && height == other.height;
  }
};
std::ostream& operator<<(std::ostream& out, const Place& place) {
  return out << Size{place.width, place.height} << " at " << Size{place.left, place.top};
}

Place place(const SizedText& card, const std::string& layer) {
  const PlacedPiece& placed = card.piece(layer);
  return {placed.left, placed.top, placed.width, placed.height};
}

// Where each face lies, told by what covers it.
void lie(const std::string& keys, const std::vector<std::pair<std::string, Place>>& faces) {
  INFO(keys);
  std::vector<std::string> names;
  for (const auto& face : faces) names.push_back(face.first);
  const SizedText card(covered(keys, names));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  for (const auto& [face, where] : faces) {
    INFO(face);
    CHECK(place(card, "on " + face) == where);
    if (face != "reveal") CHECK(card.piece("on " + face).face == face);
  }
}

}  // namespace

TEST_CASE("a side fold has four faces of one size") {
  for (const char* opens : {"", "opens = \"left\"\n"}) {
    lie("fold = \"side\"\n" + std::string(opens), {{"front", {0, 0, 4, 6}},
                                                   {"inside", {0, 0, 4, 6}},
                                                   {"inside front", {0, 0, 4, 6}},
                                                   {"back", {0, 0, 4, 6}}});
  }
}

TEST_CASE("a cut-back front is shorter on both its faces, and lays the inside open") {
  lie("fold = \"side\"\ncut-back = 1\n", {{"front", {0, 0, 3, 6}},
                                          {"inside", {0, 0, 4, 6}},
                                          {"inside front", {1, 0, 3, 6}},
                                          {"back", {0, 0, 4, 6}},
                                          {"reveal", {3, 0, 1, 6}}});
  lie("fold = \"side\"\nopens = \"left\"\ncut-back = 1\n",
      {{"front", {1, 0, 3, 6}}, {"inside front", {0, 0, 3, 6}}, {"reveal", {0, 0, 1, 6}}});
  lie("fold = \"side\"\ncut-back = { edge = \"top\", by = 1 }\n",
      {{"front", {0, 1, 4, 5}}, {"inside front", {0, 1, 4, 5}}, {"reveal", {0, 0, 4, 1}}});
  lie("fold = \"side\"\ncut-back = { edge = \"bottom\", by = 1 }\n",
      {{"front", {0, 0, 4, 5}}, {"inside front", {0, 0, 4, 5}}, {"reveal", {0, 5, 4, 1}}});
  lie("fold = \"top\"\ncut-back = 1\n",
      {{"front", {0, 0, 4, 5}}, {"inside front", {0, 1, 4, 5}}, {"reveal", {0, 5, 4, 1}}});
  lie("fold = \"top\"\ncut-back = { edge = \"left\", by = 1 }\n",
      {{"front", {1, 0, 3, 6}}, {"inside front", {1, 0, 3, 6}}, {"reveal", {0, 0, 1, 6}}});
  lie("fold = \"top\"\nopens = \"top\"\ncut-back = 1\n",
      {{"front", {0, 1, 4, 5}}, {"inside front", {0, 0, 4, 5}}, {"reveal", {0, 0, 4, 1}}});
}

TEST_CASE("a gate has a door on either side, its whole front, and a gap") {
  lie("fold = \"gate\"\nleaves = [1, 4, \"2 1/2\"]\n", {{"front", {0, 0, 4, 6}},
                                                        {"left front", {0, 0, 1, 6}},
                                                        {"right front", {part(3, 2), 0, part(5, 2), 6}},
                                                        {"inside", {0, 0, 4, 6}},
                                                        {"inside left front", {0, 0, 1, 6}},
                                                        {"inside right front", {0, 0, part(5, 2), 6}},
                                                        {"back", {0, 0, 4, 6}},
                                                        {"reveal", {1, 0, part(1, 2), 6}}});
  lie("fold = \"gate\"\nopens = \"top\"\nleaves = [2, 6, 3]\n", {{"front", {0, 0, 4, 6}},
                                                                 {"top front", {0, 0, 4, 2}},
                                                                 {"bottom front", {0, 3, 4, 3}},
                                                                 {"inside top front", {0, 0, 4, 2}},
                                                                 {"inside bottom front", {0, 0, 4, 3}},
                                                                 {"reveal", {0, 2, 4, 1}}});
}

TEST_CASE("the doors of a gate are each cut back by the amount") {
  lie("fold = \"gate\"\nleaves = [1, 4, \"2 1/2\"]\ncut-back = \"1/4\"\n",
      {{"front", {0, 0, 4, 6}},
       {"left front", {0, 0, part(3, 4), 6}},
       {"right front", {part(7, 4), 0, part(9, 4), 6}},
       {"inside left front", {part(1, 4), 0, part(3, 4), 6}},
       {"inside right front", {0, 0, part(9, 4), 6}},
       {"reveal", {part(3, 4), 0, 1, 6}}});
}

TEST_CASE("a z shows its second page beyond a short front, which folds at the right") {
  lie("fold = \"z\"\nleaves = [2, 2, 4]\n", {{"front", {0, 0, 2, 6}},
                                             {"inside", {0, 0, 2, 6}},
                                             {"inside back", {0, 0, 4, 6}},
                                             {"inside front", {0, 0, 2, 6}},
                                             {"inside middle", {0, 0, 2, 6}},
                                             {"back", {0, 0, 4, 6}},
                                             {"reveal", {2, 0, 2, 6}}});
  // Opening right, the same the other way round: the front lies at the right.
  lie("fold = \"z\"\nopens = \"right\"\nleaves = [4, 2, 2]\n", {{"front", {2, 0, 2, 6}},
                                                                {"inside", {2, 0, 2, 6}},
                                                                {"inside back", {0, 0, 4, 6}},
                                                                {"reveal", {0, 0, 2, 6}}});
  lie("fold = \"z\"\nopens = \"top\"\nleaves = [1, 3, 6]\n", {{"front", {0, 2, 4, 1}},
                                                              {"inside", {0, 0, 4, 3}},
                                                              {"inside back", {0, 0, 4, 6}},
                                                              {"back", {0, 0, 4, 6}}});
}

TEST_CASE("a z whose front is shorter than the leaf behind it shows that at its free edge") {
  lie("fold = \"z\"\nleaves = [3, 4, 4]\n", {{"front", {1, 0, 3, 6}}, {"reveal", {0, 0, 1, 6}}});
  lie("fold = \"z\"\ncut-back = 1\n",
      {{"front", {1, 0, 3, 6}}, {"inside front", {0, 0, 3, 6}}, {"reveal", {0, 0, 1, 6}}});
}

TEST_CASE("the flap of a tri fold hangs on the fold opposite the front's, a little shorter than its page") {
  lie("fold = \"tri\"\n", {{"front", {0, 0, 4, 6}},
                           {"flap", {part(1, 16), 0, part(63, 16), 6}},
                           {"inside flap", {0, 0, part(63, 16), 6}},
                           {"inside", {0, 0, 4, 6}},
                           {"inside front", {0, 0, 4, 6}},
                           {"back", {0, 0, 4, 6}}});
  lie("fold = \"tri\"\nopens = \"left\"\n", {{"front", {0, 0, 4, 6}}, {"flap", {0, 0, part(63, 16), 6}}});
  lie("fold = \"tri\"\nopens = \"top\"\nleaves = [5, 6, 6]\n",
      {{"front", {0, 0, 4, 6}}, {"flap", {0, 0, 4, 5}}, {"inside flap", {0, 0, 4, 5}}});
  // A page shorter than the front takes its flap along.
  lie("fold = \"tri\"\nleaves = [4, 3, 2]\n",
      {{"front", {0, 0, 4, 6}}, {"inside", {0, 0, 3, 6}}, {"flap", {1, 0, 2, 6}}});
}

TEST_CASE("behind the cut-back front of a tri fold lies the flap") {
  const SizedText card(base("fold = \"tri\"\ncut-back = 1\n") +
                       layer("strip", "reveal", "border = \"1/8\"\n"));
  CHECK(card.piece("strip").face == "flap");
  CHECK(place(card, "strip") == Place{part(25, 8), part(1, 8), part(3, 4), part(23, 4)});
}

TEST_CASE("a layer behind the doors of a gate is tucked under both of them") {
  const SizedText card(base("fold = \"gate\"\nleaves = [\"1 1/2\", 4, \"1 1/2\"]\n") +
                       layer("print", "reveal", "tuck = \"1/4\"\nborder = { down = \"1/2\" }\n"));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  CHECK(place(card, "print") == Place{part(5, 4), part(1, 2), part(3, 2), 5});
  CHECK(card.piece("print").from_left == -part(1, 4));
  CHECK(card.piece("print").from_right == -part(1, 4));
  CHECK(card.piece("print").face == "inside");
}

TEST_CASE("a tuck at a front reaches past its edge only, not past those of the card") {
  const SizedText card(base("fold = \"side\"\ncut-back = 1\n") +
                       layer("print", "reveal", "tuck = \"at least 1/2\"\nwidth = 2\nheight = 3\n"));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  CHECK(card.piece("print").from_left <= -part(1, 2));
  CHECK(card.piece("print").from_right >= 0);
  const SizedText wide(base("fold = \"side\"\ncut-back = 1\n") +
                       layer("print", "reveal", "tuck = \"at least 1/2\"\nwidth = \"4 1/4\"\n"));
  CHECK(wide.sized.verdict == Verdict::conflict);
}

TEST_CASE("what is behind an opening is glued to its page and cannot reach past that") {
  // Of the page behind the reveal, 4 wide, the short front leaves 2: the layer ends where the page does.
  const auto card = [](const std::string& tuck) {
    return SizedText(base("fold = \"z\"\nleaves = [3, 3, 4]\n") +
                     layer("print", "reveal", "tuck = \"" + tuck + "\"\nborder = { right = 0 }\n"));
  };
  CHECK(place(card("3"), "print").width == 4);
  CHECK(card("3 1/16").sized.verdict == Verdict::conflict);
}

TEST_CASE("a cut-back may be wished, and is chosen with what lies beside it") {
  const SizedText card(base("fold = \"side\"\ncut-back = \"1/2 to 2\"\n") +
                       layer("strip", "reveal", "border = \"1/8\"\nwidth = \"at least 1\"\n") +
                       layer("tag", "front", "width = \"2 5/8\"\n"));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  REQUIRE(card.plain().cut_back);
  CHECK(*card.plain().cut_back >= part(5, 4));
  CHECK(*card.plain().cut_back <= part(11, 8));
  CHECK_FALSE(card.plain().cut_back_stated);
  const SizedText gate(
      base("fold = \"gate\"\nleaves = [\"1 7/8\", 4, \"1 7/8\"]\ncut-back = \"1/8 to 1\"\n") +
      layer("strip", "reveal", "width = 1\nborder = \"1/8\"\n"));
  REQUIRE(gate.sized.verdict == Verdict::buildable);
  CHECK(gate.plain().cut_back == part(1, 2));
  CHECK(gate.piece("strip").left == part(3, 2));
}

TEST_CASE("a cut-back leaves some of the narrower door") {
  const SizedText card(base("fold = \"gate\"\nleaves = [1, 4, 2]\ncut-back = \"at least 1/2\"\n") +
                       layer("strip", "reveal", "width = \"3 1/4\"\n"));
  // The gap is 1, and the left door gives 1 at most less the mark that stays.
  CHECK(card.sized.verdict == Verdict::conflict);
  const SizedText fits(base("fold = \"gate\"\nleaves = [1, 4, 2]\ncut-back = \"at least 1/2\"\n") +
                       layer("strip", "reveal", "width = \"2 7/8\"\n"));
  CHECK(fits.sized.verdict == Verdict::buildable);
}

TEST_CASE("rules compare what looks the same way, on whatever leaf") {
  const SizedText card("rules = [\"low.left = high.left + 1/2\", \"low.top = last.top\"]\n" +
                       base("fold = \"z\"\n") + layer("high", "front", "size = \"1 x 1\"\nfrom-left = 1\n") +
                       layer("low", "inside", "size = \"1 x 1\"\n") +
                       layer("last", "inside back", "size = \"1 x 1\"\nfrom-top = 2\n"));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  CHECK(card.piece("low").left == part(3, 2));
  CHECK(card.piece("low").top == 2);
}

TEST_CASE("a layer across both doors of a gate lies on its whole front") {
  const SizedText card(base("fold = \"gate\"\n") +
                       layer("band", "front", "border = { across = \"1/4\", down = 2 }\n"));
  REQUIRE(card.sized.verdict == Verdict::buildable);
  CHECK(place(card, "band") == Place{part(1, 4), 2, part(7, 2), 2});
  CHECK(card.piece("band").shown.closed == 1);
}
