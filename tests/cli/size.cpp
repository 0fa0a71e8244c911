// `evenmat size` end to end: statuses, streams, the shape of the JSON, the page, the limit, Ctrl-C.
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <thread>

#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using testing::Call;
using testing::Folder;
using testing::lines;
using testing::Run;
using testing::run;

namespace {

using evenmat::testing::too_wide;

using Json = nlohmann::json;

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

Run sized(std::string_view text, std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"size", "-"});
  return run(Call{.words = options, .input = std::string(text)});
}

Json answer(std::string_view text, std::vector<std::string> options = {}) {
  options.emplace_back("--json");
  return Json::parse(sized(text, options).out);
}

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

TEST_CASE("a card that can be built is told on standard output alone") {
  const Run told = sized(testing::two_layers);
  CHECK(told.status == 0);
  CHECK(told.err.empty());
  CHECK(has(told.out, "  plum mat    4      x 5 1/4\n"));
  CHECK(has(told.out, "  fern panel  3 7/8  x 5 1/8\n"));
  CHECK(has(lines(told.out).back(), "before you cut"));
}

TEST_CASE("the JSON of a card has the shape that is promised") {
  const Json json = answer(testing::two_layers);
  CHECK(json.at("verdict") == "buildable");
  CHECK(json.at("unit") == "in");
  CHECK(json.at("base").at("blank") == Json({{"width", "17/2"}, {"height", "11/2"}}));
  CHECK(json.at("base").at("scores") == Json::array({"17/4"}));
  CHECK(json.at("closed").at("width") == "17/4");
  CHECK(json.at("closed").at("height") == "11/2");
  CHECK(json.at("windows").empty());
  CHECK(json.at("layers").size() == 2);
  const Json& panel = json.at("layers").at(1);
  CHECK(panel.at("name") == "fern panel");
  CHECK(panel.at("on") == "plum mat");
  CHECK(panel.at("face") == "front");
  CHECK(panel.at("left") == "3/16");
  CHECK(panel.at("top") == "3/16");
  CHECK(panel.at("from_left") == "1/16");
  CHECK(panel.at("from_right") == "1/16");
  CHECK(panel.at("from_top") == "1/16");
  CHECK(panel.at("from_bottom") == "1/16");
  CHECK(panel.at("width") == "31/8");
  CHECK(panel.at("height") == "41/8");
  CHECK(panel.at("stated").at("width") == true);
  CHECK_FALSE(panel.contains("role"));
  CHECK_FALSE(json.contains("ranges"));
  CHECK_FALSE(json.contains("variants"));
}

TEST_CASE("windows, roles, copies and artwork have places of their own in the JSON") {
  const Json json = answer(R"([base]
fold = "side"
front = "us A2"

[[window]]
name = "pane"
in = "front"
size = "2 x 2"

[[layer]]
name = "greeting"
role = "sentiment"
on = "inside"
artwork = "2 x 1"
margin = "1/8"

[[layer]]
name = "dot"
on = "back"
size = "1/2 x 1/2"
copies = 4
columns = 2
gap = "1/4"
)");
  REQUIRE(json.at("windows").size() == 1);
  CHECK(json.at("windows").at(0).at("name") == "pane");
  REQUIRE(json.at("layers").size() == 2);
  CHECK(json.at("layers").at(0).at("role") == "sentiment");
  CHECK(json.at("layers").at(0).at("artwork") ==
        Json({{"from_left", "1/8"}, {"from_top", "1/8"}, {"width", "2"}, {"height", "1"}}));
  CHECK(json.at("layers").at(1).at("copies").size() == 4);
}

TEST_CASE("a card that cannot be built is status 1, with the rules that clash") {
  const Run told = sized(too_wide);
  CHECK(told.status == 1);
  CHECK(told.err.empty());
  CHECK(has(told.out, "This card cannot be built as stated.\n"));
  CHECK(has(told.out, "standard input:9:10: "));
  CHECK(has(told.out, "   9 | width  = 5\n     |          ^\n"));
  CHECK(told.out.ends_with("\n\nevenmat check - tells why, and what mends it.\n"));
  const Folder folder;
  const std::string path = folder.file("a card.toml", too_wide);
  CHECK(has(run({"size", path}).out, "evenmat check \"" + path + "\" tells"));

  const Json json = answer(too_wide);
  CHECK(json.at("verdict") == "conflict");
  std::vector<int> places;
  for (const Json& rule : json.at("conflicts").at(0).at("rules")) {
    CHECK_FALSE(rule.at("says").get<std::string>().empty());
    CHECK(rule.at("column") == 10);
    places.push_back(rule.at("line"));
  }
  CHECK(std::find(places.begin(), places.end(), 9) != places.end());
  CHECK(sized(too_wide, {"--json"}).status == 1);
}

