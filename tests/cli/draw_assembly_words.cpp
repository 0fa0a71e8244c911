// What the order of assembly says of a layer: through which opening it is seen, where it lies on the page,
// which side of a score is glued.
#include <algorithm>
#include <fstream>
#include <sstream>

#include "cli/worksheet/assembly.h"
#include "model/read_card.h"
#include "model/versions.h"
#include "tests/catch.h"

using namespace evenmat;

namespace {

// Of the plain card: the step that glues a layer.
std::string said_of(const std::string& text, const std::string& layer) {
  const CardReading reading = read_card(text);
  INFO((reading.mistakes.empty() ? "" : reading.mistakes.front().says));
  REQUIRE(reading.card);
  const SizedCard sized = size_card(*reading.card, {});
  REQUIRE(sized.verdict == Verdict::buildable);
  const SizedVersion& version = sized.versions.front();
  const std::vector<AssemblyStep> steps = assembly_of(*reading.card, design_of(*reading.card, 0), version);
  const auto glued = std::find_if(steps.begin(), steps.end(), [&](const AssemblyStep& step) {
    return step.kind != AssemblyStep::Kind::stamp && step.kind != AssemblyStep::Kind::cut_out &&
           version.pieces[step.piece].piece->name.value == layer;
  });
  REQUIRE(glued != steps.end());
  return glued->says;
}

}  // namespace

TEST_CASE("What a mat's window shows is glued behind it and what lies on the page is measured") {
  std::ostringstream text;
  text << std::ifstream(std::string(EVENMAT_SOURCE) + "/cases/three-lights.toml").rdbuf();
  const auto says = [&](const std::string& name) { return said_of(text.str(), name); };
  CHECK(says("stair print") ==
        "Glue stair print to the back of stair mat, behind the opening of stair view.");
  CHECK(says("stair mat") == "Glue stair mat, with what is behind it, to the front.");
  // By hand from the file: 1/2 - 1/8 and 3/4 - 1/8; 2 + 1/8 and 3/4 + 1/4; 3 1/2 - 1/8 and 3/4 - 1/8.
  CHECK(
      says("dawn print") ==
      "Glue dawn print to the inside, 3/8 from its left and 5/8 in from its top edge, behind the opening of "
      "morning light.");
  CHECK(says("sun") ==
        "Glue sun to the inside, 2 1/8 from its left and 1 in from its top edge, in the opening of noon "
        "light.");
  CHECK(
      says("dusk print") ==
      "Glue dusk print, with what is on it, to the inside, 3 3/8 from its left and 5/8 in from its top edge, "
      "behind the opening of evening light.");
}

// A card with an extra score at 2 in of its front, which is 4 in long, and a panel across it.
static std::string easel(const std::string& fold, const std::string& opens, const std::string& score,
                         const std::string& panel) {
  return "unit = \"in\"\n[base]\nfold = \"" + fold + "\"\n" + opens + "front = \"4 x 4\"\nscores = [" +
         score + "]\n[[layer]]\nname = \"panel\"\n" + panel;
}

TEST_CASE("A layer across an extra score is glued on one side of that only") {
  const auto says = [](const std::string& text) { return said_of(text, "panel"); };
  const std::string all = "on = \"front\"\nborder = \"1/8\"\n";
  const std::string tells = "so that the card can fold there.";
  // The front is the blank's upper or left part, and lies with its back up: its fold is at its own top, or
  // left. The part away from that stands.
  CHECK(says(easel("top", "", "\"2\"", all)) ==
        "Glue panel to the front. It crosses an extra score: glue only what lies below the score, " + tells);
  CHECK(
      says(easel("side", "", "\"2\"", all)) ==
      "Glue panel to the front. It crosses an extra score: glue only what lies to the right of the score, " +
          tells);
  CHECK(says(easel("side", "opens = \"left\"\n", "\"6\"", all)) ==
        "Glue panel to the front. It crosses an extra score: glue only what lies to the left of the score, " +
            tells);
  CHECK(says(easel("top", "opens = \"top\"\n", "\"6\"", all)) ==
        "Glue panel to the front. It crosses an extra score: glue only what lies above the score, " + tells);
  // On the inside nothing tells which part stands, and neither does a front that is held by a strip of it.
  CHECK(says(easel("top", "", "\"6\"", "on = \"inside\"\nborder = \"1/8\"\n")) ==
        "Glue panel to the inside. It crosses an extra score: glue it on one side of the score only, " +
            tells);
  CHECK(says(easel("side", "", "\"1/2\"", all)) ==
        "Glue panel to the front. It crosses an extra score: glue it on one side of the score only, " +
            tells);
  CHECK(says(easel("side", "", "\"1\", \"2\"", all)).find("on one side of each of them only") !=
        std::string::npos);
  // At the score, or on another leaf, it crosses nothing.
  CHECK(says(easel("side", "", "\"2\"", "on = \"front\"\nsize = \"2 x 2\"\nfrom-left = 0\n")) ==
        "Glue panel to the front.");
  CHECK(says(easel("side", "", "\"2\"", "on = \"inside\"\nborder = \"1/8\"\n")) ==
        "Glue panel to the inside.");
}
