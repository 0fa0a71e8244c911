// The work of a paper as steps of a trimmer, told for sheets that one can picture.
#include "solver/cutting/steps.h"

#include <string>

#include "tests/catch.h"
#include "tests/solver/cut_trees.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::put_in_cutting_order;
using cutting::Step;
using cutting::StepWork;
using cutting::Work;
using cutting::work_of;
using cutting::Yield;

namespace {

using What = Yield::What;

// A step in words: "84: 1 of 192x192 across 2 -> 2 strip 192x84, 1 left 192x24".
std::string told(const Yield& yield) {
  const std::string size = std::to_string(yield.width) + "x" + std::to_string(yield.height);
  const std::string count = std::to_string(yield.count) + " ";
  if (yield.what == What::piece) return count + "piece " + size;
  return count + (yield.what == What::strip ? "strip " : "left ") + size;
}
std::string told(const StepWork& work) {
  std::string text = std::to_string(work.layout) + ": " + told(work.from) +
                     (work.across ? " across " : " down ") + std::to_string(work.cuts);
  std::string mark = " -> ";
  for (const Yield& yield : work.yields) {
    text += mark + told(yield);
    mark = ", ";
  }
  return text + (work.hold ? ", hold" : "");
}
using Lines = std::vector<std::string>;
Lines told(const Work& work) {
  Lines lines;
  for (const Step& step : work.steps) {
    lines.push_back("set " + std::to_string(step.set));
    for (const StepWork& one : step.works) lines.push_back(told(one));
  }
  return lines;
}
// In sixteenths of an inch; a hand holds an inch.
Lines steps_for(std::vector<Layout> layouts, const std::vector<bool>& first = {false, false, false}) {
  put_in_cutting_order(layouts, first, 0, 16);
  return told(work_of(layouts, first, 0, 16));
}

}  // namespace

TEST_CASE("a 12 in square is cut into two strips of 5 1/4, which are turned and cut at 3 together") {
  const Part strip = cut_down(so_many(4, piece(48, 84)));
  CHECK(steps_for({{0, 1, cut_across({strip, strip, waste(192, 24)})}}) ==
        Lines{"set 84", "0: 1 strip 192x192 across 2 -> 2 strip 192x84, 1 left 192x24", "set 48",
              "0: 2 strip 192x84 down 3 -> 8 piece 48x84"});
}

TEST_CASE("a letter sheet gives two bases by one cut") {
  CHECK(steps_for({{0, 3, cut_across({piece(136, 88), piece(136, 88)})}}) ==
        Lines{"set 88", "0: 3 strip 136x176 across 1 -> 6 piece 136x88"});
}

TEST_CASE("one setting serves every sheet that wants it, and what it gives as well") {
  // The square is cut at 3 and what is left of it, turned, at 3 again.
  const Part square = cut_across({piece(96, 48), cut_down({piece(48, 48, 1), waste(48, 48)})});
  const Part wide = cut_down({piece(48, 90, 2), piece(48, 90, 2), waste(60, 90)});
  CHECK(steps_for({{0, 1, square}, {1, 2, wide}}) ==
        Lines{"set 48", "0: 1 strip 96x96 across 1 -> 1 piece 96x48, 1 strip 96x48",
              "1: 2 strip 156x90 down 2 -> 4 piece 48x90, 2 left 60x90",
              "0: 1 strip 96x48 down 1 -> 1 piece 48x48, 1 left 48x48"});
}

TEST_CASE("bases come first, then what is longest") {
  const Part bases = cut_down({piece(50, 40, 0), piece(50, 40, 0), waste(20, 40)});
  const Part mats = cut_down({piece(60, 40, 1), waste(140, 40)});
  const Part prints = cut_down({piece(70, 40, 2), waste(80, 40)});
  CHECK(steps_for({{0, 1, prints}, {0, 1, mats}, {0, 1, bases}}, {true, false, false}) ==
        Lines{"set 50", "2: 1 strip 120x40 down 2 -> 2 piece 50x40, 1 left 20x40", "set 60",
              "1: 1 strip 200x40 down 1 -> 1 piece 60x40, 1 left 140x40", "set 70",
              "0: 1 strip 150x40 down 1 -> 1 piece 70x40, 1 left 80x40"});
}

TEST_CASE("a cut that gives bases comes before one that only leads to them") {
  const Part gives = cut_down({piece(60, 40, 1), piece(90, 40, 0)});
  const Part leads = cut_down({piece(8, 40, 2), piece(120, 40, 0), waste(170, 40)});
  const Lines lines = steps_for({{0, 1, leads}, {0, 1, gives}}, {true, false, false});
  REQUIRE_FALSE(lines.empty());
  CHECK(lines.front() == "set 60");
}

TEST_CASE("at one setting the work on an earlier sheet is told first") {
  const Part longer = cut_down({piece(90, 50, 0), cut_across({piece(110, 20, 1), waste(110, 30)})});
  const Part shorter = cut_down({piece(20, 40, 2), waste(60, 40)});
  CHECK(steps_for({{0, 1, longer}, {0, 1, shorter}}) ==
        Lines{"set 90", "0: 1 strip 200x50 down 1 -> 1 piece 90x50, 1 strip 110x50", "set 20",
              "0: 1 strip 110x50 across 1 -> 1 piece 110x20, 1 left 110x30",
              "1: 1 strip 80x40 down 1 -> 1 piece 20x40, 1 left 60x40"});
}

TEST_CASE("a piece too narrow to hold is told where it is the last in hand, and only there") {
  CHECK(steps_for({{0, 1, cut_down(so_many(3, piece(12, 88)))}}) ==
        Lines{"set 12", "0: 1 strip 36x88 down 2 -> 3 piece 12x88, hold"});
  CHECK(steps_for({{0, 1, cut_down({piece(60, 88, 1), piece(12, 88)})}}) ==
        Lines{"set 12", "0: 1 strip 72x88 down 1 -> 1 piece 12x88, 1 piece 60x88"});
}

TEST_CASE("an untrue edge is trimmed off before all else") {
  Part sheet = cut_across({cut_down({piece(48, 90), waste(40, 90)}), waste(88, 4)});
  sheet.order_matters = true;
  CHECK(steps_for({{0, 1, sheet}}) ==
        Lines{"set 90", "0: 1 strip 88x94 across 1 -> 1 strip 88x90, 1 left 88x4", "set 48",
              "0: 1 strip 88x90 down 1 -> 1 piece 48x90, 1 left 40x90"});
}

TEST_CASE("the blade's loss is gone from what stays in hand") {
  std::vector<Layout> layouts{{0, 1, cut_down(so_many(2, piece(40, 90)) + waste(20, 90), 2)}};
  put_in_cutting_order(layouts, {false}, 2, 16);
  const Work work = work_of(layouts, {false}, 2, 16);
  CHECK(told(work) == Lines{"set 40", "0: 1 strip 104x90 down 2 -> 2 piece 40x90, 1 left 20x90"});
  REQUIRE(work.cuts.front().size() == 2);
  CHECK(work.cuts.front()[1].x == 42);
  CHECK(work.cuts.front()[1].width == 62);
}

TEST_CASE("a sheet that is a piece as it is asks for no cut") {
  const Work work = work_of({{0, 2, piece(40, 90)}}, {true}, 0, 16);
  CHECK(work.steps.empty());
  REQUIRE(work.cuts.size() == 1);
  CHECK(work.cuts.front().empty());
}
