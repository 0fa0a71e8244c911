// How `evenmat cut` is called: its help, and mistakes in the call.
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

}  // namespace

TEST_CASE("the help of cut teaches by example, within the page") {
  const Run help = run({"cut", "--help"});
  CHECK(help.status == 0);
  CHECK(help.err.empty());
  CHECK(has(help.out, "Examples:\n  evenmat cut "));
  for (const char* option : {"--also LEFTOVERS.toml", "--keep OUT.toml", "--force", "--most",
                             "--grain-along-fold", "--limit SECONDS", "--json", "[[paper]]", "[trimmer]"})
    CHECK(has(help.out, option));
  for (const std::string& line : testing::lines(help.out)) {
    INFO(line);
    CHECK(columns(line) <= 80);
  }
  CHECK(has(run({"--help"}).out, "\n  evenmat cut thanks.toml "));
}

TEST_CASE("the words of a call of cut are read as they stand, in any order") {
  const std::vector<const char*> words{
      "evenmat", "cut",     "--also", "a.toml",   "one.toml", "--also", "b.toml", "--most",
      "-",       "--force", "--keep", "out.toml", "--limit",  "2.5",    "--json", "--grain-along-fold"};
  const evenmat::Call call = read_call(static_cast<int>(words.size()), words.data());
  REQUIRE(std::holds_alternative<CutCall>(call));
  const auto& cut = std::get<CutCall>(call);
  CHECK(cut.files == std::vector<std::string>{"one.toml", "-"});
  CHECK(cut.also == std::vector<std::string>{"a.toml", "b.toml"});
  CHECK(cut.keep == "out.toml");
  CHECK(cut.force);
  CHECK(cut.most);
  CHECK(cut.grain_along_fold);
  CHECK(cut.json);
  CHECK(cut.limit == 2.5);
}

TEST_CASE("a call of cut that is wrong ends with status 2, one message and the way to the help") {
  struct Wrong {
    std::vector<std::string> words;
    std::string told;
  };
  for (const Wrong& wrong :
       std::vector<Wrong>{{{"cut"}, "Which card file?"},
                          {{"cut", "x.toml", "--also"}, "--also needs something after it"},
                          {{"cut", "x.toml", "--keep"}, "--keep needs something after it"},
                          {{"cut", "x.toml", "--keep", "a", "--keep", "b"}, "--keep can be said once only."},
                          {{"cut", "x.toml", "--force"}, "--force is of use only with --keep."},
                          {{"cut", "x.toml", "--limit", "soon"}, "--limit takes a number of seconds"},
                          {{"cut", "x.toml", "--mots"}, "\"--mots\" is not an option of evenmat cut."},
                          {{"cutt", "x.toml"}, "There is no command \"cutt\". Did you mean \"cut\"?"}}) {
    const Run told = run(wrong.words);
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    CHECK(has(told.err, wrong.told));
    CHECK(has(told.err, "--help"));
    CHECK(testing::lines(told.err).size() == 2);
    std::vector<std::string> in_json = wrong.words;
    in_json.emplace(in_json.begin() + 1, "--json");
    CHECK(nlohmann::json::parse(run(in_json).out).at("verdict") == "invalid");
  }
}
