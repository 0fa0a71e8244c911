// How the program is called: help, the version, mistakes in the call, and what goes to which stream.
#include <nlohmann/json.hpp>

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

TEST_CASE("help teaches by example, on every command, within the page") {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{{"--help"},
                                                                                     {"-h"},
                                                                                     {"size", "--help"},
                                                                                     {"size", "x.toml", "-h"},
                                                                                     {"check", "--help"},
                                                                                     {"stack", "--help"}}) {
    const Run help = run(words);
    CHECK(help.status == 0);
    CHECK(help.err.empty());
    CHECK(has(help.out, "Examples:\n  evenmat "));
    for (const std::string& line : testing::lines(help.out)) {
      INFO(line);
      CHECK(columns(line) <= 80);
    }
  }
  const std::string size = run({"size", "--help"}).out;
  for (const char* option : {"--json", "--ranges", "--smt2", "--limit"}) CHECK(has(size, option));
  const std::string check = run({"check", "--help"}).out;
  for (const char* option : {"--json", "--limit SECONDS", "--mend OUT.toml", "--choose N[,N...]", "--force",
                             "--hand LENGTH", "--tolerance LENGTH"}) {
    CHECK(has(check, option));
  }
  for (const std::string& help : {size, check}) CHECK(has(help, "[mail]"));
}

TEST_CASE("the examples of the help work as they stand") {
  const Folder folder;
  const std::string program = run({"--help"}).out;
  std::string card;
  for (const std::string& line : testing::lines(program)) {
    if (line.starts_with("  ") && (!card.empty() || line == "  [base]")) card += line.substr(2) + "\n";
  }
  REQUIRE(has(card, "[[layer]]"));
  CHECK(run({"size", folder.file("thanks.toml", card)}).status == 0);
  CHECK(run({"stack", "iso A6", "3", "2"}).status == 0);
  CHECK(run({"stack", "4 1/4 x 5 1/2", "1/16 to 1/4, about 1/8"}).status == 0);
  CHECK(run({"stack", "us A2", "1/8", ",", "us A7", "1/4"}).status == 0);
  CHECK(run({"stack", "us A2", "1/8", "--mark", "1/32"}).status == 0);
}

TEST_CASE("the version is told") {
  const Run version = run({"--version"});
  CHECK(version.status == 0);
  CHECK(version.out.starts_with("evenmat "));
  CHECK(version.err.empty());
}

TEST_CASE("a call that is wrong ends with status 2, one message and the way to the help") {
  const Folder folder;
  const std::string card = folder.file("card.toml", testing::two_layers);
  struct Wrong {
    std::vector<std::string> words;
    std::string told;
  };
  for (const Wrong& wrong : std::vector<Wrong>{
           {{"sise", "card.toml"}, "There is no command \"sise\". Did you mean \"size\"?"},
           {{"--foo"}, "\"--foo\" is not an option of evenmat."},
           {{"size"}, "Which card file?"},
           {{"size", card, "other.toml"}, "\"other.toml\" is one thing too many."},
           {{"size", card, "--rangs"}, "\"--rangs\" is not an option of evenmat size."},
           {{"size", card, "--limit"}, "--limit"},
           {{"size", card, "--limit", "soon"}, "--limit takes a number of seconds"},
           {{"size", card, "--limit", "0"}, "--limit takes a number of seconds"},
           {{"size", card, "--limit", "-3"}, "--limit takes a number of seconds"},
           {{"size", card, "--limit", "nan"}, "--limit takes a number of seconds"},
           {{"size", card, "--limit", "5s"}, "--limit takes a number of seconds"},
           {{"size", card, "--smt2", "--json"}, "leave out --json"},
           {{"check"}, "Which card file?"},
           {{"check", card, "--ranges"}, "\"--ranges\" is not an option of evenmat check."},
           {{"check", card, "--limit", "0"}, "--limit takes a number of seconds"},
           {{"check", card, "--mend"}, "--mend"},
           {{"check", card, "--choose", "1"}, "--choose is of use only with --mend."},
           {{"check", card, "--force"}, "--force is of use only with --mend."},
           {{"check", card, "--mend", "x", "--choose", "0"}, "--choose takes the numbers"},
           {{"check", card, "--mend", "x", "--choose", "1,"}, "--choose takes the numbers"},
           {{"check", card, "--mend", "x", "--choose", "1 2"}, "--choose takes the numbers"},
           {{"check", card, "--mend", "x", "--choose", ""}, "--choose takes the numbers"},
           {{"check", card, "--mend", "x", "--choose", "99999999999999999999"}, "--choose takes the numbers"},
           {{"check", card, "--hand", "1/32", "--tolerance", "1/32"}, "leave out one"},
           {{"check", card, "--hand", "1/32", "--mend", "x"}, "leave out one"},
           {{"check", card, "--tolerance", "1/32", "--mend", "x"}, "leave out one"},
           {{"stack"}, "A stack needs a base"},
           {{"stack", "us A2", "--mark"}, "--mark"}}) {
    const Run told = run(wrong.words);
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(has(told.err, wrong.told));
    CHECK(has(told.err, "--help"));
    CHECK(testing::lines(told.err).size() == 2);
    if (wrong.words.back() != "--json") CHECK(told.out.empty());
  }
}

TEST_CASE("a bare call shows the help, and has done nothing") {
  const Run bare = run(std::vector<std::string>{});
  CHECK(bare.status == 2);
  CHECK(bare.out.empty());
  CHECK(has(bare.err, "Examples:"));
}

TEST_CASE("with --json a wrong call answers in JSON too") {
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"size", "--json"},
                                             {"size", "--json", "--limit", "soon", "x.toml"},
                                             {"size", "nowhere.toml", "--json"},
                                             {"check", "--json"},
                                             {"check", "--json", "x.toml", "--force"},
                                             {"check", "nowhere.toml", "--json"},
                                             {"stack", "--json"},
                                             {"stack", "--json", "us A9", "1/8"},
                                             {"--json"}}) {
    const Run told = run(words);
    CHECK(told.status == 2);
    CHECK_FALSE(told.err.empty());
    const auto json = nlohmann::json::parse(told.out);
    CHECK(json.at("verdict") == "invalid");
    CHECK_FALSE(json.at("errors").empty());
    CHECK(json.at("errors").at(0).at("says").is_string());
  }
}

TEST_CASE("a file may be called like a command") {
  const Folder folder;
  CHECK(has(run({"size", "stack"}).err, "There is no file stack."));
  CHECK(run({"size", folder.file("stack", testing::two_layers)}).status == 0);
}
