// What the keys of a base say together, and every way in which they do not hold together.
#include "tests/catch.h"
#include "tests/model/told.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// A base of that fold with a front of 4 by 5 inches; the keys begin on line 4.
std::string base_of(const std::string& fold, const std::string& keys) {
  return "[base]\nfold = \"" + fold + "\"\nfront = \"4 x 5\"\n" + keys + "\n";
}

void refused(const std::string& fold, const std::string& keys, int column,
             const std::vector<std::string>& words) {
  check(base_of(fold, keys), {{4, column, words}});
}

Base taken(const std::string& fold, const std::string& keys) {
  return card_of(base_of(fold, keys)).design.base;
}

std::string sheets(const std::string& size) {
  return "[[paper]]\nname = \"ivory\"\nsheet = \"" + size + "\"\n";
}

}  // namespace

TEST_CASE("a base that does not hold together is told") {
  in_base("cut-back = { edge = \"right\" }", 12, {"by = "});
  in_base("leaves = \"1, 2, 3\"", 10, {"2 leaves", "3"});
  refused("side", "opens = \"top\"", 9, {"left or right"});
  refused("top", "opens = \"left\"", 9, {"top or bottom"});
  refused("flat", "cut-back = 1", 12, {"flat"});
  refused("flat", "opens = \"left\"", 9, {"flat"});
  refused("flat", "leaves = \"4\"", 10, {"flat"});
  refused("gate", "leaves = \"2, 2\"", 10, {"3 leaves", "here are 2"});
  refused("z", "leaves = \"4, 4, 4, 4\"", 10, {"3 leaves", "here are 4"});
  refused("tri", "leaves = []", 10, {"3 leaves", "here are 0"});
}

TEST_CASE("leaves that do not close to the stated front are told where they stand") {
  refused("side", "leaves = \"3 1/2, 3\"", 10, {"3 1/2 in wide", "\"4 x 5\""});
  refused("top", "leaves = [5, 6]", 10, {"6 in tall", "\"4 x 5\""});
  refused("gate", "leaves = \"2, 3 7/8, 2\"", 10, {"3 7/8 in", "\"4 x 5\""});
  refused("gate", "leaves = \"2 1/4, 4, 2\"", 10, {"doors", "4 1/4 in", "narrower"});
  check(base_of("gate", "opens = \"top\"\nleaves = \"2, 5, 3 1/8\""),
        {{5, 10, {"doors", "5 1/8 in", "narrower"}}});
  refused("z", "leaves = \"2, 3, 3\"", 10, {"3 in", "\"4 x 5\""});
  refused("tri", "leaves = \"3, 4, 4 1/16\"", 10, {"flap", "shorter"});
  CHECK(taken("gate", "leaves = \"1, 4, 3\"").leaves.size() == 3);
  CHECK(taken("gate", "opens = \"top\"\nleaves = \"2, 5, 3\"").opens->value == Edge::top);
  CHECK(taken("z", "leaves = \"2, 2, 4\"").leaves.size() == 3);
  CHECK(taken("tri", "leaves = \"4, 4, 3 7/8\"").leaves.size() == 3);
}

TEST_CASE("doors wider than the card and flaps of nothing are told where they come from") {
  const std::string wide = "\n[allowance]\ndoors = 4\nflap = \"4 in\"";
  check(base_of("gate", wide), {{6, 9, {"4 in between them", "4 in wide", "less"}}});
  check(base_of("gate", "opens = \"top\"\n[allowance]\ndoors = 5.5"), {{6, 9, {"5 1/2 in", "5 in tall"}}});
  check(base_of("tri", wide), {{7, 8, {"flap", "4 in wide", "less"}}});
  CHECK(taken("side", wide).allowance.doors == 4);
  // So thick a paper that the usual doors are gone: told at the front, which says how small the card is.
  check(base_of("gate", "paper = \"board\"\n[[paper]]\nname = \"board\"\nthickness = 2"),
        {{3, 9, {"front", "larger"}}});
}

TEST_CASE("gate, z and tri folds open at any edge, a flat base at none") {
  for (const char* fold : {"gate", "z", "tri"}) {
    for (const char* edge : {"left", "right", "top", "bottom"}) {
      INFO(fold << " " << edge);
      const Base base = taken(fold, "opens = \"" + std::string(edge) + "\"");
      CHECK(edge_name(base.opens->value) == edge);
    }
  }
  CHECK(taken("side", "opens = \"left\"").opens->value == Edge::left);
  CHECK(taken("top", "opens = \"top\"").opens->value == Edge::top);
}

