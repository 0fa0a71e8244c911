// A cut plan in JSON, held against plans put together by hand.
#include <nlohmann/json.hpp>

#include "cli/json_cut.h"
#include "tests/catch.h"
#include "tests/cli/cut_plans.h"

using namespace evenmat;
using Json = nlohmann::json;
using testing::Planned;
using testing::three_sheets;

namespace {

Json answer(const Planned& planned) { return Json::parse(json_cut(planned.batch_cards, planned.batch)); }

}  // namespace

TEST_CASE("the JSON of a plan has the shape that is promised") {
  const Json json = answer(three_sheets());
  CHECK(json.at("verdict") == "planned");
  CHECK(json.at("unit") == "in");
  CHECK(json.at("title") == "Fern fair");
  CHECK(json.at("cards") == Json::parse(R"([{"file": "fern.toml", "title": "Fern fair", "versions":
    [{"name": "", "cards": 7}, {"name": "for the choir", "cards": 4}]}])"));
  CHECK(json.at("no_paper") ==
        Json::parse(R"([{"layer": "base", "file": "fern.toml", "says": "it states no paper"}])"));
  CHECK(json.at("missing").empty());
  CHECK_FALSE(json.contains("most"));
  CHECK(json.at("foam") == "25/2");
  CHECK(json.at("adhesive") == "204");
  CHECK(json.at("supplies") == Json::parse(R"([{"name": "ribbon", "total": "22"}])"));

  REQUIRE(json.at("papers").size() == 1);
  const Json& moss = json.at("papers").at(0);
  CHECK(moss.at("paper") == "moss");
  CHECK(moss.at("sheets") == 3);
  CHECK(moss.at("at_least") == 3);
  CHECK(moss.at("proven") == true);
  CHECK_FALSE(moss.contains("cost"));
  const Json& kind = moss.at("kinds").at(0);
  CHECK(kind.at("width") == "4");
  CHECK(kind.at("height") == "21/4");
  CHECK(kind.at("count") == 11);
  CHECK(kind.at("may_turn") == true);
  CHECK(kind.at("uses").at(1).at("variant") == "for the choir");
  CHECK(kind.at("uses").at(1).at("count") == 4);
  CHECK(kind.at("uses").at(1).at("rough") == "none");
  CHECK(moss.at("stock").at(0).at("from") == "stated");
  CHECK(moss.at("stock").at(0).at("have") == 4);
  CHECK(moss.at("leftovers") == Json::parse(R"([{"width": "9/2", "height": "21/4", "count": 1}])"));
}

TEST_CASE("sheets whose pieces go to different piles are told apart under one letter") {
  const Json moss = answer(three_sheets()).at("papers").at(0);
  const Json& plan = moss.at("plan");
  REQUIRE(plan.size() == 3);
  CHECK(plan.at(0).at("sheet") == "A");
  CHECK(plan.at(1).at("sheet") == "A");
  CHECK(plan.at(2).at("sheet") == "B");
  std::map<std::string, int> cut;
  int sheets = 0;
  for (const Json& entry : plan) {
    sheets += entry.at("times").get<int>();
    for (const Json& piece : entry.at("pieces"))
      cut[piece.at("variant").get<std::string>()] += entry.at("times").get<int>();
  }
  CHECK(sheets == moss.at("sheets"));
  CHECK(cut == std::map<std::string, int>{{"", 7}, {"for the choir", 4}});
  CHECK(plan.at(0).at("cuts") == plan.at(1).at("cuts"));
  CHECK(plan.at(2).at("cuts").at(0) ==
        Json::parse(R"({"x": "0", "y": "0", "width": "17/2", "height": "11", "across": true, "at": "21/4",
    "step": 1})"));
  CHECK(plan.at(2).at("leftovers").at(1) ==
        Json::parse(R"({"x": "4", "y": "21/4", "width": "9/2", "height": "21/4", "keep": true})"));
  CHECK(plan.at(0).at("used") == 89.8);
  CHECK(plan.at(2).at("used") == 67.4);
}

TEST_CASE("steps carry what they take, what they give and how they are held") {
  const Json steps = answer(three_sheets()).at("papers").at(0).at("steps");
  REQUIRE(steps.size() == 2);
  CHECK(steps.at(0).at("step") == 1);
  CHECK(steps.at(0).at("set") == "21/4");
  const Json& work = steps.at(0).at("works").at(0);
  CHECK(work.at("sheet") == "A");
  CHECK(work.at("across") == true);
  CHECK(work.at("from") == Json::parse(R"({"what": "strip", "width": "17/2", "height": "11", "count": 2})"));
  CHECK(work.at("cuts") == 2);
  CHECK(work.at("hold") == true);
  CHECK(work.at("yields").at(1).at("what") == "leftover");
  const Json& mats = steps.at(1).at("works").at(0).at("yields").at(0);
  CHECK(mats == Json::parse(R"({"what": "piece", "kind": 0, "width": "4", "height": "21/4", "count": 8})"));
}

