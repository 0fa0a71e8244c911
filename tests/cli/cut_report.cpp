// The report of a cut plan, but for its steps, held against plans put together by hand.
#include "tests/catch.h"
#include "tests/cli/cut_reports.h"

using namespace evenmat;
using testing::flowing;
using testing::has;
using testing::Planned;
using testing::three_sheets;
using testing::told;

namespace {

CutSheet offcut(CutSheet::From from, const std::string& of) {
  CutSheet sheet;
  sheet.from = from;
  sheet.size = {1, Rational(11) / 2};
  sheet.have = 11;
  sheet.comes_of = of;
  return sheet;
}

// Short of paper: so many cards can be made, and these.
Planned short_of_paper(int most, std::vector<int> made) {
  Planned planned = three_sheets();
  planned.batch.verdict = CutVerdict::short_of_paper;
  planned.batch.most = most;
  planned.batch.most_proven = true;
  planned.batch.made = {std::move(made)};
  return planned;
}

}  // namespace

TEST_CASE("the report says what the plan is for") {
  const std::string report = told(three_sheets());
  CHECK(report.starts_with("Fern fair 10 cards and 1 spare: the plain card 7, for the choir 4 "));
  CHECK_FALSE(has(report, "planned here"));
  CHECK_FALSE(has(report, "No spare is counted"));
}

TEST_CASE("spares are suggested where none are spoken of: one in ten, and at least one") {
  Planned planned = three_sheets();
  planned.cards.front().spare = 0;
  CutTelling telling = planned.telling();
  telling.no_spare_stated = {0};
  for (const auto& [cards, spare] : std::vector<std::pair<int, std::string>>{
           {4, "spare = 1 "}, {10, "spare = 1 "}, {19, "spare = 1 "}, {20, "spare = 2 "}}) {
    planned.cards.front().cards = cards;
    CHECK(has(flowing(cut_report(telling, false)), spare));
  }
}

TEST_CASE("fewest is said of a plan only where it is proven, else how few it could be") {
  Planned planned = three_sheets();
  CHECK(has(told(planned), " 3 sheets of 8 1/2 x 11, the fewest possible. "));
  planned.moss().proven = false;
  planned.moss().at_least = 2;
  const std::string report = told(planned);
  CHECK(has(report, " 3 sheets of 8 1/2 x 11; no plan can use fewer than 2. "));
  CHECK_FALSE(has(report, "fewest"));
}

TEST_CASE("where costs are stated the least cost is told, or its bound") {
  Planned planned = three_sheets();
  planned.moss().cost = Rational(9) / 4;
  planned.moss().cost_at_least = Rational(3) / 2;
  CHECK(has(told(planned), " 3 sheets of 8 1/2 x 11, at a cost of 2.25, the least possible. "));
  planned.moss().proven = false;
  CHECK(has(told(planned), "at a cost of 2.25; no plan can cost less than 1.5. "));
}

TEST_CASE("sheets of several sizes are counted by size") {
  Planned planned = three_sheets();
  planned.moss().stock.push_back(planned.moss().stock.front());
  planned.moss().stock.back().size = {12, 12};
  planned.moss().plan.back().sheet = 1;
  CHECK(has(told(planned), " 3 sheets (2 of 8 1/2 x 11, 1 of 12 x 12), the fewest possible. "));
}

TEST_CASE(
    "that narrower trims would save sheets is told with what to state, of a short batch beside what is "
    "missing") {
  Planned planned = three_sheets();
  CHECK_FALSE(has(told(planned), "sliver"));
  planned.moss().with_narrower_trims = {Rational(1) / 16, 2};
  CHECK(has(told(planned),
            "With trims as narrow as 1/16 in ([trimmer] sliver = \"1/16\") 2 sheets would do. moss mat 11 "));
  planned.batch.verdict = CutVerdict::short_of_paper;
  planned.batch.most = 9;
  Shortage shortage;
  shortage.says = "One moss sheet more.";
  planned.moss().missing = {shortage};
  planned.moss().with_narrower_trims = {0, 1};
  CHECK(has(told(planned),
            " One moss sheet more. With trims of any width ([trimmer] sliver = \"0\") 1 sheet would do. "));
}

