// `evenmat check` end to end: statuses, streams, the page, the order in which things are told, the limit.
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/check_command.h"
#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using Json = nlohmann::json;
using testing::Call;
using testing::Folder;
using testing::lines;
using testing::Run;
using testing::run;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

Run checked(std::string_view text, std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"check", "-"});
  return run(Call{.words = options, .input = std::string(text)});
}

Json answer(std::string_view text, std::vector<std::string> options = {}) {
  options.emplace_back("--json");
  return Json::parse(checked(text, options).out);
}

// A mat 1/4 too tall for its front, and a strip 1/8 too narrow for its artwork.
constexpr std::string_view two_faults = R"([base]
fold  = "side"
front = "4 1/4 x 5 1/2"

[[layer]]
name = "teal mat"
on   = "front"
size = "4 x 5"
border = { down = "at least 3/8" }

[[layer]]
name = "note strip"
on   = "teal mat"
artwork = "3 1/4 x 1/2"
margin = "at least 1/8"
width = "3 3/8"
)";

constexpr std::string_view measured = R"([base]
fold  = "side"
front = "us A2"

[[layer]]
name = "plum mat"
on   = "front"
size = "4 x 5 5/16"
border = "1/8"
)";

// Many loose layers on one front: more than a moment's work.
std::string loose(int count) {
  std::string text = "[base]\nfold = \"side\"\nfront = \"us A2\"\n";
  for (int i = 0; i < count; ++i) {
    text += "[[layer]]\nname = \"l" + std::to_string(i) + "\"\non = \"front\"\n";
    text += "border = \"at least 1/8\"\nwidth = \"1/4 to 3\"\nclearance = \"1/16\"\nclear-of = [";
    for (int j = 0; j < i; ++j) text += "\"l" + std::to_string(j) + "\", ";
    text += "]\n";
  }
  return text;
}

}  // namespace

TEST_CASE("check tells a card that can be built, with the spare of every rule") {
  const Run told = checked(testing::two_layers);
  CHECK(told.status == 0);
  CHECK(told.err.empty());
  CHECK(told.out.starts_with("It builds.\n"));
  CHECK(has(told.out, "  line 8   the border of plum mat is 1/8\n"));
  CHECK(has(told.out, "  line 13  the border of fern panel is 1/16\n"));

  const Json json = answer(testing::two_layers);
  CHECK(json.at("verdict") == "buildable");
  REQUIRE(json.at("spare").size() == 2);
  CHECK(json.at("spare").at(0).at("by") == "0");
}

TEST_CASE("check tells every conflict with its sum and the changes that mend it") {
  const Run told = checked(two_faults);
  CHECK(told.status == 1);
  CHECK(told.err.empty());
  CHECK(told.out.starts_with("This card cannot be built as stated.\n\nThese cannot all hold:\n"));
  CHECK(has(told.out, "\nConflict 2\nThese cannot all hold:\n"));
  CHECK_FALSE(has(told.out, "Conflict 3"));
  CHECK(has(told.out, "   8 | size = \"4 x 5\"\n     |        ^ "));
  CHECK(has(told.out, " line 16: \"3 3/8\" -> \"3 1/2\"\n"));
  CHECK(has(told.out, " line 9: \"at least 3/8\" -> \"at least 1/4\"\n"));
  CHECK(has(told.out, "\nTo mend the whole card, change 2 things:\n"));
  CHECK(has(lines(told.out).back(), "--mend OUT.toml"));
  for (const std::string& line : lines(told.out)) CHECK(columns(line) <= 80);
}

TEST_CASE("papers that nothing is cut from are told whether the card builds or not") {
  const std::string paper = "\n[[paper]]\nname = \"ivory\"\nsheet = \"us letter\"\n";
  for (const std::string_view card : {testing::two_layers, two_faults}) {
    const std::string out = checked(std::string(card) + paper).out;
    const std::size_t heading = out.find("\nWorth a second look\n");
    REQUIRE(heading != std::string::npos);
    CHECK(has(out.substr(heading), "| name = \"ivory\"\n"));
    CHECK(has(answer(std::string(card) + paper).at("warnings").at(0).at("says").get<std::string>(), "ivory"));
  }
}