TEST_CASE("a piece is told to be turned against its layer, whichever way its kind was counted") {
  Planned planned = three_sheets();
  planned.moss().pieces.front().uses.back().turned = true;
  const Json plan = answer(planned).at("papers").at(0).at("plan");
  CHECK(plan.at(0).at("pieces").at(0).at("turned") == false);
  CHECK(plan.at(2).at("pieces").at(0).at("turned") == true);
  planned.moss().plan.back().pieces.front().turned = true;
  CHECK(answer(planned).at("papers").at(0).at("plan").at(2).at("pieces").at(0).at("turned") == false);
}

TEST_CASE("offcuts say what they come of and are told apart from sheets") {
  Planned planned = three_sheets();
  for (const auto& [from, name] :
       std::vector<std::pair<CutSheet::From, std::string>>{{CutSheet::From::cut_back, "cut-back"},
                                                           {CutSheet::From::window, "window"},
                                                           {CutSheet::From::hollow, "hollow"},
                                                           {CutSheet::From::more, "more"}}) {
    planned.moss().stock.front().from = from;
    planned.moss().stock.front().comes_of = "fern";
    const Json moss = answer(planned).at("papers").at(0);
    CHECK(moss.at("stock").at(0).at("from") == name);
    CHECK(moss.at("stock").at(0).at("of") == "fern");
    CHECK(moss.at("plan").at(0).at("offcut") == (from != CutSheet::From::more));
  }
}

TEST_CASE("what is short is told for each paper, with the most cards") {
  Planned planned = three_sheets();
  planned.batch.verdict = CutVerdict::short_of_paper;
  planned.batch.most = 9;
  planned.batch.most_proven = true;
  Shortage sheets;
  sheets.sheet = {12, 12};
  sheets.sheets = 2;
  sheets.at_least = 1;
  sheets.says = "Two more.";
  Shortage large = sheets;
  large.by = Rational(1) / 4;
  large.too_large = planned.moss().pieces.front();
  planned.moss().missing = {sheets, large};
  const Json json = answer(planned);
  CHECK(json.at("verdict") == "short");
  CHECK(json.at("most") == 9);
  CHECK(json.at("most_proven") == true);
  REQUIRE(json.at("missing").size() == 2);
  CHECK(json.at("missing").at(0) == Json::parse(R"({"paper": "moss", "sheets": 2, "at_least": 1,
    "width": "12", "height": "12", "says": "Two more."})"));
  CHECK(json.at("missing").at(1).at("by") == "1/4");
  CHECK(json.at("missing").at(1).at("too_large").at("width") == "4");
}

TEST_CASE("costs, rough sizes and a trimmed edge are told where there are any") {
  Planned planned = three_sheets();
  planned.moss().cost = Rational(9) / 4;
  planned.moss().cost_at_least = 2;
  planned.moss().stock.front().cost = Rational(3) / 4;
  planned.moss().stock.front().trim_first = Rational(1) / 4;
  planned.moss().stock.front().grain = "long";
  planned.moss().pieces.front().uses.front().rough = Rough::stamp_first;
  planned.moss().pieces.front().turned = false;
  const Json moss = answer(planned).at("papers").at(0);
  CHECK(moss.at("cost") == "9/4");
  CHECK(moss.at("cost_at_least") == "2");
  CHECK(moss.at("stock").at(0).at("cost") == "3/4");
  CHECK(moss.at("stock").at(0).at("trim_first") == "1/4");
  CHECK(moss.at("stock").at(0).at("grain") == "long");
  CHECK(moss.at("kinds").at(0).at("may_turn") == false);
  CHECK(moss.at("kinds").at(0).at("uses").at(0).at("rough") == "stamp-first");
}

TEST_CASE("that narrower trims would save sheets is told where it is known") {
  Planned planned = three_sheets();
  CHECK_FALSE(answer(planned).at("papers").at(0).contains("with_narrower_trims"));
  planned.moss().with_narrower_trims = {Rational(1) / 16, 2};
  CHECK(answer(planned).at("papers").at(0).at("with_narrower_trims") ==
        Json::parse(R"({"sheets": 2, "sliver": "1/16"})"));
}

TEST_CASE("mistakes are told with their file, if they are in one") {
  const Json json = Json::parse(json_mistakes_in_files({{"a.toml", {{3, 2}, "One."}}, {"", {{}, "Two."}}}));
  CHECK(json == Json::parse(R"({"verdict": "invalid", "errors":
    [{"file": "a.toml", "line": 3, "column": 2, "says": "One."}, {"says": "Two."}]})"));
}
