// Card files with mistakes: each gets its message with the place and the line, status 2, within a second.
#include <algorithm>
#include <chrono>
#include <nlohmann/json.hpp>

#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using testing::Call;
using testing::Folder;
using testing::lines;
using testing::Run;
using testing::run;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

// `text` of the card, read from standard input, so that messages begin alike.
Run size(const std::string& text) { return run(Call{.words = {"size", "-"}, .input = text}); }

const std::string base = "[base]\nfold = \"side\"\nfront = \"us A2\"\n";
const std::string layer = "[[layer]]\nname = \"a\"\non = \"front\"\n";

struct Bad {
  std::string what, text;
  int line;
  std::vector<std::string> told;  // parts of the message
};

const std::vector<Bad> bad_cards = {
    {"not TOML", "hello there\n", 1, {}},
    {"a text that does not end", "title = \"x\n", 1, {}},
    {"a key that is not known", base + layer + "bordr = \"1/8\"\n", 7, {"bordr", "border"}},
    {"a wrong type", base + "[[layer]]\nname = \"a\"\non = 3\n", 6, {"on"}},
    {"a length that cannot be read", base + layer + "width = \"3 l/2\"\n", 7, {"3 l/2"}},
    {"a length that divides by 0", base + layer + "width = \"1/0\"\n", 7, {"1/0"}},
    {"a size of nothing", base + layer + "size = \"0 x 3\"\n", 7, {"0 x 3"}},
    {"a size below nothing", base + layer + "width = -3\n", 7, {"-3"}},
    {"a border below nothing", base + layer + "border = \"-1/8\"\n", 7, {"-1/8"}},
    {"a name used twice", base + layer + layer, 8, {"\"a\"", "line 5"}},
    {"a name not found", base + "[[layer]]\nname = \"a\"\non = \"frunt\"\n", 6, {"frunt", "front"}},
    {"layers in a circle",
     base + "[[layer]]\nname = \"a\"\non = \"b\"\n[[layer]]\nname = \"b\"\non = \"a\"\n",
     6,
     {"\"a\"", "\"b\""}},
    {"a wish against itself",
     base + layer + "width = \"at least 3, at most 2\"\n",
     7,
     {"at least 3, at most 2"}},
    {"a rule that ends early", "rules = [\"a.left <= \"]\n" + base + layer, 1, {}},
    {"a rule about nothing", "rules = [\"b.left <= 3\"]\n" + base + layer, 1, {"\"b\""}},
    {"a rule between faces with no frame in common",
     "rules = [\"a.left <= c.left\"]\n" + base + layer + "[[layer]]\nname = \"c\"\non = \"back\"\n",
     1,
     {"back", "front"}},
    {"variants that claim too much",
     "cards = 3\n" + base + layer + "[[variant]]\nname = \"v\"\ncards = 4\n",
     10,
     {"4", "3"}},
    {"a number of a thousand digits", base + layer + "width = " + std::string(1000, '9') + "\n", 7, {}},
    {"a text of a thousand digits", base + layer + "width = \"" + std::string(1000, '9') + "\"\n", 7, {}},
    {"a fraction of a thousand digits",
     base + layer + "width = \"1/" + std::string(1000, '9') + "\"\n",
     7,
     {}},
    {"a decimal of a thousand digits", base + layer + "width = 0." + std::string(1000, '9') + "\n", 7, {}},
    {"brackets within brackets", "a = " + std::string(20'000, '[') + std::string(20'000, ']') + "\n", 1, {}},
    {"doors wider than the card",
     "[base]\nfold = \"gate\"\nfront = \"5 1/2 x 4 1/4\"\nleaves = \"3, 5 1/2, 3\"\n",
     4,
     {"doors", "1/2 in"}},
    {"a frame that vanishes",
     base + "[[window]]\nname = \"a\"\nin = \"front\"\nframe = \"0\"\n",
     7,
     {"frame"}},
    {"foam of negative height", base + layer + "raised = \"-1/8\"\n", 7, {"raised", "-1/8"}},
    {"an angle that is not one", base + layer + "tilt = \"steep\"\n", 7, {"steep", "degrees"}},
    {"an unknown post", base + "[mail]\npost = [\"moonmail\"]\n", 5, {"moonmail", "usps"}},
    {"an unknown envelope", base + "[mail]\nenvelope = \"us Z9\"\n", 5, {"us Z9"}},
    {"bytes that are not UTF-8", base + "[[layer]]\nname = \"\xff\"\n", 5, {"UTF-8"}},
    {"a control character", base + "[[layer]]\nname = \"\x01\"\n", 5, {}},
    {"no base", "title = \"x\"\n", 1, {"[base]"}},
    {"an empty file", "", 1, {"[base]"}},
};

}  // namespace

