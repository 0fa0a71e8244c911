// The sizes that suit the paper, over values made by hand.
#include <nlohmann/json.hpp>

#include "cli/explore/fit.h"
#include "cli/json_explore.h"
#include "tests/catch.h"
#include "tests/cli/explore_values.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const Style plain;

struct MadeFit : MadeCard {
  FitCard fit;

  MadeFit() {
    fit.open = {border()};
    fit.as_sized = at(2, 3, 6);
    fit.as_sized.as_sized = true;
    fit.best = at(1, 2, 9);
    fit.proven = true;
    fit.at_least = 4;
    fit.count = 4;
  }
  [[nodiscard]] std::string told(bool most = false) const {
    const Source where = source();
    return on_one_page(fit_text(where, card, fit, most, plain));
  }
  void runs_short() {
    fit.best.costs.enough = fit.as_sized.costs.enough = false;
    fit.best.costs.papers[0].missing = 1;
    fit.best.costs.missing = 1;
  }
};

Loosening loosened() {
  Loosening one;
  one.name = "plum mat";
  one.key = "border";
  one.spot = {5, 10};
  one.from = "1/16 to 1/4";
  one.to = "1/16 to 5/16";
  one.by = sixteenths(1);
  one.costs.sheets = 3;
  return one;
}

}  // namespace

TEST_CASE("sizes that take less paper are told with what changes and that nothing takes less") {
  CHECK(MadeFit().told() ==
        "Open: border of plum mat, 1/16 to 1/4 in.\n"
        "\n"
        "Sheets for 12 cards  as sized  best sizes\n"
        "  plum               3         2\n"
        "  fern               2         2\n"
        "  waste              25 %      33 %\n"
        "\n"
        "The border of plum mat: 1/8 to 1/16.\n"
        "One sheet of plum gives 9 cards in place of 6.\n"
        "The batch takes 2 sheets of plum in place of 3.\n"
        "That no card that explore lists takes fewer sheets is proven.\n");
}

TEST_CASE("a card that suits the paper as it is says so") {
  MadeFit made;
  made.fit.best = made.fit.as_sized;
  CHECK(has(made.told(), "\nThe card as sized is already the best within the wishes.\n"));
  made.fit.proven = false;
  const std::string told = flowing(made.told());
  CHECK(has(told, "Nothing better than the card as sized was found."));
  CHECK(has(told, "takes fewer sheets is not known; fewer than 4 sheets in all none can take."));
}

TEST_CASE("a batch that does not come out tells what is missing and which wish to loosen") {
  MadeFit made;
  made.runs_short();
  made.fit.most = 9;
  made.fit.most_as_sized = 6;
  made.fit.loosen = {loosened()};
  const std::string told = made.told();
  CHECK(has(told, "\nThe batch does not come out of the paper on hand.\n  Of plum 1 sheet is missing.\n"));
  CHECK(has(flowing(told),
            "Within the wishes 9 cards of the batch can be made of what is there, and 6 of the "
            "card as sized."));
  CHECK(has(told, "That no card that explore lists leaves fewer sheets missing is proven.\n"));
  CHECK(has(told,
            "It comes out if this wish is loosened:\n"
            "  line 5: \"1/16 to 1/4\" -> \"1/16 to 5/16\"\n"
            "    The border of plum mat 1/16 in more; the batch takes 3 sheets then.\n"));
  CHECK(status_of(made.fit, false) == Status::cannot_be_built);
  CHECK(status_of(made.fit, true) == Status::done);
  made.fit.loosen.clear();
  CHECK(has(made.told(), "No size, border, distance or gap of a layer lets the batch come out"));
  made.fit.loosen_known = false;
  CHECK(has(made.told(), "is not known."));
}

TEST_CASE("the most cards are told beside those that the card as sized gives") {
  MadeFit made;
  made.runs_short();
  made.fit.most = made.fit.most_as_sized = 9;
  const std::string told = flowing(made.told(true));
  CHECK(has(told, "With these sizes the paper gives 9 cards, as many as with the card as sized."));
  CHECK(has(told, "That no card that explore lists gives more is proven."));
  CHECK_FALSE(has(told, "loosened"));
  made.fit.most.reset();
  CHECK(has(flowing(made.told(true)), "No paper sets a limit"));
  made.fit.most = 0;
  CHECK(status_of(made.fit, true) == Status::cannot_be_built);
}

TEST_CASE("what the limit left open is no answer unless the best is proven") {
  MadeFit made;
  made.fit.time_ran_out = true;
  CHECK(status_of(made.fit, false) == Status::done);
  made.fit.proven = false;
  CHECK(status_of(made.fit, false) == Status::limit_reached);
  made.runs_short();
  CHECK(status_of(made.fit, false) == Status::limit_reached);
}

TEST_CASE("in JSON a fit tells the batch as sized and the best and what changes between them") {
  MadeFit made;
  const auto json = nlohmann::json::parse(json_fit(made.card, made.fit, false, {}));
  CHECK(json["verdict"] == "explored");
  CHECK(json["shown"] == 1);
  CHECK(json["count"] == 4);
  CHECK(json["alternatives"][0]["amounts"][0] == "1/16");
  CHECK(json["as_sized"]["amounts"][0] == "1/8");
  CHECK(json["as_sized"]["papers"][0]["sheets"] == 3);
  CHECK(json["fit"]["enough"] == true);
  CHECK(json["fit"]["proven"] == true);
  CHECK(json["fit"]["at_least"] == 4);
  const auto change = json["fit"]["changes"][0];
  CHECK(change["name"] == "plum mat");
  CHECK(change["key"] == "border");
  CHECK(change["from"] == "1/8");
  CHECK(change["to"] == "1/16");
  CHECK_FALSE(json["fit"].contains("most"));

  made.runs_short();
  made.fit.most = 9;
  made.fit.most_as_sized = 6;
  made.fit.loosen = {loosened()};
  const auto short_of = nlohmann::json::parse(json_fit(made.card, made.fit, false, {}));
  CHECK(short_of["verdict"] == "short");
  CHECK(short_of["fit"]["most"] == 9);
  CHECK(short_of["fit"]["most_as_sized"] == 6);
  CHECK(short_of["loosen"][0]["to"] == "1/16 to 5/16");
  CHECK(short_of["loosen"][0]["by"] == "1/16");
  CHECK(short_of["alternatives"][0]["papers"][0]["missing"] == 1);
}