TEST_CASE("where there is no paper to cut nothing is told of cutting") {
  Planned planned = three_sheets();
  planned.batch.papers.clear();
  const std::string report = told(planned);
  CHECK(has(report, " Nothing is cut: no part of it has a paper to be cut from. Not cut base "));
  CHECK_FALSE(has(report, "First card"));
  CHECK_FALSE(has(report, "blade"));
}

TEST_CASE("numbers in a row are told by the first and the last") {
  const auto word = [](std::size_t number) { return std::to_string(number); };
  CHECK(run_words({1}, word) == "1");
  CHECK(run_words({1, 2}, word) == "1 and 2");
  CHECK(run_words({1, 2, 3}, word) == "1 to 3");
  CHECK(run_words({1, 3, 4, 5, 6, 8}, word) == "1, 3 to 6 and 8");
}

TEST_CASE("piles are told by layer, with how many, for whom, and what each letter gives to them") {
  const std::string report = told(three_sheets());
  CHECK(has(report, " moss mat 11 of 4 x 5 1/4 one for every card "));
  CHECK(has(report, " A: 2 sheets, 89 % used: 8 moss mat (the plain card 7, for the choir 1) "));
  CHECK(has(report, " B: 1 sheet, 67 % used: 3 moss mat (for the choir) "));
}

TEST_CASE("a pile for some cards and not for others says which") {
  Planned planned = three_sheets();
  planned.batch.made = {{6, 5}};
  CHECK(has(told(planned), " moss mat 11 of 4 x 5 1/4 the plain card 7, for the choir 4 "));
  planned.batch.made = {{14, 8}};
  CHECK(has(told(planned), " moss mat 11 of 4 x 5 1/4 the plain card 7, for the choir 4 "));
  planned.moss().pieces.front().uses.pop_back();
  planned.moss().pieces.front().count = 7;
  for (LaidSheet& laid : planned.moss().plan) {
    for (LabelledRun& run : laid.runs) run.uses.assign(run.uses.size(), 0);
  }
  const std::string report = told(planned);
  CHECK(has(report, " moss mat 7 of 4 x 5 1/4 only the plain card "));
  CHECK(has(report, " A: 2 sheets, 89 % used: 8 moss mat 1. "));
}

TEST_CASE("what is true of all piles of a paper is said once") {
  Planned planned = three_sheets();
  PaperPlan& moss = planned.moss();
  moss.pieces.push_back(moss.pieces.front());
  moss.pieces.back().size = {2, 3};
  for (PieceUse& use : moss.pieces.back().uses) use.layer = "label";
  for (CutPiece& piece : moss.pieces) piece.turned = false;
  std::string report = told(planned);
  CHECK(has(
      report,
      " moss mat 11 of 4 x 5 1/4 label 11 of 2 x 3 Of each: one for every card. None of these may turn. "));
  moss.pieces.front().turned = true;
  report = told(planned);
  CHECK(
      has(report, " moss mat 11 of 4 x 5 1/4 label 11 of 2 x 3 may not turn Of each: one for every card. "));
}

TEST_CASE("that all sheets are cut alike is said once, and of more than one sheet") {
  Planned planned = three_sheets();
  CHECK_FALSE(has(told(planned), "all cut alike"));
  planned.moss().plan.pop_back();
  planned.moss().sheets = 2;
  CHECK(has(told(planned), " 2 sheets of 8 1/2 x 11, all cut alike, the fewest possible. "));
  planned.moss().plan.front().times = 1;
  planned.moss().sheets = 1;
  CHECK(has(told(planned), " 1 sheet of 8 1/2 x 11, the fewest possible. "));
}

TEST_CASE("no line ends within a size") {
  const Planned planned = three_sheets();
  const std::string report = cut_report(planned.telling(), false);
  CHECK_FALSE(has(report, "\u00A0"));
  for (const std::string& line : testing::lines(report)) {
    INFO(line);
    CHECK_FALSE(line.ends_with(" x"));
  }
}

