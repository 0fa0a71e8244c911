// Layers of which all is to be seen: held against what is seen of them wherever the others lie, and worked
// out by hand.
#include "solver/body/closed_card.h"
#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string all = "show = \"all\"\n";
std::string base(const std::string& fold) { return "[base]\nfront = \"4 x 4\"\n" + fold; }
const std::string side = "fold = \"side\"\n";
std::string window(const std::string& in,
                   const std::string& keys = "size = \"2 x 2\"\nalign = \"centre\"\n") {
  return "[[window]]\nname = \"hole\"\nin = \"" + in + "\"\n" + keys;
}

Verdict verdict(const std::string& text) {
  INFO(text);
  return SizedText(text).sized.verdict;
}

// A card of which all of "shown" is to be seen, and its last layer, or the one on that, is free to move.
class ShownCard {
 public:
  explicit ShownCard(unsigned seed) : dice_(seed) {}

  std::string text() {
    const bool through = dice_.one_in(3);
    std::string text = base(side + (dice_.one_in(4) ? "cut-back = 1\n" : ""));
    if (through) {
      text += window("front", "size = \"" + half(2, 4) + " x " + half(2, 4) + "\"\nfrom-left = \"" +
                                  half(1, 2) + "\"\nfrom-top = \"" + half(1, 3) + "\"\n");
    }
    const std::string ground = through ? "inside" : "front";
    text += layer("under", ground,
                  "size = \"" + half(3, 6) + " x " + half(3, 6) + "\"\nfrom-left = \"" + half(0, 1) +
                      "\"\nfrom-top = \"" + half(0, 1) + "\"\n");
    const std::string on = through && dice_.one_in(2) ? "hole" : dice_.one_in(2) ? "under" : ground;
    text += layer("shown", on,
                  "size = \"" + half(1, 3) + " x " + half(1, 3) + "\"\nfrom-left = \"" + half(0, 2) +
                      "\"\nfrom-top = \"" + half(0, 2) + "\"\n" +
                      (on == ground ? "over = [\"under\"]\n" : "") + all);
    const std::string free_on =
        dice_.any_of<std::string>({"front", on == "hole" ? "front" : on, "under", "shown", "inside"});
    text += layer("free", free_on,
                  "size = \"" + half(1, 4) + " x " + half(1, 4) + "\"\n" + over(free_on, on, ground) +
                      (dice_.one_in(4) ? "overhang = \"at most 1/2\"\n" : ""));
    return text;
  }

 private:
  std::string half(int least, int most) { return std::to_string(dice_.between(least, most)) + "/2"; }
  // May lie over what is on the same thing, or under it.
  std::string over(const std::string& free_on, const std::string& shown_on, const std::string& ground) {
    std::string names;
    if (free_on == shown_on && dice_.one_in(2)) names = "\"shown\"";
    if (free_on == ground) names += std::string(names.empty() ? "" : ", ") + "\"under\"";
    return names.empty() ? "" : "over = [" + names + "]\n";
  }

  Dice dice_;
};

const PlacedPiece& named(const SizedVersion& version, const std::string& name) {
  return *std::find_if(version.pieces.begin(), version.pieces.end(),
                       [&](const PlacedPiece& one) { return one.piece->name.value == name; });
}

Rational share(const SizedVersion& version) {
  const PlacedPiece& shown = named(version, "shown");
  return shown.piece->on.value == "hole" ? shown.shown.closed : shown.shown.open;
}

// Whether at some place of "free", a quarter apart, all of "shown" is seen.
bool can_be_seen(const Card& card, SizedVersion version) {
  PlacedPiece& free = version.pieces.back();
  const Rational more = free.piece->overhang ? part(1, 2) : Rational(0);
  const Rational low_x = free.left - free.from_left - more;
  const Rational low_y = free.top - free.from_top - more;
  const Rational high_x = free.left + free.from_right + more;
  const Rational high_y = free.top + free.from_bottom + more;
  for (Rational x = low_x; x <= high_x; x += part(1, 4)) {
    for (Rational y = low_y; y <= high_y; y += part(1, 4)) {
      free.left = x;
      free.top = y;
      const bool taken =
          std::any_of(version.pieces.begin(), version.pieces.end() - 1, [&](const PlacedPiece& other) {
            const auto names = [](const Piece& piece, const Piece& another) {
              return std::any_of(piece.over.begin(), piece.over.end(),
                                 [&](const Name& name) { return name.value == another.name.value; });
            };
            return other.piece->kind == Piece::Kind::layer && other.piece->on.value == free.piece->on.value &&
                   !names(*free.piece, *other.piece) && !names(*other.piece, *free.piece) &&
                   x < other.left + other.width && other.left < x + free.width &&
                   y < other.top + other.height && other.top < y + free.height;
          });
      if (taken) continue;
      const std::vector<Shown> shown = shown_of(card, card.design, version);
      for (std::size_t i = 0; i < shown.size(); ++i) version.pieces[i].shown = shown[i];
      if (share(version) == 1) return true;
    }
  }
  return false;
}

std::string without(std::string text, const std::string& key) {
  const auto at = text.find(key);
  if (at != std::string::npos) text.erase(at, key.size());
  return text;
}

}  // namespace

