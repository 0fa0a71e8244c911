// How bases are made from their blanks: strips of paper are folded by the scores that are told, and must
// close to the card that is told.
#include "model/folding.h"

#include <algorithm>
#include <iterator>

#include "model/faces.h"
#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/model/strip.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

Rational along(const Folding& folding, const Size& size) { return folding.across ? size.width : size.height; }

std::vector<Edge> openings(Fold fold) {
  switch (fold) {
    case Fold::flat:
      return {};
    case Fold::side:
      return {Edge::right, Edge::left};
    case Fold::top:
      return {Edge::bottom, Edge::top};
    case Fold::gate:
    case Fold::z:
    case Fold::tri:
      break;
  }
  return {Edge::left, Edge::right, Edge::top, Edge::bottom};
}

Base plain(Fold fold, const Size& front, std::optional<Edge> opens = std::nullopt) {
  Base base;
  base.fold.value = fold;
  base.front.size = front;
  if (opens) base.opens = {*opens, {}};
  base.allowance = {part(1, 16), part(1, 16), 0};
  return base;
}

// Portrait, landscape, square and slimline.
const std::vector<Size> formats = {{part(17, 4), part(11, 2)},
                                   {part(11, 2), part(17, 4)},
                                   {part(21, 4), part(21, 4)},
                                   {part(7, 2), part(17, 2)}};

// Every fold, the ways it opens, formats, allowances.
std::vector<Base> usual_bases() {
  std::vector<Base> all;
  for (const Fold fold : {Fold::side, Fold::top, Fold::gate, Fold::z, Fold::tri}) {
    for (const Edge opens : openings(fold)) {
      for (const Size& front : formats) {
        for (const Rational& fold_takes : {Rational(0), part(1, 32)}) {
          Base base = plain(fold, front, opens);
          base.allowance = {part(1, 32), part(3, 32), fold_takes};
          all.push_back(base);
        }
      }
    }
    all.push_back(plain(fold, formats.front()));
  }
  return all;
}

void state_leaves(Base& base, const std::vector<Rational>& lengths) {
  base.leaves.clear();
  for (const Rational& length : lengths) base.leaves.push_back({length, {}});
}

Base with_leaves(Fold fold, const Size& front, const std::vector<Rational>& lengths,
                 std::optional<Edge> opens = std::nullopt) {
  Base base = plain(fold, front, opens);
  state_leaves(base, lengths);
  return base;
}

// Leaves of whole and half lengths that make a card, and others that do not.
std::vector<Base> bases_with_stated_leaves() {
  std::vector<Base> all;
  Dice dice(7);
  for (int i = 0; i < 600; ++i) {
    const Fold fold = dice.any_of<Fold>({Fold::side, Fold::top, Fold::gate, Fold::z, Fold::tri});
    Base base = plain(fold, {4, 4}, dice.any_of(openings(fold)));
    const std::size_t count = fold == Fold::side || fold == Fold::top ? 2 : 3;
    std::vector<Rational> lengths;
    for (std::size_t leaf = 0; leaf < count; ++leaf)
      lengths.push_back(dice.one_in(3) ? Rational(4) : part(dice.between(1, 9), 2));
    state_leaves(base, lengths);
    if (dice.one_in(2)) base.allowance.fold = part(1, 8);
    all.push_back(base);
  }
  return all;
}

std::vector<Base> foldable_bases() {
  std::vector<Base> all = usual_bases();
  for (const Base& base : bases_with_stated_leaves()) {
    if (trouble_with_leaves(base, Unit::inch).empty()) all.push_back(base);
  }
  REQUIRE(all.size() > 250);
  return all;
}

std::string told(const Base& base) {
  static const char* const folds[] = {"flat", "side", "top", "gate", "z", "tri"};
  std::string text = folds[static_cast<int>(base.fold.value)];
  if (base.opens) text += " opening " + std::string(edge_name(base.opens->value));
  text += ", front " + fraction_text(base.front.size.width) + " x " + fraction_text(base.front.size.height);
  for (const auto& leaf : base.leaves) text += ", " + fraction_text(leaf.value);
  return text;
}

std::vector<Rational> places(const Folding& folding) {
  std::vector<Rational> at;
  for (const ScoreLine& score : folding.scores) at.push_back(score.at);
  return at;
}

