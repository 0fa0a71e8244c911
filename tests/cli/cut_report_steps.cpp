// How the report of a cut plan tells its steps: what is set, taken in hand, turned, held and done first.
#include "tests/catch.h"
#include "tests/cli/cut_reports.h"

using namespace evenmat;
using testing::has;
using testing::Planned;
using testing::three_sheets;
using testing::told;

TEST_CASE("steps that many sheets share are not listed one by one") {
  Planned planned = three_sheets();
  PaperPlan& moss = planned.moss();
  for (int i = 0; i < 7; ++i) {
    moss.plan.push_back(moss.plan.back());
    moss.plan.back().letter = static_cast<char>('C' + i);
    CutStep step = moss.steps[0];
    step.number = moss.steps.size() + 1;
    step.works[1].laid = moss.plan.size() - 1;
    moss.steps.push_back(step);
  }
  const std::string report = told(planned);
  CHECK_FALSE(has(report, "Done together"));
  CHECK(has(report, " Many steps are of several sheets: look for a step's number under every letter. "));
}

TEST_CASE("each letter has its steps, which say the setting, what is cut, what comes of it and what stays") {
  const std::string report = told(three_sheets());
  CHECK(has(report,
            " Done together: steps 1 and 2 of A and B. A: 2 sheets, 89 % used: 8 moss mat (the plain card 7, "
            "for the choir 1) 1. Set 5 1/4 along the 11 side. 2 sheets, 2 cuts each: 4 strips 8 1/2 x 5 1/4; "
            "scrap 1/2; tape it. 2. Set 4. Turn 4 of 8 1/2 x 5 1/4, 2 cuts each: 8 moss mat; scrap 1/2; tape "
            "it. B: 1 sheet, "));
  CHECK(
      has(report,
          " 1. Set 5 1/4 along the 11 side. 1 sheet, 2 cuts: 2 strips 8 1/2 x 5 1/4; scrap 1/2; tape it. 2. "
          "Set 4. Turn 1 of 8 1/2 x 5 1/4, 2 cuts: 2 moss mat; scrap 1/2; tape it. Then turn 1 of 8 1/2 x "
          "5 1/4, 1 cut: 1 moss mat; keep 1 of 4 1/2 x 5 1/4. Worth keeping: "));
  CHECK(has(report, "in the order of their numbers, over all its letters"));
  CHECK(has(report, "Keep your hand on the wider part at every cut."));
  CHECK(has(report, "\"Tape it\": hold what stays under the hand with removable tape."));
}

TEST_CASE("works of one step from which the same comes off are told in one sentence") {
  Planned planned = three_sheets();
  for (CutStep& step : planned.moss().steps) {
    for (SheetWork& work : step.works) work.hold = false;
  }
  std::vector<SheetWork>& works = planned.moss().steps[1].works;
  CHECK(has(told(planned),
            " 2. Set 4. Turn 1 of 8 1/2 x 5 1/4 with 2 cuts, 1 with 1 cut: 3 moss mat; keep 1 of 4 1/2 x "
            "5 1/4; scrap 1/2. Worth keeping"));
  CHECK_FALSE(has(told(planned), "ape it"));
  works[2].from.size.width = 8;
  planned.moss().plan[1].cuts[4].width = 8;
  CHECK(has(told(planned), "1 of 8 1/2 x 5 1/4 with 2 cuts, "));
  CHECK(has(told(planned), " with 2 cuts, turn 1 of 8 x 5 1/4 with 1 cut: 3 moss mat; "));
  works[2].from.size.width = Rational(17) / 2;
  planned.moss().plan[1].cuts[4].width = Rational(17) / 2;
  // What the last takes in hand is given by a work between the two.
  SheetWork between = works[1];
  between.yields = {works[2].from};
  works = {works[0], works[1], between, works[2]};
  CHECK_FALSE(has(told(planned), "with 1 cut"));
}

TEST_CASE("strips that are cut alike are told together, whatever becomes of what comes off") {
  Planned planned = three_sheets();
  for (CutStep& step : planned.moss().steps) {
    for (SheetWork& work : step.works) work.hold = false;
  }
  SheetWork& work = planned.moss().steps[1].works[2];
  work.cuts = 2;
  work.yields = {{StepYield::What::piece, {4, Rational(21) / 4}, 0, 1},
                 {StepYield::What::leftover, {4, Rational(21) / 4}, 0, 1},
                 {StepYield::What::leftover, {Rational(1) / 2, Rational(21) / 4}, 0, 1}};
  planned.moss().plan[1].leftovers.clear();
  CHECK(
      has(told(planned), " 2. Set 4. Turn 2 of 8 1/2 x 5 1/4, 2 cuts each: 3 moss mat, 1 over; scrap 1/2."));
}

TEST_CASE("what is over comes off with the pieces, and is told there, as scrap where no piece is like it") {
  Planned planned = three_sheets();
  SheetWork& work = planned.moss().steps[1].works[0];
  work.cuts = 3;
  work.yields = {{StepYield::What::piece, {4, Rational(21) / 4}, 0, 4},
                 {StepYield::What::leftover, {4, Rational(21) / 4}, 0, 4},
                 {StepYield::What::leftover, {Rational(1) / 2, Rational(21) / 4}, 0, 4}};
  CHECK(has(told(planned), ", 3 cuts each: 4 moss mat, 4 over; scrap 1/2; tape it."));
  work.yields[0].what = StepYield::What::strip;
  CHECK(has(told(planned), ", 3 cuts each: 4 strips 4 x 5 1/4, 4 scrap; scrap 1/2; tape it."));
  work.yields[0].what = StepYield::What::piece;
  planned.moss().plan.front().leftovers.push_back({0, 0, 4, Rational(21) / 4, true});
  CHECK(has(told(planned), ", 3 cuts each: 4 moss mat, keep 4 of 4 x 5 1/4; scrap 1/2; tape it."));
}

