// `evenmat check --mend` end to end: what is written, when nothing is, and what it says of that.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using Json = nlohmann::json;
using testing::Folder;
using testing::lines;
using testing::Run;
using testing::run;

namespace fs = std::filesystem;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string read(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string replaced(std::string text, const std::string& part, const std::string& by) {
  const std::size_t at = text.find(part);
  REQUIRE(at != std::string::npos);
  return text.replace(at, part.size(), by);
}

// A mat 1/4 too tall for its front, and a strip 1/8 too narrow for its artwork; with remarks, an odd layout
// and no line end at the end.
const std::string two_faults =
    "# for the reading\r\n"
    "[base]\r\n"
    "fold  = 'side'\r\n"
    "front = \"4 1/4 x 5 1/2\" # closed\r\n"
    "\r\n"
    "[[layer]]\n"
    "  name = \"teal mat\"\n"
    "  on   = \"front\"\n"
    "  size = '4 x 5'   # as cut\n"
    "  border = { down = \"at least 3/8\" } # each\n"
    "\n"
    "[[layer]]\n"
    "name = \"note strip\"\n"
    "on   = \"teal mat\"\n"
    "artwork = \"3 1/4 x 1/2\"\n"
    "margin = \"at least 1/8\"\n"
    "width = 3.375";

// The mat too wide and too tall for its front: two conflicts over one size.
const std::string one_size_twice =
    "[base]\nfold = \"flat\"\nfront = \"4 x 5\"\n"
    "[[layer]]\nname = \"mat\"\non = \"front\"\nsize = \"4 x 5\"\n"
    "border = { across = \"at least 1/4\", down = \"at least 1/4\" }\n";

struct Bench {
  Folder folder;
  std::string text;
  std::string card;

  explicit Bench(std::string what = two_faults)
      : text(std::move(what)), card(folder.file("card.toml", text)) {}

  [[nodiscard]] std::string path(const std::string& name) const { return (folder.path() / name).string(); }
  [[nodiscard]] Run mend(std::vector<std::string> options) const {
    options.insert(options.begin(), {"check", card, "--mend"});
    return run(options);
  }
  // Nothing but the card, and the card as it was.
  void check_untouched() const {
    CHECK(read(card) == text);
    CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);
  }
};

// The number under which the report lists a change to `to`.
std::string number_of(const Json& json, const std::string& to) {
  for (const Json& conflict : json.at("conflicts")) {
    for (const Json& change : conflict.at("changes")) {
      if (change.at("to") == to) return std::to_string(change.at("number").get<int>());
    }
  }
  FAIL("no change to " + to);
  return {};
}

}  // namespace

TEST_CASE("the mended card builds, and differs in the changed values alone") {
  const Bench bench;
  const Run told = bench.mend({bench.path("new.toml")});
  CHECK(told.status == 1);
  CHECK(told.err.empty());
  const std::string wanted =
      replaced(replaced(two_faults, "at least 3/8", "at least 1/4"), "at least 1/8", "at least 1/16");
  CHECK(read(bench.path("new.toml")) == wanted);
  CHECK(read(bench.card) == two_faults);
  CHECK(run({"check", bench.path("new.toml")}).status == 0);
  CHECK(
      told.out.ends_with("with 2 things changed:\n"
                         "  line 10: \"at least 3/8\" -> \"at least 1/4\"\n"
                         "  line 16: \"at least 1/8\" -> \"at least 1/16\"\n"
                         "It builds so.\n"));
  CHECK(has(told.out, "\nWritten to "));
  CHECK_FALSE(has(told.out, "--mend OUT.toml"));
}

TEST_CASE("changes are chosen by their numbers, and a card that still does not build says so") {
  const Bench bench;
  const Json json = Json::parse(run({"check", bench.card, "--json"}).out);
  const std::string wide = number_of(json, "3 1/2");
  const std::string tall = number_of(json, "4 x 4 3/4");

  const Run one = bench.mend({bench.path("one.toml"), "--choose", wide});
  CHECK(one.status == 1);
  CHECK(read(bench.path("one.toml")) == replaced(two_faults, "3.375", "\"3 1/2\""));
  CHECK(has(one.out, "It still does not build so"));
  CHECK(run({"check", bench.path("one.toml")}).status == 1);

  const Run both = bench.mend({bench.path("both.toml"), "--choose", wide + ", " + tall + "," + wide});
  CHECK(both.status == 1);
  CHECK(read(bench.path("both.toml")) ==
        replaced(replaced(two_faults, "3.375", "\"3 1/2\""), "4 x 5'", "4 x 4 3/4'"));
  CHECK(lines(both.out).back() == "It builds so.");
  CHECK(run({"check", bench.path("both.toml")}).status == 0);
}