TEST_CASE("the JSON of check numbers the changes as the report does") {
  const Run told = checked(two_faults);
  const Json json = answer(two_faults);
  CHECK(json.at("verdict") == "conflict");
  REQUIRE(json.at("conflicts").size() == 2);
  int number = 0;
  for (const Json& conflict : json.at("conflicts")) {
    CHECK_FALSE(conflict.at("story").empty());
    for (const Json& change : conflict.at("changes")) {
      ++number;
      CHECK(change.at("number") == number);
      CHECK(change.at("mends_card") == false);
      const std::string line =
          std::to_string(number) + ". line " + std::to_string(change.at("line").get<int>());
      CHECK(has(told.out, line + ": \"" + change.at("from").get<std::string>() + "\" -> "));
    }
  }
  CHECK(number == 4);
  CHECK(json.at("mend").size() == 2);
  CHECK(json.at("all_conflicts") == true);
}

TEST_CASE("conflicts are told as they are found, and not again in the end") {
  const Folder folder;
  std::vector<std::string> parts;
  std::set<std::string> at_work;
  const Meanwhile meanwhile{.say = [&](std::string_view text) { parts.emplace_back(text); },
                            .at_work = [&](std::string_view what) { at_work.emplace(what); }};
  CheckCall call;
  call.file = folder.file("card.toml", two_faults);
  const Answer rest = check_command(call, {}, {}, meanwhile);
  REQUIRE(parts.size() == 2);
  CHECK(parts[0].starts_with("This card cannot be built"));
  CHECK(has(parts[0], "To mend it, change one of these:"));
  CHECK(parts[1].starts_with("\nConflict 2\n"));
  CHECK_FALSE(has(rest.out, "cannot all hold"));
  CHECK(parts[0] + parts[1] + rest.out == run({"check", call.file}).out);
  CHECK_FALSE(at_work.empty());

  parts.clear();
  call.json = true;
  CHECK(Json::accept(check_command(call, {}, {}, meanwhile).out));
  CHECK(parts.empty());
}

TEST_CASE("a conflict that cannot be written out is told, once") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_faults);
  const Run full = run(Call{.words = {"check", card}, .out = "/dev/full"});
  CHECK(full.status == 2);
  CHECK(has(full.err, "The answer cannot be written"));
  CHECK(lines(full.err).size() == 1);
}

TEST_CASE("the same card is told in the same bytes") {
  CHECK(checked(two_faults).out == checked(two_faults).out);
  CHECK(checked(two_faults, {"--json"}).out == checked(two_faults, {"--json"}).out);
}

TEST_CASE("a card of which only a variant cannot be built says which") {
  const std::string text = std::string(testing::two_layers) +
                           "\n[[variant]]\nname = \"for the crew\"\nset = { \"plum mat.border\" = \"3\" }\n";
  const Run told = checked(text);
  CHECK(told.status == 1);
  CHECK(has(told.out, "in \"for the crew\""));
  CHECK(has(told.out, "Only \"for the crew\" cannot be built; the plain card can.\n"));
  const Json json = answer(text);
  CHECK(json.at("variants") ==
        Json::array({{{"name", "for the crew"}, {"cards", 1}, {"verdict", "conflict"}}}));
  CHECK(json.at("conflicts").at(0).at("versions") == Json::array({"for the crew"}));
}

TEST_CASE("every case is checked, within the page") {
  for (const auto& entry : std::filesystem::directory_iterator(std::string(EVENMAT_SOURCE) + "/cases")) {
    if (entry.path().extension() != ".toml") continue;
    INFO(entry.path().string());
    const Run told = run({"check", entry.path().string()});
    CHECK(told.status == 0);
    CHECK(told.out.starts_with("It builds"));
    for (const std::string& line : lines(told.out)) CHECK(columns(line) <= 80);
  }
}

TEST_CASE(
    "an error of the hand or a tolerance is a length of the card, above nothing and no more than the card") {
  struct Wrong {
    std::string length, told;
  };
  for (const std::string option : {"--hand", "--tolerance"}) {
    for (const Wrong& wrong :
         std::vector<Wrong>{{"0", "It must be more than 0."},
                            {"1/l6", "1/l6"},
                            {"", option},
                            {"6", "6 in is more than the whole card, which is 4 1/4 x 5 1/2 in."},
                            {"150 mm", "is more than the whole card"}}) {
      const Run told = checked(measured, {option, wrong.length});
      INFO(told.err);
      CHECK(told.status == 2);
      CHECK(told.out.empty());
      CHECK(told.err.starts_with("evenmat: " + option + ": "));
      CHECK(has(told.err, wrong.told));
      CHECK(answer(measured, {option, wrong.length}).at("verdict") == "invalid");
    }
  }
  CHECK(checked(measured, {"--tolerance", "1 mm"}).status != 2);
}