Edge other_way(Edge edge) { return opposite(edge); }

}  // namespace

TEST_CASE("the leaves of every fold add up to its blank less what the folds take") {
  for (const Base& base : foldable_bases()) {
    INFO(told(base));
    const Folding folding = folding_of(base);
    Rational total = 0;
    for (const Leaf& leaf : folding.leaves) total += leaf.length;
    const auto folds = static_cast<long long>(folding.leaves.size()) - 1;
    CHECK(along(folding, folding.blank) == total + folds * base.allowance.fold);
    CHECK((folding.across ? folding.blank.height : folding.blank.width) ==
          (folding.across ? base.front.size.height : base.front.size.width));
  }
}

TEST_CASE("each score lies in the middle of what its fold takes between two leaves") {
  for (const Base& base : foldable_bases()) {
    INFO(told(base));
    const Folding folding = folding_of(base);
    REQUIRE(folding.scores.size() + 1 == folding.leaves.size());
    CHECK(folding.leaves.front().from == 0);
    for (std::size_t i = 0; i < folding.scores.size(); ++i) {
      const Leaf& before = folding.leaves[i];
      const Leaf& beyond = folding.leaves[i + 1];
      CHECK(beyond.from - before.from - before.length == base.allowance.fold);
      CHECK(2 * folding.scores[i].at == before.from + before.length + beyond.from);
    }
    CHECK(folding.leaves.back().from + folding.leaves.back().length == along(folding, folding.blank));
  }
}

TEST_CASE("a strip folded by the scores in the order told closes to the card that is told") {
  for (const Base& base : foldable_bases()) {
    INFO(told(base));
    const Folding folding = folding_of(base);
    const std::vector<StripLeaf> strip = closed_strip(folding);
    for (std::size_t i = 0; i < strip.size(); ++i) {
      const Leaf& leaf = folding.leaves[i];
      INFO(leaf.name);
      CHECK(strip[i].from == leaf.closed_from);
      CHECK(strip[i].to - strip[i].from == leaf.length);
      CHECK(strip[i].turned_over != leaf.toward_up);
    }
  }
}

TEST_CASE("leaves lie over one another as told") {
  for (const Base& base : foldable_bases()) {
    INFO(told(base));
    const Folding folding = folding_of(base);
    const std::vector<StripLeaf> strip = closed_strip(folding);
    for (std::size_t i = 0; i < strip.size(); ++i) {
      for (std::size_t j = 0; j < strip.size(); ++j) {
        if (i == j || strip[i].to <= strip[j].from || strip[j].to <= strip[i].from) continue;
        INFO(folding.leaves[i].name << " and " << folding.leaves[j].name);
        CHECK((strip[i].level > strip[j].level) == (folding.leaves[i].depth < folding.leaves[j].depth));
      }
    }
  }
}

TEST_CASE("a base without trouble closes to its front, edge to edge") {
  for (const Base& base : foldable_bases()) {
    INFO(told(base));
    const Folding folding = folding_of(base);
    Rational end = 0;
    for (const StripLeaf& leaf : closed_strip(folding)) end = std::max(end, leaf.to);
    CHECK(end == along(folding, base.front.size));
  }
}

TEST_CASE("leaves that close to something else than the front are told") {
  int seen = 0;
  for (const Base& base : bases_with_stated_leaves()) {
    const Folding folding = folding_of(base);
    Rational end = 0;
    const std::vector<StripLeaf> strip = closed_strip(folding);
    for (const StripLeaf& leaf : strip) end = std::max(end, leaf.to);
    if (end == 4) continue;
    ++seen;
    INFO(told(base));
    CHECK_FALSE(trouble_with_leaves(base, Unit::inch).empty());
  }
  CHECK(seen > 100);
}