TEST_CASE("the JSON tells what was written, and whether it builds") {
  const Bench bench;
  const Json whole = Json::parse(bench.mend({bench.path("new.toml"), "--json"}).out);
  CHECK(whole.at("verdict") == "conflict");
  CHECK(whole.at("mended") == Json({{"file", bench.path("new.toml")}, {"builds", true}}));
  const Json part = Json::parse(bench.mend({bench.path("part.toml"), "--choose", "1", "--json"}).out);
  CHECK(part.at("mended").at("builds") == false);
}

TEST_CASE("a number that no change has writes nothing") {
  const Bench bench;
  const Run told = bench.mend({bench.path("new.toml"), "--choose", "1,7"});
  CHECK(told.status == 2);
  CHECK(told.err == "evenmat: There is no change number 7: they go from 1 to 4. Nothing was written.\n");
  CHECK(Json::parse(bench.mend({bench.path("new.toml"), "--choose", "7", "--json"}).out).at("verdict") ==
        "invalid");
  bench.check_untouched();
}

TEST_CASE("one value cannot be changed in two ways, but the smallest set may change two of its numbers") {
  const Bench bench(one_size_twice);
  const Json json = Json::parse(run({"check", bench.card, "--json"}).out);
  const std::string across = number_of(json, "3 1/2 x 5");
  const std::string down = number_of(json, "4 x 4 1/2");
  const Run told = bench.mend({bench.path("new.toml"), "--choose", across + "," + down});
  CHECK(told.status == 2);
  CHECK(has(told.err, "are both of line 7, and only one can be made"));
  bench.check_untouched();
}

TEST_CASE("a card that builds is not written again") {
  const Bench bench{std::string(testing::two_layers)};
  const Run told = bench.mend({bench.path("new.toml")});
  CHECK(told.status == 0);
  CHECK(told.out.starts_with("It builds.\n"));
  CHECK(told.err ==
        "evenmat: The card builds as it is: nothing was written to " + bench.path("new.toml") + ".\n");
  bench.check_untouched();
}

TEST_CASE("where no numbers mend the card nothing is written") {
  // Of the artwork nothing may be changed, and the front is given.
  const Bench bench(
      "[base]\nfold = \"flat\"\nfront = \"2 x 2\"\n[[layer]]\nname = \"note\"\non = \"front\"\n"
      "artwork = \"3 x 1\"\n");
  const Run told = bench.mend({bench.path("new.toml")});
  CHECK(told.status == 1);
  CHECK(has(told.out, "No change of a single number mends it.\n"));
  CHECK(told.err == "evenmat: No change of numbers mends the whole card. Nothing was written.\n");
  bench.check_untouched();
}

TEST_CASE("a target that cannot be is told before anything else, and nothing is lost") {
  const Bench bench;
  const fs::path folder = bench.folder.path();
  struct Wrong {
    std::string path, told;
  };
  for (const Wrong& wrong :
       std::vector<Wrong>{{bench.card, "is the card itself, which is never written over"},
                          {(folder / "." / "card.toml").string(), "is the card itself"},
                          {folder.string(), "is a folder, not a file to write"},
                          {bench.path("missing/new.toml"), "There is no folder"},
                          {"/dev/null", "is no plain file"},
                          {"", "The name of the file to write is empty"}}) {
    for (const bool force : {false, true}) {
      std::vector<std::string> options = {wrong.path};
      if (force) options.emplace_back("--force");
      const Run told = bench.mend(options);
      INFO(told.err);
      CHECK(told.status == 2);
      CHECK(told.out.empty());
      CHECK(has(told.err, wrong.told));
      CHECK(lines(told.err).size() == 1);
      options.emplace_back("--json");
      CHECK(Json::parse(bench.mend(options).out).at("verdict") == "invalid");
    }
  }
  bench.check_untouched();
}

TEST_CASE("a card from standard input is not written over either") {
  const Bench bench;
  const Run told =
      run(testing::Call{.words = {"check", "-", "--mend", "/dev/stdin", "--force"}, .input = two_faults});
  CHECK(told.status == 2);
  CHECK(has(told.err, "is the card itself"));
}

TEST_CASE("a mended card is written over another file only when told to") {
  const Bench bench;
  const std::string there = bench.folder.file("there.toml", "kept");
  const Run kept = bench.mend({there});
  CHECK(kept.status == 2);
  CHECK(kept.out.empty());
  CHECK(has(kept.err, "is there already, and was left as it is; --force writes over it."));
  CHECK(read(there) == "kept");
  CHECK(bench.mend({there, "--force"}).status == 1);
  CHECK(run({"check", there}).status == 0);
}