TEST_CASE("a cut-back takes the free edge where none is stated") {
  const auto edge = [](const char* fold, const std::string& keys = {}) {
    return taken(fold, "cut-back = 1\n" + keys).cut_back->edge;
  };
  CHECK(edge("side") == Edge::right);
  CHECK(edge("side", "opens = \"left\"") == Edge::left);
  CHECK(edge("top") == Edge::bottom);
  CHECK(edge("tri") == Edge::right);
  CHECK(edge("tri", "opens = \"bottom\"") == Edge::bottom);
  CHECK(edge("z") == Edge::left);
  CHECK(edge("z", "opens = \"right\"") == Edge::right);
  CHECK(edge("gate") == Edge::right);
  CHECK(edge("gate", "opens = \"top\"") == Edge::bottom);
}

TEST_CASE("the edge at the fold cannot be cut back") {
  refused("side", "cut-back = { edge = \"left\", by = 1 }", 21, {"left edge", "fold"});
  refused("side", "cut-back = { edge = \"right\", by = 1 }\nopens = \"left\"", 21, {"right edge", "fold"});
  refused("top", "cut-back = { edge = \"top\", by = 1 }", 21, {"top edge", "fold"});
  refused("tri", "cut-back = { edge = \"left\", by = 1 }", 21, {"left edge", "fold"});
  refused("z", "cut-back = { edge = \"right\", by = 1 }", 21, {"right edge", "fold"});
  refused("z", "cut-back = { edge = \"top\", by = 1 }\nopens = \"bottom\"", 21, {"top edge", "fold"});
  CHECK(taken("tri", "cut-back = { edge = \"top\", by = 1 }").cut_back->edge == Edge::top);
  CHECK(taken("z", "cut-back = { edge = \"bottom\", by = 1 }").cut_back->edge == Edge::bottom);
}

TEST_CASE("the doors of a gate card are cut back where they meet, and something is left of each") {
  for (const char* edge : {"left", "right"}) {
    CHECK(taken("gate", "cut-back = { edge = \"" + std::string(edge) + "\", by = 1 }").cut_back->edge ==
          Edge::right);
  }
  CHECK(taken("gate", "opens = \"top\"\ncut-back = { edge = \"top\", by = 1 }").cut_back->edge ==
        Edge::bottom);
  refused("gate", "cut-back = { edge = \"top\", by = 1 }", 21, {"where they meet", "\"right\""});
  refused("gate", "cut-back = { edge = \"left\", by = 1 }\nopens = \"bottom\"", 21,
          {"where they meet", "\"bottom\""});
  // Each is 31/32 in wide with the usual gap of 1/16 in a card of 2 in.
  const std::string small = "[base]\nfold = \"gate\"\nfront = \"2 x 5\"\n";
  check(small + "cut-back = \"31/32\"\n", {{4, 12, {"\"31/32\"", "31/32 in wide", "door", "Cut back less"}}});
  CHECK(card_of(small + "cut-back = \"30/32\"\n").design.base.cut_back->by.text == "30/32");
  refused("gate", "cut-back = 1\nleaves = \"1, 4, 2\"", 12, {"1 in wide", "door"});
}

TEST_CASE("a front leaf that is shorter than the card is cut back at its free edge only") {
  const std::string top = "cut-back = { edge = \"top\", by = 1 }\n";
  refused("side", top + "leaves = \"3, 4\"", 21, {"shorter", "the right", "Cut back that edge"});
  refused("tri", top + "leaves = \"3, 4, 3\"", 21, {"shorter", "the right"});
  refused("z", "cut-back = 1\nleaves = \"2, 4, 4\"", 12, {"z", "shorter", "Take cut-back out"});
  CHECK(taken("side", "leaves = \"3, 4\"\ncut-back = 1").cut_back->edge == Edge::right);
  CHECK(taken("top", "leaves = \"3, 5\"\ncut-back = 1").cut_back->edge == Edge::bottom);
  CHECK(taken("side", top + "leaves = \"4, 3\"").cut_back->edge == Edge::top);
  CHECK(taken("z", "leaves = \"4, 4, 3\"\ncut-back = 1").cut_back->edge == Edge::left);
  // On the blank of a card that opens at the left the front leaf lies at the right.
  refused("side", top + "opens = \"left\"\nleaves = \"4, 3\"", 21, {"shorter", "the left"});
  CHECK(taken("side", top + "opens = \"left\"\nleaves = \"3, 4\"").cut_back->edge == Edge::top);
}

