// Layers that are equal in all but name: they lie in file order, and that never costs them a size.
#include <algorithm>
#include <string>

#include "solver/search/choose.h"
#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

std::string six_pictures(const std::vector<std::string>& names) {
  std::string text = side_fold + panel;
  for (const std::string& name : names) text += layer(name, "panel", "size = \"3/4 x 3/4\"\n");
  return text;
}

// Two or three layers alike, loose and of open size, on a front in which they share what marks there are;
// often with a post in between that leaves more room on one side.
std::string open_twins(Dice& dice) {
  std::string keys = "width = \"" + std::to_string(dice.between(3, 8)) + "/16 to " +
                     std::to_string(dice.between(10, 24)) + "/16\"\n";
  if (dice.one_in(2)) keys += "height = \"" + std::to_string(dice.between(6, 12)) + "/16\"\n";
  std::string text = "[base]\nfold = \"flat\"\nfront = \"" + std::to_string(dice.between(24, 60)) + "/16 x " +
                     std::to_string(dice.between(24, 60)) + "/16\"\n";
  if (!dice.one_in(3)) {
    text += layer("post", "front",
                  "size = \"1/8 x 1 1/4\"\nfrom-top = \"1/8\"\nfrom-left = \"" +
                      std::to_string(dice.between(6, 20)) + "/16\"\n");
  }
  for (int i = dice.between(2, 3); i > 0; --i) text += layer("twin " + std::to_string(i), "front", keys);
  return text;
}

}  // namespace

TEST_CASE("equal pictures lie from left to right as they stand in the file") {
  const std::vector<std::string> names = {"a", "b", "c", "d", "e", "f"};
  const SizedText card(six_pictures(names));
  std::vector<Rational> lefts;
  for (const std::string& name : names) lefts.push_back(card.piece(name).left);
  CHECK(std::is_sorted(lefts.begin(), lefts.end()));
}

TEST_CASE("equal pictures under other names lie where the first ones lay") {
  const Choosing first = choose(rules_of(card_of(six_pictures({"a", "b", "c", "d", "e", "f"}))), {});
  const Choosing other = choose(rules_of(card_of(six_pictures({"moon", "f", "star", "b", "sun", "a"}))), {});
  CHECK(first.outcome == Outcome::found);
  CHECK(other.values == first.values);
}

TEST_CASE("equal layers of open size: the shortcuts and the prover choose the same") {
  Dice dice(80);
  for (int round = 0; round < 100; ++round) {
    const std::string text = open_twins(dice);
    INFO(text);
    const Rules rules = rules_of(card_of(text));
    const Choosing quick = choose(rules, {});
    const Choosing proven = choose(rules, {.shortcuts = false});
    CHECK(quick.outcome == Outcome::found);
    CHECK(proven.outcome == Outcome::found);
    CHECK(quick.values == proven.values);
  }
}

TEST_CASE("a layer lies to the left of artwork as wide as it, where they could change places") {
  // Two of 1 1/4 on 2 13/16 leave 5/16: 5/32 on either side. The layer is placed before the artwork.
  const std::string size = "size = \"2 13/16 x 3 3/8\"\n";
  const SizedText card(
      "[base]\nfold = \"flat\"\nfront = \"2 13/16 x 7\"\n" +
      layer("note", "front",
            size + "artwork = \"5/4 x 3 1/8\"\nmargin = \"at least 0\"\nabove = \"other\"\n") +
      layer("tag", "note", "size = \"5/4 x 1 5/16\"\n") + layer("other", "front", size));
  CHECK(card.piece("tag").from_left == part(5, 32));
  REQUIRE(card.piece("note").artwork_at);
  CHECK(card.piece("note").artwork_at->first == part(45, 32));
}
