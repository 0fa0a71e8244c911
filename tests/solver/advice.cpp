// Warnings a maker would thank for: each where it applies, and nowhere else.
#include "solver/answer/advice.h"

#include "tests/catch.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

std::vector<Remark> warnings(const std::string& text) {
  const SizedText card(text);
  CHECK(card.sized.verdict == Verdict::buildable);
  return card.plain().warnings;
}

void warned(const std::string& text, const Spot& spot, const std::vector<std::string>& words) {
  const std::vector<Remark> found = warnings(text);
  INFO(text);
  for (const Remark& remark : found) UNSCOPED_INFO(remark.spot.line << ": " << remark.says);
  REQUIRE(found.size() == 1);
  CHECK(found.front().spot == spot);
  for (const std::string& word : words) {
    INFO(word);
    CHECK(found.front().says.find(word) != std::string::npos);
  }
}

std::string flat(const std::string& front) { return "[base]\nfold = \"flat\"\nfront = \"" + front + "\"\n"; }

// A strip beside a mat whose top is 1/8 from the front's.
std::string strip(const std::string& top) {
  return side_fold + "cut-back = 1\n" + layer("mat", "front", "border = \"1/8\"\n") +
         layer("strip", "reveal", "border = { across = \"1/8\", bottom = 1, top = \"" + top + "\" }\n");
}

// A base of that fold, cut from ivory, with a front of 4 by 5 inches; its paper is named on line 4.
std::string ivory(const std::string& fold, const std::string& more) {
  return "[base]\nfold = \"" + fold + "\"\nfront = \"4 x 5\"\npaper = \"ivory\"\n" + more;
}

std::string sheets(const std::string& size, const std::string& more = {}) {
  return "[[paper]]\nname = \"ivory\"\nsheet = \"" + size + "\"\n" + more;
}

}  // namespace

TEST_CASE("a plain card is left in peace") {
  CHECK(warnings(side_fold + panel + layer("print", "panel")).empty());
}

TEST_CASE("a front between the marks is told") {
  warned(flat("4 1/10 x 5"), {3, 9}, {"4 1/10", "wide", "1/16 in"});
  warned(flat("4 x 5 1/3"), {3, 9}, {"5 1/3", "tall"});
  CHECK(warnings(flat("4 1/16 x 5")).empty());
  CHECK(warnings("mark = \"1/10\"\n" + flat("4 1/10 x 5")).empty());
  CHECK(warnings(flat("iso A6")).size() == 2);
  CHECK(warnings("unit = \"mm\"\n" + flat("iso A6")).empty());
}

TEST_CASE("a strip that nearly lines up with the front is told") {
  warned(strip("3/16"), {10, 8}, {"top of strip", "mat", "1/16 in"});
  warned(strip("1/4"), {10, 8}, {"top of strip", "1/8 in"});
  CHECK(warnings(strip("1/8")).empty());   // level
  CHECK(warnings(strip("5/16")).empty());  // clearly apart
}

TEST_CASE("a strip or image that fills what is free is told") {
  const std::string free = side_fold + panel + layer("pic", "panel", "role = \"image\"\n");
  warned(free, {9, 8}, {"pic", "panel"});
  CHECK(warnings(free + "height = 1\n").empty());
  CHECK(warnings(free + "size = \"1 x 1\"\n").empty());
  CHECK(warnings(free + "border = \"1/2\"\n").empty());
  CHECK(warnings(side_fold + panel + layer("pic", "panel", "role = \"panel\"\n")).empty());
}

TEST_CASE("a layer over a window in the same thing is told") {
  const std::string window =
      "[[window]]\nname = \"view\"\nin = \"front\"\nsize = \"1 x 1\"\nfrom-left = 2\nfrom-top = 2\n";
  const auto tag = [](const std::string& left) {
    return layer("tag", "front", "size = \"1 x 1\"\nfrom-top = 2\nfrom-left = \"" + left + "\"\n");
  };
  warned(side_fold + window + tag("1 1/2"), {11, 8}, {"tag", "view"});
  CHECK(warnings(side_fold + window + tag("1")).empty());  // edge to edge
  CHECK(warnings(side_fold + window + tag("3 1/16")).empty());
}

TEST_CASE("a blank or scores between the marks are told together") {
  // Doors of (5 1/2 - 1/16) / 2.
  const std::string gate = "[base]\nfold = \"gate\"\nfront = \"5 1/2 x 4\"\n";
  warned(gate, {2, 8}, {"2 23/32", "8 7/32", "marks"});
  CHECK(warnings(gate + "leaves = [\"2 11/16\", \"5 1/2\", \"2 11/16\"]\n").empty());
  CHECK(warnings("mark = \"1/32\"\n" + gate).empty());
  warned("[base]\nfold = \"side\"\nfront = \"4 x 5\"\n[allowance]\nfold = \"1/32\"\n", {2, 8},
         {"8 1/32", "4 1/64"});
}