TEST_CASE("a cut-back leaves something of the front") {
  in_base("cut-back = \"5\"", 12, {"\"5\"", "4 1/4 in wide", "Cut back less"});
  in_base("cut-back = \"at least 4 1/4\"", 12, {"nothing is left"});
  in_base("cut-back = \"one of 4 1/4, 5\"", 12, {"nothing is left"});
  in_base("cut-back = { edge = \"top\", by = \"5 1/2\" }", 33, {"5 1/2 in tall"});
  refused("side", "cut-back = 3\nleaves = \"3, 4\"", 12, {"front leaf", "3 in wide"});
  CHECK(taken("side", "cut-back = \"3 63/64\"").cut_back);
  CHECK(taken("side", "cut-back = \"one of 3, 4\"").cut_back);
}

TEST_CASE("a score lies on the blank, away from its folds, and is stated once") {
  refused("side", "scores = 8", 10, {"8 in", "on the blank", "8 in wide", "left"});
  refused("side", "scores = [1, \"9\"]", 14, {"9 in"});
  refused("top", "scores = \"2, 11 in\"", 10, {"11 in", "10 in tall", "top"});
  refused("side", "scores = [6, 4]", 14, {"At 4 in", "folds"});
  refused("side", "scores = [6, \"6 in\"]", 14, {"6 in", "twice"});
  refused("gate", "scores = [\"5 31/32\"]", 11, {"5 31/32 in", "folds"});
  refused("flat", "scores = 4", 10, {"4 in wide"});
  refused("side", "scores = 0", 10, {"more than 0"});
  CHECK(taken("side", "scores = [6, 2]").scores.size() == 2);
  CHECK(taken("flat", "scores = 3").scores.size() == 1);
  CHECK(taken("top", "scores = 9.9").scores.size() == 1);
  // A fold that takes up 1/8 in is as wide as that.
  const std::string fold = "\n[allowance]\nfold = \"1/8\"";
  refused("side", "scores = \"4 1/8\"" + fold, 10, {"4 1/8 in", "folds"});
  CHECK(taken("side", "scores = \"4 1/4\"" + fold).scores.size() == 1);
  CHECK(taken("side", "scores = \"8 1/16\"" + fold).scores.size() == 1);
}

TEST_CASE("leaves in trouble keep other mistakes of the base from being guessed at") {
  refused("side", "leaves = \"3, 3\"\nscores = 7.5\nopens = \"left\"\ncut-back = { edge = \"top\", by = 1 }",
          10, {"3 in wide"});
  check("[base]\nfold = \"gate\"\nfront = \"4\"\nleaves = \"2, 4, 3\"\nscores = 99\n", {{3, 9, {"\"4\""}}});
  check(base_of("side", "leaves = \"3, x\"\nscores = 99"), {{4, 10, {"\"x\""}}});
  // Nor names of faces.
  check(base_of("gate", "opens = \"top\"\nleaves = \"2, 5\"\n[[layer]]\nname = \"a\"\non = \"top front\""),
        {{5, 10, {"3 leaves"}}});
  check(base_of("side", "leaves = \"3, 3\"\n[[layer]]\nname = \"a\"\non = \"reveal\""), {{4, 10, {"3 in"}}});
  check(base_of("side", "leaves = \"3, 4, 4\"\n[[layer]]\nname = \"a\"\non = \"reveal\""),
        {{4, 10, {"2 leaves"}}});
}

TEST_CASE("a front that cannot be read leaves the names of faces known") {
  check(
      "[base]\nfold = \"gate\"\nfront = \"4\"\n[[layer]]\nname = \"a\"\non = \"reveal\"\n[[layer]]\nname = "
      "\"b\"\non = \"flap\"\n",
      {{3, 9, {"\"4\""}}, {9, 6, {"\"flap\""}}});
}

TEST_CASE("a sheet that does not take the base keeps no card from being read") {
  CHECK(taken("side", "paper = \"ivory\"\n" + sheets("7 x 7")).paper);
}