TEST_CASE("a paper's use is never rounded up") {
  Planned planned = three_sheets();
  planned.moss().plan.front().used = Rational(9999) / 10000;
  CHECK(has(told(planned), " A: 2 sheets, 99 % used: "));
}

TEST_CASE("which versions all layers of a letter are for is told once where it is the same") {
  Planned planned = three_sheets();
  PaperPlan& moss = planned.moss();
  moss.pieces.push_back(moss.pieces.front());
  for (PieceUse& use : moss.pieces.back().uses) use.layer = "label";
  for (LaidSheet& laid : moss.plan) {
    const std::size_t pieces = laid.pieces.size();
    for (std::size_t i = 0; i < pieces; ++i) {
      laid.pieces.push_back(laid.pieces[i]);
      laid.pieces.back().kind = 1;
    }
    for (LabelledRun& run : laid.runs) {
      const std::vector<std::size_t> uses = run.uses;
      run.uses.insert(run.uses.end(), uses.begin(), uses.end());
    }
  }
  CHECK(has(told(planned), " 8 moss mat, 8 label (of each: the plain card 7, for the choir 1) "));
}

TEST_CASE("a piece is told by its size only where its layer is cut in several") {
  Planned planned = three_sheets();
  PaperPlan& moss = planned.moss();
  CHECK(has(told(planned), ": 8 moss mat; scrap"));
  moss.pieces.push_back(moss.pieces.front());
  moss.pieces.back().size = {2, 3};
  CHECK(has(told(planned), ": 8 moss mat, 4 x 5 1/4; scrap"));
}

TEST_CASE("a layer that lies the other way in its kind is told as it stands on the card") {
  Planned planned = three_sheets();
  planned.moss().pieces.front().uses.back().turned = true;
  planned.moss().pieces.front().uses.back().finished = {Rational(21) / 4, 4};
  CHECK(has(told(planned), " moss mat 4 of 5 1/4 x 4 only for the choir "));
}

TEST_CASE("a piece that may not turn says so") {
  Planned planned = three_sheets();
  planned.moss().pieces.front().turned = false;
  CHECK(has(told(planned), "may not turn"));
}

TEST_CASE("leftovers worth keeping, whole sheets and offcuts that are left are told") {
  Planned planned = three_sheets();
  planned.moss().stock.push_back(offcut(CutSheet::From::cut_back, "front"));
  const std::string report = told(planned);
  CHECK(has(report,
            " Worth keeping: 1 of 4 1/2 x 5 1/4. Not touched: 1 sheet of 8 1/2 x 11. Also left: 11 of "
            "1 x 5 1/2 from the cut-back of the front. "));
}

TEST_CASE("what is cut from offcuts is no sheet, and says what gives it") {
  Planned planned = three_sheets();
  PaperPlan& moss = planned.moss();
  const std::vector<std::pair<CutSheet::From, std::string>> all{
      {CutSheet::From::cut_back,
       "from the cut-back of the fern, once the bases are scored, folded and trimmed"},
      {CutSheet::From::window, "from what comes out of fern, once that is cut out"},
      {CutSheet::From::hollow, "from the hidden middle of fern, once that is cut away"}};
  for (const auto& [from, words] : all) {
    moss.stock = {offcut(from, "fern")};
    moss.sheets = 0;
    const std::string report = told(planned);
    CHECK(has(report, "No sheet: all of it comes of what other cuts give up."));
    CHECK(has(report, "A: 2 pieces of 1 x 5 1/2 " + words + ", 89 % used: 8 moss mat"));
    CHECK(has(report, "along the 5 1/2 side. 2 pieces, 2 cuts each: "));
  }
}

TEST_CASE("a batch that is short says what is missing and what the plan is for instead") {
  Planned planned = short_of_paper(9, {7, 2});
  Shortage shortage;
  shortage.sheet = {12, 12};
  shortage.sheets = 1;
  shortage.says = "One moss sheet more.";
  planned.moss().missing = {shortage};
  std::string report = told(planned);
  CHECK(has(report, "10 cards and 1 spare, planned here for 9: the plain card 7, for the choir 2 "));
  CHECK(has(report,
            " There is not paper enough for the whole batch. One moss sheet more. 9 cards can be made "
            "of what is there, and no more; the plan is for those. "));
  planned.batch.most_proven = false;
  report = told(planned);
  CHECK(has(report, "9 cards can be made of what is there; whether more can was not found out."));
  CHECK_FALSE(has(report, "no more"));
}

