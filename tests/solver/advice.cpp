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

TEST_CASE("warnings come in file order") {
  const std::vector<Remark> found = warnings("[base]\nfold = \"side\"\nfront = \"4 1/3 x 5\"\n" +
                                             layer("pic", "front", "role = \"image\"\n"));
  REQUIRE(found.size() == 2);
  CHECK(found[0].spot.line == 3);
  CHECK(found[1].spot.line == 5);
}