TEST_CASE("all of a layer is seen wherever a card can be built so, and no card is refused that could be") {
  int kept = 0;
  int refused = 0;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    const std::string text = ShownCard(seed).text();
    INFO("seed " << seed << "\n" << text);
    const SizedText plain(without(text, all));
    if (plain.sized.verdict != Verdict::buildable) continue;
    const SizedText card(text);
    const bool possible = can_be_seen(plain.card, plain.plain());
    CHECK(card.sized.verdict == (possible ? Verdict::buildable : Verdict::conflict));
    if (card.sized.verdict == Verdict::buildable) CHECK(share(card.plain()) == 1);
    ++(possible ? kept : refused);
  }
  CHECK(kept > 40);
  CHECK(refused > 10);
}

TEST_CASE("what is on a layer that is seen whole finds no room on it") {
  const std::string shown = layer("shown", "front", "size = \"2 x 2\"\n" + all);
  CHECK(verdict(base(side) + shown + layer("tag", "shown", "size = \"1 x 1\"\n")) == Verdict::conflict);
  CHECK(verdict(base(side) + shown + layer("tag", "shown", "size = \"1 x 1\"\noverhang = \"at most 1\"\n")) ==
        Verdict::buildable);
}

TEST_CASE("what is over a layer that is seen whole lies beside it") {
  const auto card = [](const std::string& size) {
    return SizedText(base(side) + layer("shown", "front", "size = \"2 x 4\"\nfrom-left = 0\n" + all) +
                     layer("tag", "front", "over = [\"shown\"]\nsize = \"" + size + "\"\n"));
  };
  CHECK(card("2 x 1").piece("tag").left == 2);
  CHECK(card("2 1/16 x 1").sized.verdict == Verdict::conflict);
}

TEST_CASE("a layer seen whole behind a window is covered neither by the window's edge nor by what is on it") {
  const std::string print = layer("print", "hole", "size = \"1 x 1\"\nfrom-left = 0\nfrom-top = 0\n" + all);
  CHECK(verdict(base(side) + window("front") + print) == Verdict::buildable);
  CHECK(verdict(base(side) + window("front") + layer("print", "hole", "tuck = \"1/8\"\n" + all)) ==
        Verdict::conflict);
  // A band on the front keeps off the print.
  const auto band = [&](const std::string& size) {
    return SizedText(base(side) + window("front") + print +
                     layer("band", "front", "size = \"" + size + "\"\nalign = \"centre across\"\n"));
  };
  const SizedText clear(base(side) + window("front") + print + layer("band", "front", "size = \"4 x 1\"\n"));
  REQUIRE(clear.sized.verdict == Verdict::buildable);
  CHECK(clear.piece("print").shown.closed == 1);
  CHECK(band("4 x 2").sized.verdict == Verdict::buildable);
  CHECK(band("4 x 2 1/16").sized.verdict == Verdict::conflict);
}

TEST_CASE("a paper glued behind the window hides what lies farther in, and keeps off what is to be seen") {
  const std::string print = layer("print", "hole", "size = \"1 x 1\"\nfrom-left = 0\nfrom-top = 0\n" + all);
  const auto veil = [&](const std::string& keys) {
    return SizedText(base(side) + window("front") + print + layer("veil", "inside front", keys));
  };
  const SizedText free = veil("size = \"3 x 1\"\n");
  CHECK(free.sized.verdict == Verdict::buildable);
  CHECK(free.piece("print").shown.closed == 1);
  CHECK(veil("border = 0\n").sized.verdict == Verdict::conflict);
}

TEST_CASE("through a window in what is over it all of a layer can be seen") {
  const auto framed = [](const std::string& hole) {
    return SizedText(base(side) + layer("print", "front", "size = \"1 x 1\"\n" + all) +
                     layer("frame", "front", "size = \"3 x 3\"\nalign = \"centre\"\nover = [\"print\"]\n") +
                     window("frame", "size = \"" + hole + "\"\nalign = \"centre\"\n"));
  };
  const SizedText seen = framed("2 x 2");
  REQUIRE(seen.sized.verdict == Verdict::buildable);
  CHECK(seen.piece("print").shown.open == 1);
  CHECK(framed("1/2 x 1/2").sized.verdict == Verdict::conflict);
}

TEST_CASE("a layer on the reveal between doors that is seen whole is not covered by a band across them") {
  const auto band = [](const std::string& height) {
    return SizedText(
        base("fold = \"gate\"\nleaves = [1, 4, 1]\n") +
        layer("print", "reveal", "size = \"1 x 1\"\nfrom-top = 1\nalign = \"centre across\"\n" + all) +
        layer("band", "front", "border = { across = 0 }\nheight = \"" + height + "\"\n"));
  };
  const SizedText clear = band("2");
  REQUIRE(clear.sized.verdict == Verdict::buildable);
  CHECK(clear.piece("band").top == 2);
  CHECK(clear.piece("print").shown.closed == 1);
  CHECK(band("2 1/16").sized.verdict == Verdict::conflict);
}

TEST_CASE("what lies on another face than a layer that is seen whole leaves it in peace") {
  CHECK(verdict(base(side) + layer("print", "inside", "border = 0\n" + all) +
                layer("mat", "front", "border = 0\n") + layer("note", "inside front", "border = 0\n")) ==
        Verdict::buildable);
}

TEST_CASE("a conflict over what is to be seen speaks of it in a maker's words") {
  const SizedText card(base(side) + layer("print", "front", "border = 0\n" + all) + layer("tag", "print"));
  REQUIRE(card.sized.verdict == Verdict::conflict);
  REQUIRE_FALSE(card.sized.clash.empty());
  CHECK(card.sized.clash.back().says == "all of print is seen, so tag does not lie on it");
}