TEST_CASE("every mistake is told with its place, its line and a caret, within a second") {
  for (const Bad& bad : bad_cards) {
    const auto start = std::chrono::steady_clock::now();
    const Run told = size(bad.text);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    INFO(bad.what);
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    CHECK(took.count() < 1);
    const std::vector<std::string> all = lines(told.err);
    REQUIRE(all.size() >= 3);
    CHECK(all[0].starts_with("standard input:" + std::to_string(bad.line) + ":"));
    for (const std::string& part : bad.told) CHECK(has(all[0], part));
    CHECK(has(all[1], std::to_string(bad.line) + " | "));
    CHECK(has(all[2], "^"));
    for (const char* word : {"unsat", "literal", "exception", "std::", "toml++", "assert"}) {
      CHECK_FALSE(has(told.err, word));
    }
  }
}

TEST_CASE("with --json a mistake is told with line and column") {
  for (const Bad& bad : bad_cards) {
    const Run told = run(Call{.words = {"size", "-", "--json"}, .input = bad.text});
    INFO(bad.what);
    const auto json = nlohmann::json::parse(told.out);
    CHECK(json.at("verdict") == "invalid");
    REQUIRE_FALSE(json.at("errors").empty());
    CHECK(json.at("errors").at(0).at("line") == bad.line);
    CHECK(json.at("errors").at(0).at("column") >= 1);
    CHECK_FALSE(json.at("errors").at(0).at("says").get<std::string>().empty());
  }
}

TEST_CASE("all mistakes are told in one run, in the order of the file") {
  const Run told = size(base + "[[layer]]\nname = \"a\"\non = \"frunt\"\nborder = \"1/l6\"\nbordr = 3\n");
  const std::vector<std::string> all = lines(told.err);
  std::vector<std::string> places;
  std::copy_if(all.begin(), all.end(), std::back_inserter(places),
               [](const std::string& line) { return line.starts_with("standard input:"); });
  REQUIRE(places.size() == 3);
  CHECK(places[0].starts_with("standard input:6:6: "));
  CHECK(places[1].starts_with("standard input:7:10: "));
  CHECK(places[2].starts_with("standard input:8:1: "));
}

TEST_CASE("the caret counts characters, not bytes") {
  const Run told = size(base + "[[layer]]\nname = \"a\"\nrules = 3\n\"größe\" = 3\non = \"frünt\"\n");
  CHECK(has(told.err, "   7 | \"größe\" = 3\n     | ^\n"));
  CHECK(has(told.err, "   8 | on = \"frünt\"\n     |      ^\n"));
}

TEST_CASE("more layers than the limit are refused, and so are many mistakes told within a second") {
  std::string many = base;
  for (int i = 0; i < 700; ++i) many += "[[layer]]\nname = \"l" + std::to_string(i) + "\"\non = \"front\"\n";
  std::string wrong = base;
  for (int i = 0; i < 50'000; ++i) wrong += "k" + std::to_string(i) + " = 1\n";
  for (const std::string& text : {many, wrong, base + "x = \"" + std::string(900'000, 'y') + "\"\n"}) {
    const auto start = std::chrono::steady_clock::now();
    const Run told = size(text);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    CHECK(took.count() < 1);
    CHECK(told.err.size() < 20'000);
  }
}