TEST_CASE("a card that opens the other way is the mirror image") {
  for (const Base& base : foldable_bases()) {
    if (!base.opens || base.fold.value == Fold::gate) continue;
    INFO(told(base));
    Base mirror = base;
    mirror.opens->value = other_way(base.opens->value);
    std::reverse(mirror.leaves.begin(), mirror.leaves.end());
    const Folding one = folding_of(base);
    const Folding other = folding_of(mirror);
    CHECK(one.across == other.across);
    CHECK(one.blank == other.blank);
    CHECK(one.front_up == other.front_up);
    const Rational whole = along(one, base.front.size);
    for (std::size_t i = 0; i < one.leaves.size(); ++i) {
      const Leaf& a = one.leaves[i];
      const Leaf& b = other.leaves[one.leaves.size() - 1 - i];
      CHECK((a.name == b.name && a.toward == b.toward && a.away == b.away));
      CHECK((a.length == b.length && a.depth == b.depth && a.toward_up == b.toward_up));
      CHECK(a.closed_from == whole - b.closed_from - b.length);
    }
    for (std::size_t i = 0; i < one.scores.size(); ++i) {
      const ScoreLine& a = one.scores[i];
      const ScoreLine& b = other.scores[one.scores.size() - 1 - i];
      CHECK(a.at == along(one, one.blank) - b.at);
      CHECK((a.up == b.up && a.turn == b.turn && a.extra == b.extra));
    }
  }
}

TEST_CASE("a gate opens the same whichever door is named") {
  for (const auto& [a, b] : {std::pair(Edge::left, Edge::right), std::pair(Edge::top, Edge::bottom)}) {
    const Folding one = folding_of(with_leaves(Fold::gate, {6, 6}, {2, 6, 3}, a));
    const Folding other = folding_of(with_leaves(Fold::gate, {6, 6}, {2, 6, 3}, b));
    CHECK(places(one) == places(other));
    CHECK(one.leaves.front().name == other.leaves.front().name);
    CHECK(one.across == is_across(a));
  }
  const Folding down = folding_of(plain(Fold::gate, {6, 6}, Edge::top));
  CHECK(down.leaves.front().toward == "top front");
  CHECK(down.leaves.back().away == "inside bottom front");
}

TEST_CASE("a flat base is one leaf, as large as its front, with nothing to fold") {
  const Folding folding = folding_of(plain(Fold::flat, {4, 6}));
  CHECK(folding.blank == Size{4, 6});
  CHECK(folding.scores.empty());
  REQUIRE(folding.leaves.size() == 1);
  CHECK(folding.leaves[0].toward == "front");
  CHECK(folding.leaves[0].away == "back");
  CHECK(folding.front_up == folding.leaves[0].toward_up);
}

TEST_CASE("a folded card lies inside up to be scored, a z front up") {
  for (const Fold fold : {Fold::side, Fold::top, Fold::gate, Fold::tri}) {
    const Folding folding = folding_of(plain(fold, {4, 6}));
    CHECK_FALSE(folding.front_up);
    for (const ScoreLine& score : folding.scores) CHECK(score.up);
  }
  const Folding z = folding_of(plain(Fold::z, {4, 6}));
  CHECK(z.front_up);
  REQUIRE(z.scores.size() == 2);
  CHECK_FALSE(z.scores[0].up);
  CHECK(z.scores[1].up);
}

TEST_CASE("the flap of a tri fold is folded in before the front closes over it") {
  const Folding folding = folding_of(plain(Fold::tri, {4, 6}));
  CHECK(folding.scores[1].turn == 0);
  CHECK(folding.scores[0].turn == 1);
  const Folding mirrored = folding_of(plain(Fold::tri, {4, 6}, Edge::left));
  CHECK(mirrored.leaves.front().name == "flap");
  CHECK(mirrored.scores[0].turn == 0);
}

// Common practice, no source.
TEST_CASE("half a letter sheet scored at 4 1/4 makes a 4 1/4 x 5 1/2 card") {
  const Folding folding = folding_of(plain(Fold::side, {part(17, 4), part(11, 2)}));
  CHECK(folding.blank == Size{part(17, 2), part(11, 2)});
  CHECK(places(folding) == std::vector<Rational>{part(17, 4)});
}

// Common practice, no source.
TEST_CASE("a 4 1/4 x 11 blank is scored at 2 3/4 and 5 1/2 for a z") {
  const Folding folding =
      folding_of(with_leaves(Fold::z, {part(11, 2), part(17, 4)}, {part(11, 4), part(11, 4), part(11, 2)}));
  CHECK(folding.blank == Size{11, part(17, 4)});
  CHECK(places(folding) == std::vector<Rational>{part(11, 4), part(11, 2)});
}