TEST_CASE("ranges come when asked for") {
  const std::string text =
      "[base]\nfold = \"side\"\nfront = \"us A2\"\n[[layer]]\nname = \"mat\"\non = \"front\"\n"
      "border = \"1/16 to 1/4\"\n";
  const Json json = answer(text, {"--ranges"});
  const Json wanted = {{"layer", "mat"}, {"what", "width"}, {"least", "15/4"}, {"most", "33/8"}};
  CHECK(std::count(json.at("ranges").begin(), json.at("ranges").end(), wanted) == 1);
  CHECK(has(sized(text, {"--ranges"}).out, "Smallest and largest"));
  CHECK_FALSE(has(sized(text).out, "Smallest and largest"));
}

TEST_CASE("the rules are written for other programs") {
  const Run told = sized(testing::two_layers, {"--smt2"});
  CHECK(told.status == 0);
  CHECK(has(told.out, "(set-logic "));
  CHECK(has(told.out, "(check-sat)"));
  CHECK(sized("title = 3\n", {"--smt2"}).status == 2);
}

TEST_CASE("every case is sized, within the page, and says the same twice") {
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(EVENMAT_SOURCE) + "/cases")) {
    if (entry.path().extension() != ".toml") continue;
    ++count;
    INFO(entry.path().string());
    const Run told = run({"size", entry.path().string()});
    CHECK(told.status == 0);
    CHECK(told.out == run({"size", entry.path().string()}).out);
    for (const std::string& line : lines(told.out)) CHECK(columns(line) <= 80);
    const Json json = Json::parse(run({"size", entry.path().string(), "--json"}).out);
    CHECK(json.at("verdict") == "buildable");
  }
  CHECK(count >= 10);
}

TEST_CASE("odd names come out whole in JSON and tame in the report") {
  const std::string text =
      "[base]\nfold = \"side\"\nfront = \"us A2\"\n[[layer]]\nname = \"\\u001b[31m \\\" \\n 灯籠\"\non = "
      "\"front\"\n";
  CHECK(answer(text).at("layers").at(0).at("name") == "\x1b[31m \" \n 灯籠");
  const Run told = sized(text);
  CHECK(told.status == 0);
  CHECK(told.out.find('\x1b') == std::string::npos);
  CHECK(has(told.out, "\\x1b[31m \" \\n 灯籠"));
}

TEST_CASE("the limit ends a long search with the best card so far") {
  const auto start = std::chrono::steady_clock::now();
  const Run told = sized(loose(16), {"--limit", "0.5"});
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  CHECK(told.status == 3);
  CHECK(took.count() < 5);
  CHECK(has(told.err, "The limit of 0.5 s was reached first"));
  CHECK(has(told.out, "Not settled within the time allowed."));

  const Run json = sized(loose(16), {"--limit", "0.5", "--json"});
  CHECK(json.status == 3);
  CHECK(Json::parse(json.out).at("verdict") == "undecided");
}

TEST_CASE("Ctrl-C leaves nothing half-written") {
  const Folder folder;
  const std::string card = folder.file("card.toml", loose(16));
  const std::string out = folder.file("out", "");
  posix_spawn_file_actions_t streams;
  posix_spawn_file_actions_init(&streams);
  posix_spawn_file_actions_addopen(&streams, STDOUT_FILENO, out.c_str(), O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&streams, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  sigset_t interrupt;
  sigemptyset(&interrupt);
  sigaddset(&interrupt, SIGINT);
  posix_spawnattr_setsigdefault(&attributes, &interrupt);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF);
  std::array<std::string, 4> words{EVENMAT_PROGRAM, "size", card, "--json"};
  std::array<char*, 5> arguments{words[0].data(), words[1].data(), words[2].data(), words[3].data(), nullptr};
  std::array<char*, 1> environment{nullptr};
  pid_t process = 0;
  REQUIRE(posix_spawn(&process, EVENMAT_PROGRAM, &streams, &attributes, arguments.data(),
                      environment.data()) == 0);
  posix_spawn_file_actions_destroy(&streams);
  posix_spawnattr_destroy(&attributes);

  std::this_thread::sleep_for(std::chrono::milliseconds(400));
  REQUIRE(::kill(process, SIGINT) == 0);
  int ended = 0;
  REQUIRE(::waitpid(process, &ended, 0) == process);
  std::ifstream file(out);
  const std::string written{std::istreambuf_iterator<char>(file), {}};
  CHECK((written.empty() || Json::accept(written)));
}