TEST_CASE("where not one card can be made, only what is to be cut is told") {
  Planned planned = short_of_paper(0, {0, 0});
  planned.moss().plan.clear();
  planned.moss().steps.clear();
  const std::string report = told(planned);
  CHECK(has(report, "Not one card can be made of what is there."));
  CHECK(has(report, " moss mat 11 of 4 x 5 1/4 "));
  CHECK_FALSE(has(report, "First card"));
  CHECK_FALSE(has(report, " A: "));
  CHECK_FALSE(has(report, "fewest"));
}

TEST_CASE("as many as the paper gives are told when asked for, and when nothing sets a limit") {
  Planned planned = three_sheets();
  CHECK_FALSE(has(told(planned), "can be made"));
  CHECK(has(told(planned, true), "No paper sets a limit"));
  planned.batch.most = 11;
  planned.batch.most_proven = true;
  // All that is stated of two versions: whether more can be made was not looked for.
  std::string report = told(planned, true);
  CHECK(has(report, "The paper is enough for all cards stated."));
  CHECK_FALSE(has(report, "no more"));
  planned.batch.made = {{11, 0}};
  report = told(planned, true);
  CHECK(has(report, "11 cards can be made of what is there, and no more; the plan is for those."));
  CHECK_FALSE(has(report, "all cards stated"));
  planned.batch.made = {{7, 3}};
  planned.batch.most = 10;
  CHECK(has(told(planned, true), "10 cards can be made of what is there, and no more"));
}

TEST_CASE("where nothing was planned no plan is shown") {
  Planned planned = three_sheets();
  planned.batch.verdict = CutVerdict::undecided;
  planned.moss().trouble = "Its sizes are too odd.";
  std::string report = told(planned);
  CHECK(has(report, "No plan was found. moss: Its sizes are too odd."));
  CHECK_FALSE(has(report, " A: "));
  planned.batch.time_ran_out = true;
  CHECK(has(told(planned), "No plan was found within the time allowed."));
}

TEST_CASE("what is cut from no paper, totals and cautions end the report") {
  const std::string report = told(three_sheets());
  CHECK(has(report, " Not cut base it states no paper "));
  CHECK(has(report, " foam 12.5 square inches "));
  CHECK(has(report, " adhesive 204 in (17 ft) "));
  CHECK(has(report, " ribbon 22 "));
  CHECK(has(report, "fresh blade"));
  CHECK(has(report, "behind the guard or the rule"));
  CHECK(has(report, "removable tape"));
  CHECK(has(report, "the maker of your trimmer"));
}

TEST_CASE("totals in millimetres are told in metric units") {
  Planned planned = three_sheets();
  planned.cards.front().unit = Unit::millimetre;
  planned.batch.totals.foam = 1234;
  planned.batch.totals.adhesive = 20450;
  const std::string report = told(planned);
  CHECK(has(report, " foam about 12.4 square centimetres "));
  CHECK(has(report, " adhesive about 20.5 m "));
}

TEST_CASE("cards cut together are told apart by title, or by file where titles are alike") {
  Planned planned = three_sheets();
  planned.add("moor.toml", testing::fern_fair);
  planned.batch.made.push_back({0, 0});
  CHECK(has(told(planned),
            "Cut together: 2 card files fern.toml: 10 cards and 1 spare: the plain card 7, for "
            "the choir 4 moor.toml: 10 cards and 1 spare "));
  planned.cards.back().title = "Moor fair";
  const std::string report = told(planned);
  CHECK(has(report, " Fern fair: 10 cards and 1 spare"));
  CHECK(has(report, " moss mat (Fern fair) 11 of 4 x 5 1/4 "));
  CHECK(has(report, " 8 moss mat (Fern fair) (the plain card 7, for the choir 1) "));
}