TEST_CASE("a square sheet that may not turn says from which edge, one that may says nothing") {
  Planned planned = three_sheets();
  CutSheet& sheet = planned.moss().stock.front();
  sheet.size = {11, 11};
  CHECK(has(told(planned), " 1. Set 5 1/4. 2 sheets, "));
  sheet.up = true;
  CHECK(has(told(planned), " 1. Set 5 1/4 down from the top. 2 sheets, "));
  for (SheetWork& work : planned.moss().steps[0].works) work.across = false;
  CHECK(has(told(planned), " 1. Set 5 1/4 from the left. 2 sheets, "));
}

TEST_CASE("an untrue edge is told where it comes off") {
  Planned planned = three_sheets();
  CHECK_FALSE(has(told(planned), "untrue"));
  planned.moss().stock.front().trim_first = Rational(1) / 2;
  const std::string report = told(planned);
  CHECK(has(report, "4 strips 8 1/2 x 5 1/4; scrap 1/2, the untrue bottom edge; tape it."));
  CHECK(has(report, "8 moss mat; scrap 1/2; tape it."));
}

TEST_CASE("steps that only one letter has are not told as done together") {
  Planned planned = three_sheets();
  planned.moss().steps[0].works.pop_back();
  CHECK(has(told(planned), " Done together: step 2 of A and B. "));
  planned.moss().plan.pop_back();
  for (CutStep& step : planned.moss().steps) step.works.resize(1);
  CHECK_FALSE(has(told(planned), "Done together"));
}

TEST_CASE("what is cut on the same way is not turned, and what is not narrow is not taped") {
  Planned planned = three_sheets();
  PaperPlan& moss = planned.moss();
  // One row comes off; then another of what is left, at another setting.
  moss.plan.resize(1);
  moss.plan.front().cuts[1].at = 3;
  moss.plan.front().cuts[1].step = 2;
  const Rational rest = 11 - moss.pieces.front().size.height;
  SheetWork first = moss.steps[0].works[0];
  first.cuts = 1;
  first.hold = false;
  first.yields[1] = {StepYield::What::strip, {Rational(17) / 2, rest}, 0, 2};
  SheetWork second = first;
  second.from = first.yields[1];
  second.yields = {{StepYield::What::strip, {Rational(17) / 2, 3}, 0, 2},
                   {StepYield::What::leftover, {Rational(17) / 2, rest - 3}, 0, 2}};
  moss.steps = {{1, moss.pieces.front().size.height, {first}}, {2, 3, {second}}};
  const std::string report = told(planned);
  INFO(report);
  CHECK(has(report,
            " 1. Set 5 1/4 along the 11 side. 2 sheets, 1 cut each: 4 strips 8 1/2 x 5 1/4; 2 strips 8 1/2 x "
            "5 3/4 stay. 2. Set 3. 2 of 8 1/2 x 5 3/4, 1 cut each: 2 strips 8 1/2 x 3; scrap 2 3/4. "));
  CHECK_FALSE(has(report, "urn "));
  CHECK_FALSE(has(report, "ape it"));
}

TEST_CASE("the first card is cut before the rest, from sheets and by steps that are named") {
  Planned planned = three_sheets();
  const std::string report = told(planned);
  CHECK(has(report,
            " First card Cut the pieces of one card first, lay them together, and only then cut the "
            "rest. moss one A, steps 1 and 2: moss mat "));
  CHECK(report.find("First card") < report.find(" A: 2 sheets"));
  planned.batch.made = {{1, 0}};
  CHECK_FALSE(has(told(planned), "First card"));
}

TEST_CASE("how many go under the blade follows from the paper's weight") {
  Planned planned = three_sheets();
  CHECK(has(told(planned), " Cover: one sheet at a pass. "));
  planned.cards.front().papers.front().grams_per_square_metre->value = 120;
  CHECK(has(told(planned), " Text: two or three sheets at a pass. "));
  planned.cards.front().papers.front().grams_per_square_metre = {};
  const std::string report = told(planned);
  CHECK_FALSE(has(report, "Cover: "));
  CHECK(has(report, "one sheet of cover at a pass, or two or three of text"));
}

TEST_CASE("rough pieces have a second pass, told with what they become") {
  Planned planned = three_sheets();
  CHECK_FALSE(has(told(planned), "Second pass"));
  for (const auto& [rough, words] : std::vector<std::pair<Rough, std::string>>{
           {Rough::die, "the die cuts it to 3 3/4 x 5"},
           {Rough::by_hand, "cut out by hand to 3 3/4 x 5"},
           {Rough::stamp_first, "stamp or print it, let it dry, then trim to 3 3/4 x 5"}}) {
    for (PieceUse& use : planned.moss().pieces.front().uses) {
      use.rough = rough;
      use.finished = {Rational(15) / 4, 5};
    }
    const std::string report = told(planned);
    CHECK(has(report, " moss mat 4 x 5 1/4 " + words));
    CHECK(has(report, "rough, "));
  }
}