TEST_CASE("a layer across a score of its page is told, glued to one side of the score it is not") {
  // The front of an easel is scored at its middle, 2 in from the blank's left edge.
  const auto easel = [](const std::string& on, const std::string& from, const std::string& more = "") {
    return "[base]\nfold = \"side\"\nfront = \"4 x 5\"\nscores = [1]\n" + more +
           layer("tag", on, "size = \"1 x 1\"\nfrom-top = 1\nfrom-left = \"" + from + "\"\n");
  };
  // Seen from the front the score is 3 in from the fold, seen from behind 1 in from the free edge.
  warned(easel("front", "2 1/2"), {6, 8}, {"tag", "score", "front"});
  CHECK(warnings(easel("front", "3")).empty());
  CHECK(warnings(easel("front", "2")).empty());
  warned(easel("inside front", "1/2"), {6, 8}, {"tag", "inside front"});
  CHECK(warnings(easel("inside front", "1")).empty());
  CHECK(warnings(easel("inside", "1/2")).empty());
  // Opening left, the front is the right half of the blank, and scored at its back leaf here.
  warned(easel("inside", "1/2", "opens = \"left\"\n"), {7, 8}, {"tag", "inside"});
  warned(easel("back", "2 1/2", "opens = \"left\"\n"), {7, 8}, {"tag", "back"});
  CHECK(warnings(easel("front", "1/2", "opens = \"left\"\n")).empty());
}

TEST_CASE("a layer that is met by a score wherever it is on the leaf is told") {
  const std::string gate = "[base]\nfold = \"gate\"\nfront = \"4 x 5\"\nleaves = [2, 4, 2]\nscores = [1]\n";
  // The score in the left door, 1 in from its free edge.
  warned(gate + layer("tag", "front", "size = \"2 x 1\"\nfrom-left = 0\nfrom-top = 1\n"), {7, 8}, {"tag"});
  CHECK(warnings(gate + layer("tag", "front", "size = \"1 x 1\"\nfrom-left = 1\nfrom-top = 1\n")).empty());
  const std::string back = "[base]\nfold = \"side\"\nfront = \"4 x 5\"\ncut-back = 2\nscores = [7]\n";
  warned(back + layer("strip", "reveal", "border = 0\n"), {7, 8}, {"strip"});
  const std::string window =
      "[base]\nfold = \"side\"\nfront = \"4 x 5\"\nscores = [6]\n[[window]]\nname = \"hole\"\nin = "
      "\"front\"\n"
      "size = \"2 x 2\"\nalign = \"centre\"\n";
  warned(window + layer("print", "hole", "border = 0\n"), {11, 8}, {"print"});
}

TEST_CASE("a layer over both doors of a gate is told, however narrowly") {
  const auto band = [](const std::string& keys, const std::string& opens = "") {
    return "[base]\nfold = \"gate\"\nfront = \"4 x 4\"\nleaves = [1, 4, 2]\n" + opens +
           layer("band", "front", "size = \"1 1/2 x 1 1/2\"\n" + keys);
  };
  warned(band("from-left = \"15/16\"\nfrom-top = 1\n"), {6, 8}, {"band", "both doors"});
  CHECK(warnings(band("from-left = 1\nfrom-top = 1\n")).empty());
  CHECK(warnings(band("from-left = \"1/2\"\nfrom-top = 1\n")).empty());
  warned(band("from-left = 1\nfrom-top = \"15/16\"\n", "opens = \"top\"\n"), {7, 8}, {"band", "both doors"});
}

TEST_CASE("a window with little paper beside it is told, unless a frame says that it is meant") {
  const auto window = [](const std::string& keys) {
    return side_fold + "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"1 x 1\"\nfrom-top = 2\n" + keys;
  };
  warned(window("from-left = \"3/16\"\n"), {5, 8}, {"3/16 in", "hole", "1/4 in"});
  CHECK(warnings(window("from-left = \"1/4\"\n")).empty());
  CHECK(warnings(window("from-left = \"3/16\"\nframe = \"at least 1/8\"\n")).empty());
}

TEST_CASE("warnings come in file order") {
  const std::vector<Remark> found = warnings("[base]\nfold = \"side\"\nfront = \"4 1/3 x 5\"\n" +
                                             layer("pic", "front", "role = \"image\"\n"));
  REQUIRE(found.size() == 3);
  CHECK(found[0].spot.line == 2);
  CHECK(found[1].spot.line == 3);
  CHECK(found[2].spot.line == 5);
}

TEST_CASE("a base that no stated sheet of its paper takes is told") {
  const Spot at{4, 9};
  warned(ivory("side", sheets("7 x 7")), at, {"8 x 5 in", "7 x 7 in", "\"ivory\"", "larger sheet"});
  // The largest of several is named; the sheets of other papers are not asked.
  warned(
      ivory("top", sheets("3 x 99", sheets("8 x 9")) + "[[paper]]\nname = \"plum\"\nsheet = \"12 x 12\"\n"),
      at, {"4 x 10 in", "3 x 99 in"});
  warned(ivory("flat", sheets("5 x 3")), at, {"4 x 5 in"});
  // What the folds take up counts, which no trimmer's marks divide.
  const std::string folds = "mark = \"1/128\"\n";
  warned(folds + ivory("side", "[allowance]\nfold = \"1/64\"\n" + sheets("8 x 5")), {5, 9},
         {"8 1/64 x 5 in"});
  // Exactly large enough, either way round; one of several; none stated; a paper that is not described.
  for (const std::string& papers : {sheets("8 x 5"), sheets("5 x 8"), sheets("1 x 1", sheets("12 x 12")),
                                    std::string("[[paper]]\nname = \"ivory\"\n"), std::string()})
    CHECK(warnings(ivory("side", papers)).empty());
}
