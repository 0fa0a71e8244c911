// How `evenmat explore` is called: its help, and mistakes in the call.
#include <nlohmann/json.hpp>

#include "cli/call.h"
#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using testing::Folder;
using testing::Run;
using testing::run;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

evenmat::Call read(const std::vector<const char*>& words) {
  return read_call(static_cast<int>(words.size()), words.data());
}

// Two layers of which the mat's border is open.
constexpr std::string_view open_mat = R"([base]
fold  = "side"
front = "us A2"

[[layer]]
name   = "plum mat"
on     = "front"
border = "1/16 to 1/4"

[[layer]]
name   = "fern panel"
on     = "plum mat"
border = "1/16"
)";

}  // namespace

TEST_CASE("the help of explore teaches by example within the page") {
  const Run help = run({"explore", "--help"});
  CHECK(help.status == 0);
  CHECK(help.err.empty());
  CHECK(has(help.out, "Examples:\n  evenmat explore "));
  for (const char* option : {"--vary NAME.key=RANGE", "--set NAME.key=VALUE", "--keep-same NAME", "--show N",
                             "--best WHAT", "--fit", "--most", "--on \"SIZES\"", "--write N OUT.toml",
                             "--force", "--limit SECONDS", "--json", "--csv"})
    CHECK(has(help.out, option));
  for (const std::string& line : testing::lines(help.out)) {
    INFO(line);
    CHECK(columns(line) <= 80);
  }
  CHECK(has(run({"--help"}).out, "\n  evenmat explore thanks.toml "));
}

TEST_CASE("the words of a call of explore are read as they stand with changes in the order given") {
  const evenmat::Call call = read({"evenmat",
                                   "explore",
                                   "--vary",
                                   "a.border=1 to 2",
                                   "--set",
                                   "b.width=3",
                                   "one.toml",
                                   "--vary",
                                   "a.width=at least 3",
                                   "--keep-same",
                                   "c",
                                   "--keep-same",
                                   "d",
                                   "--show",
                                   "12",
                                   "--best",
                                   "waste",
                                   "--write",
                                   "3",
                                   "out.toml",
                                   "--force",
                                   "--limit",
                                   "2.5",
                                   "--json"});
  REQUIRE(std::holds_alternative<ExploreCall>(call));
  const auto& explore = std::get<ExploreCall>(call);
  CHECK(explore.file == "one.toml");
  REQUIRE(explore.changes.size() == 3);
  CHECK(explore.changes[0].vary);
  CHECK(explore.changes[0].words == "a.border=1 to 2");
  CHECK_FALSE(explore.changes[1].vary);
  CHECK(explore.changes[1].words == "b.width=3");
  CHECK(explore.changes[2].vary);
  CHECK(explore.changes[2].words == "a.width=at least 3");
  CHECK(explore.keep_same == std::vector<std::string>{"c", "d"});
  CHECK(explore.show == 12U);
  CHECK(explore.best == Best::waste);
  REQUIRE(explore.write);
  CHECK(explore.write->number == 3);
  CHECK(explore.write->path == "out.toml");
  CHECK(explore.force);
  CHECK(explore.limit == 2.5);
  CHECK(explore.json);
  CHECK_FALSE(explore.is_sweep());
}

TEST_CASE("one number that varies alone is a sweep whatever is stated beside it") {
  const auto sweep = [](const std::vector<const char*>& more) {
    std::vector<const char*> words{"evenmat", "explore", "x.toml"};
    words.insert(words.end(), more.begin(), more.end());
    const evenmat::Call call = read(words);
    REQUIRE(std::holds_alternative<ExploreCall>(call));
    return std::get<ExploreCall>(call).is_sweep();
  };
  CHECK(sweep({"--vary", "a.border=1 to 2"}));
  CHECK(sweep({"--vary", "a.border=1 to 2", "--set", "b.width=3", "--keep-same", "c", "--csv"}));
  CHECK_FALSE(sweep({}));
  CHECK_FALSE(sweep({"--set", "b.width=3"}));
  CHECK_FALSE(sweep({"--vary", "a.border=1 to 2", "--vary", "b.border=1 to 2"}));
  CHECK_FALSE(sweep({"--vary", "a.border=1 to 2", "--show", "all"}));
  CHECK_FALSE(sweep({"--vary", "a.border=1 to 2", "--best", "sheets"}));
  CHECK_FALSE(sweep({"--vary", "a.border=1 to 2", "--fit", "--most"}));
  CHECK_FALSE(sweep({"--vary", "a.border=1 to 2", "--on", "us A7"}));
}