// Common practice, no source: doors that leave 1/32 to 1/16 in all between them.
TEST_CASE("an 11 in blank is scored at 2 3/4 and 8 1/4, less the doors' gap, for a gate") {
  for (const Rational& gap : {part(1, 32), part(1, 16)}) {
    Base base = plain(Fold::gate, {part(11, 2), part(17, 4)});
    base.allowance.doors = gap;
    const Folding folding = folding_of(base);
    CHECK(folding.blank.width == 11 - gap);
    CHECK(places(folding) == std::vector<Rational>{part(11, 4) - gap / 2, part(33, 4) - gap / 2});
    CHECK(folding.leaves[2].closed_from - folding.leaves[0].length == gap);
  }
}

// Common practice, no source.
TEST_CASE("3 11/16, 3 11/16 and 3 5/8 fold an 11 in sheet in three") {
  const Folding folding = folding_of(plain(Fold::tri, {part(59, 16), part(17, 2)}));
  CHECK(folding.blank == Size{11, part(17, 2)});
  CHECK(folding.leaves[0].length == part(59, 16));
  CHECK(folding.leaves[1].length == part(59, 16));
  CHECK(folding.leaves[2].length == part(29, 8));
}

TEST_CASE("an extra score turns against the fold beside it, and is folded after all folds") {
  Base easel = plain(Fold::side, {4, 5});
  easel.scores = {{2, {}}, {7, {}}};
  const Folding folding = folding_of(easel);
  CHECK(folding.blank.width == 8);
  CHECK(places(folding) == std::vector<Rational>{2, 4, 7});
  CHECK((folding.scores[0].extra && !folding.scores[0].up && folding.scores[0].turn == 1));
  CHECK((!folding.scores[1].extra && folding.scores[1].up && folding.scores[1].turn == 0));
  CHECK((folding.scores[2].extra && !folding.scores[2].up && folding.scores[2].turn == 2));
  Base z = plain(Fold::z, {4, 5});
  z.scores = {{1, {}}, {11, {}}};
  const Folding zigzag = folding_of(z);
  CHECK((zigzag.scores[0].extra && zigzag.scores[0].up));
  CHECK((zigzag.scores[3].extra && !zigzag.scores[3].up));
}

TEST_CASE("a score midway between two folds of a z turns the same way in its mirror image") {
  for (const Edge opens : {Edge::left, Edge::right}) {
    Base z = plain(Fold::z, {4, 5}, opens);
    z.scores = {{6, {}}};
    const Folding folding = folding_of(z);
    REQUIRE(folding.scores.size() == 3);
    CHECK(folding.scores[1].extra);
    CHECK_FALSE(folding.scores[1].up);  // against the valley, which is folded first
  }
}

TEST_CASE("leaves that make no card are told with what would mend it") {
  const auto trouble = [](Fold fold, const std::vector<Rational>& lengths, const char* words) {
    const std::string says = trouble_with_leaves(with_leaves(fold, {4, 4}, lengths), Unit::inch);
    INFO(says);
    CHECK(says.find(words) != std::string::npos);
  };
  trouble(Fold::side, {3, 3}, "3 in wide");
  trouble(Fold::side, {5, 4}, "5 in wide");
  trouble(Fold::top, {3, 3}, "3 in tall");
  trouble(Fold::side, {0, 4}, "no leaf");
  trouble(Fold::gate, {2, 5, 2}, "5 in wide");
  trouble(Fold::gate, {2, 4, part(5, 2)}, "over each other by 1/2 in");
  trouble(Fold::z, {4, 3, 4}, "past the fold");
  trouble(Fold::z, {3, 3, 3}, "3 in wide");
  trouble(Fold::tri, {4, 3, part(7, 2)}, "would not close");
  trouble(Fold::tri, {3, 3, 3}, "3 in wide");
  CHECK(trouble_with_leaves(with_leaves(Fold::gate, {4, 4}, {2, 4, 2}), Unit::inch).empty());
  CHECK(trouble_with_leaves(with_leaves(Fold::z, {4, 4}, {2, 2, 4}), Unit::inch).empty());
}