TEST_CASE("the hand spoils an exact border") {
  const Run told = checked(testing::two_layers, {"--hand", "1/32"});
  CHECK(told.status == 0);
  CHECK(told.out.starts_with("It builds on paper, but not by every hand that is off by 1/32 in.\n"));
  CHECK(has(told.out, "the worst first"));
  CHECK(has(told.out, "How even the borders come out"));
  const Json json = answer(testing::two_layers, {"--hand", "1/32"});
  CHECK(json.at("verdict") == "buildable");
  CHECK(json.at("hand").at("error") == "1/32");
  CHECK_FALSE(json.at("hand").at("borders").empty());
}

TEST_CASE("a card that cannot be built at all needs no unsteady hand") {
  const Run told = checked(two_faults, {"--hand", "1/32"});
  CHECK(told.status == 1);
  CHECK(has(told.out, "cannot be built even by the steadiest hand"));
  CHECK(answer(two_faults, {"--hand", "1/32"}).at("verdict") == "conflict");
}

TEST_CASE("a measured card meets its rules within a tolerance, or does not") {
  const Run within = checked(measured, {"--tolerance", "1/32"});
  CHECK(within.status == 0);
  CHECK(has(within.out, "  met within 1/32 in  line 9  the border of plum mat is 1/8\n"));
  CHECK(lines(within.out).back() == "Every rule is met within 1/32 in.");
  const Run off = checked(measured, {"--tolerance", "1/64"});
  CHECK(off.status == 1);
  CHECK(has(off.out, "  off by 1/32 in  line 9  the border of plum mat is 1/8\n"));
  CHECK(lines(off.out).back() == "1 rule is off by more than 1/64 in.");
  CHECK(answer(measured, {"--tolerance", "1/64"}).at("verdict") == "conflict");
}

TEST_CASE("a card whose sizes are not all stated is not measured") {
  const std::string open =
      "[base]\nfold = \"flat\"\nfront = \"us A2\"\n[[layer]]\nname = \"mat\"\non = \"front\"\nheight = 4\n";
  const Run told = checked(open, {"--tolerance", "1/32"});
  CHECK(told.status == 2);
  CHECK(told.out.empty());
  CHECK(has(told.err, "Not stated:\n  the width of mat\n"));
  const Json json = answer(open, {"--tolerance", "1/32"});
  CHECK(json.at("verdict") == "invalid");
  CHECK(json.at("errors") == Json::array({{{"says", "Not stated: the width of mat"}}}));
}

TEST_CASE("a limit that is reached first is told") {
  const Run told = checked(loose(16), {"--limit", "0.3"});
  CHECK(told.status == 3);
  CHECK(told.out == "Not settled within the time allowed.\n");
  CHECK(has(told.err, "The limit of 0.3 s was reached first"));
  CHECK(answer(loose(16), {"--limit", "0.3"}).at("verdict") == "undecided");
}

TEST_CASE("long work shows on a terminal what it is at, and takes it away again") {
  const testing::Terminal terminal;
  const Folder folder;
  const std::string card = folder.file("card.toml", loose(16));
  CHECK(run(Call{.words = {"check", card, "--limit", "1"}, .err = terminal.path()}).status == 3);
  const std::string text = terminal.text();
  REQUIRE(text.starts_with("\r"));
  const std::size_t end = text.find('\r', 1);
  REQUIRE(end != std::string::npos);
  CHECK(has(text.substr(1, end), "asking"));
  CHECK(has(text, "\r" + std::string(end - 1, ' ') + "\revenmat: The limit"));
  CHECK_FALSE(has(run({"check", card, "--limit", "1"}).err, "asking"));
}

TEST_CASE("a mistake in the file is told by check as by size") {
  const Run told = checked("title = 3\n");
  CHECK(told.status == 2);
  CHECK(told.out.empty());
  CHECK(told.err == run(Call{.words = {"size", "-"}, .input = "title = 3\n"}).err);
}