TEST_CASE("a call of explore that is wrong ends with status 2 and one message and the way to the help") {
  struct Wrong {
    std::vector<std::string> words;
    std::string told;
  };
  for (const Wrong& wrong : std::vector<Wrong>{
           {{"explore"}, "Which card file?"},
           {{"explore", "x.toml", "--vary"}, "--vary needs something after it"},
           {{"explore", "x.toml", "--show", "0"}, "--show takes a number of cards"},
           {{"explore", "x.toml", "--show", "-1"}, "--show takes a number of cards"},
           {{"explore", "x.toml", "--show", "many"}, "\"many\" is neither"},
           {{"explore", "x.toml", "--best", "sheet"}, "Did you mean \"sheets\"?"},
           {{"explore", "x.toml", "--best", ""}, "--best takes \"sheets\", \"cost\", \"waste\""},
           {{"explore", "x.toml", "--write", "3"}, "--write"},
           {{"explore", "x.toml", "--write", "three", "out.toml"}, "\"three\" is no number"},
           {{"explore", "x.toml", "--write", "0", "out.toml"}, "\"0\" is no number"},
           {{"explore", "x.toml", "--force"}, "--force is of use only with --write or --draw."},
           {{"explore", "x.toml", "--most"}, "--most is of use only with --fit."},
           {{"explore", "x.toml", "--json", "--csv"}, "--json cannot go with --csv"},
           {{"explore", "x.toml", "--fit", "--show", "3"}, "--fit cannot go with --show"},
           {{"explore", "x.toml", "--fit", "--best", "waste"}, "--fit cannot go with --best"},
           {{"explore", "x.toml", "--on", "us A7", "--fit"}, "--on cannot go with --fit"},
           {{"explore", "x.toml", "--on", "us A7", "--best", "waste"}, "--on cannot go with --best"},
           {{"explore", "x.toml", "--on", "us A7", "--show", "2"}, "--on cannot go with --show"},
           {{"explore", "x.toml", "--on", "us A7", "--write", "1", "y"}, "--on cannot go with --write"},
           {{"explore", "x.toml", "--on", "us A7", "--keep-same", "a"}, "--on cannot go with --keep-same"},
           {{"explore", "x.toml", "--limit", "soon"}, "--limit takes a number of seconds"},
           {{"explore", "x.toml", "--bset"}, "\"--bset\" is not an option of evenmat explore."},
           {{"explor", "x.toml"}, "There is no command \"explor\". Did you mean \"explore\"?"}}) {
    const Run told = run(wrong.words);
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty() == !has(told.err, "--json cannot"));
    CHECK(has(told.err, wrong.told));
    CHECK(has(told.err, "--help"));
    CHECK(testing::lines(told.err).size() == 2);
    std::vector<std::string> in_json = wrong.words;
    in_json.emplace(in_json.begin() + 1, "--json");
    CHECK(nlohmann::json::parse(run(in_json).out).at("verdict") == "invalid");
  }
}

TEST_CASE("what a call states that cannot stand in the card is told with the words of the call") {
  const Folder folder;
  const std::string card = folder.file("card.toml", open_mat);
  struct Wrong {
    std::vector<std::string> words;
    std::string option;
    std::vector<std::string> told;
  };
  for (const Wrong& wrong : std::vector<Wrong>{
           {{"--vary", "plum mat.border=1/4 to 1/16"}, "--vary \"plum mat.border=1/4 to 1/16\": ", {}},
           {{"--vary", "plumb mat.border=1/16 to 1/4"},
            "--vary \"plumb mat.border=1/16 to 1/4\": ",
            {"plum mat"}},
           {{"--set", "plum mat.boarder=1/8"}, "--set \"plum mat.boarder=1/8\": ", {"border"}},
           {{"--vary", "plum mat.border=1/8"}, "--vary \"plum mat.border=1/8\": ", {"one value", "--set"}},
           {{"--vary", "plum mat.role=mat"}, "--vary \"plum mat.role=mat\": ", {"one value", "--set"}},
           {{"--vary", "plum mat.border"}, "--vary \"plum mat.border\": ", {}},
           {{"--set", "plum mat.border=1/8", "--vary", "fern panel.border=some"},
            "--vary \"fern panel.border=some\": ",
            {}},
           {{"--set", "plum mat.role=rug", "--vary", "fern panel.border=1/16 to 1/8"},
            "--set \"plum mat.role=rug\": ",
            {"mat"}},
           {{"--set", "plum mat.border=1/8", "--vary", "plum mat.border=1/16 to 1/4"},
            "--vary \"plum mat.border=1/16 to 1/4\": ",
            {"states this already"}},
           {{"--keep-same", "plum mta"}, "--keep-same: ", {"\"plum mta\"", "Did you mean \"plum mat\"?"}}}) {
    std::vector<std::string> words{"explore", card};
    words.insert(words.end(), wrong.words.begin(), wrong.words.end());
    const Run told = run(words);
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    CHECK(has(told.err, "evenmat: " + wrong.option));
    for (const std::string& part : wrong.told) CHECK(has(told.err, part));
    words.emplace_back("--json");
    const auto json = nlohmann::json::parse(run(words).out);
    CHECK(json.at("verdict") == "invalid");
    CHECK(has(json.at("errors").at(0).at("says").get<std::string>(), wrong.option));
  }
}

TEST_CASE("a mistake that is in the file already is shown there whatever the call states") {
  const Folder folder;
  const std::string card = folder.file("card.toml", "[base]\nfold = \"sde\"\nfront = \"us A2\"\n");
  const Run told = run({"explore", card, "--set", "base.fold=side"});
  CHECK(told.status == 2);
  CHECK(has(told.err, "card.toml:2:8: "));
  CHECK(run({"explore", "no-such-card.toml"}).status == 2);
}
