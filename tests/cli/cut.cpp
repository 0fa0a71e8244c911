// `evenmat cut` end to end: statuses, streams, the page, several files, leftovers kept and used, what is
// never written over.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/cut_command.h"
#include "cli/printable.h"
#include "model/read_leftovers.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using Json = nlohmann::json;
using testing::Folder;
using testing::lines;
using testing::Run;
using testing::run;

namespace {

using evenmat::testing::too_wide;

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string read(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

int entries(const Folder& folder) {
  int count = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path())) ++count;
  return count;
}

// Blanks of 8 1/2 x 5 1/2, two of a letter sheet.
std::string halves(int cards, const std::string& paper, const std::string& name = "moss") {
  return "title = \"Kite day\"\ncards = " + std::to_string(cards) +
         "\n[base]\nfold = \"side\"\nfront = \"us A2\"\npaper = \"" + name + "\"\n[[paper]]\nname = \"" +
         name + "\"\n" + paper + "\n";
}

const std::string five_letters = "sheet = \"us letter\"\nhave = 5";

// One mat of 4 x 5 1/4 of a letter sheet, and what is left of it.
constexpr std::string_view one_mat = R"(cards = 1

[base]
fold  = "side"
front = "us A2"

[[layer]]
name   = "moss mat"
on     = "front"
border = "1/8"
paper  = "moss"

[[paper]]
name   = "moss"
sheet  = "us letter"
have   = 1
weight = "80 lb cover"
cost   = 2
)";

Json answer(std::vector<std::string> words) {
  words.insert(words.begin(), "cut");
  words.emplace_back("--json");
  return Json::parse(run(words).out);
}

}  // namespace

TEST_CASE("a batch that its paper is enough for is planned on standard output alone") {
  const Folder folder;
  const std::string card = folder.file("card.toml", halves(10, five_letters));
  const Run told = run({"cut", card});
  CHECK(told.status == 0);
  CHECK(told.err.empty());
  CHECK(told.out.starts_with("Kite day\n10 cards\nNo spare is counted."));
  CHECK(has(told.out, "\n  5 sheets of 8 1/2 x 11, all cut alike, the fewest possible.\n"));
  for (const std::string& line : lines(told.out)) CHECK(columns(line) <= 80);
  CHECK(run({"cut", card}).out == told.out);

  const Json json = answer({card});
  CHECK(json.at("verdict") == "planned");
  CHECK(json.at("papers").at(0).at("sheets") == 5);
  CHECK(json.at("papers").at(0).at("proven") == true);
  CHECK(json.at("cards").at(0).at("file") == card);
}

TEST_CASE("spares that are stated as none are not suggested") {
  const Folder folder;
  CHECK_FALSE(
      has(run({"cut", folder.file("card.toml", "spare = 0\n" + halves(10, five_letters))}).out, "spare"));
}

TEST_CASE("a card from standard input is cut as one from a file") {
  const Run told = run(testing::Call{.words = {"cut", "-"}, .input = halves(10, five_letters)});
  CHECK(told.status == 0);
  CHECK(has(told.out, "the fewest possible"));
}

TEST_CASE("a batch that is one sheet short says so with status 1, and can be cut down to what there is") {
  const Folder folder;
  const std::string card = folder.file("card.toml", halves(11, five_letters));
  const Run told = run({"cut", card});
  CHECK(told.status == 1);
  CHECK(told.err.empty());
  CHECK(has(told.out, "\nThere is not paper enough for the whole batch.\n"));
  const Json json = answer({card});
  CHECK(json.at("verdict") == "short");
  CHECK(json.at("missing").size() == 1);
  CHECK(json.at("most") == 10);

  const Run most = run({"cut", card, "--most"});
  CHECK(most.status == 0);
  CHECK_FALSE(has(most.out, "not paper enough"));
  CHECK(has(most.out, "10 cards can be made of what is there, and no more"));
  CHECK(answer({card, "--most"}).at("verdict") == "planned");
}

TEST_CASE("a piece larger than every sheet is told, and nothing is written") {
  const Folder folder;
  std::string text(one_mat);
  text.replace(text.find("us letter"), 9, "5 x 5");
  const std::string card = folder.file("card.toml", text);
  const std::string out = (folder.path() / "left.toml").string();
  const Run told = run({"cut", card, "--keep", out});
  CHECK(told.status == 1);
  CHECK(has(told.out, "\"moss mat\" is cut 4 x 5 1/4 in, and no sheet of \"moss\" takes it"));
  CHECK(has(told.err, "nothing was written"));
  CHECK(entries(folder) == 1);
  const Json json = answer({card});
  CHECK(json.at("verdict") == "short");
  CHECK(json.at("missing").at(0).at("by") == "1/4");
}

TEST_CASE(
    "a base that no sheet takes is short, a card that can be sized, and cut from a sheet that another file "
    "brings") {
  const Folder folder;
  std::string text = halves(2, five_letters);
  text.replace(text.find("us letter"), 9, "5 x 5");
  const std::string card = folder.file("card.toml", text);
  const Run told = run({"cut", card});
  CHECK(told.status == 1);
  CHECK(has(told.out, "The base is cut 8 1/2 x 5 1/2 in, and no sheet of "));
  CHECK(answer({card}).at("missing").at(0).at("by") == "7/2");
  const Run sized = run({"size", card});
  CHECK(sized.status == 0);
  CHECK(has(sized.out, "The base is cut from one piece of 8 1/2 x 5 1/2 in, and the largest sheet"));
  const std::string also = folder.file(
      "left.toml", "unit = \"in\"\n[[paper]]\nname = \"moss\"\nsheet = \"us letter\"\nhave = 1\n");
  CHECK(run({"cut", card, "--also", also}).status == 0);
}

TEST_CASE("leftovers of a paper that no card is cut from are told, with the name that may be meant") {
  const Folder folder;
  const std::string card = folder.file("card.toml", halves(2, five_letters));
  const auto entry = [](const std::string& name) {
    return "[[paper]]\nname = \"" + name + "\"\nsheet = \"us letter\"\nhave = 1\n";
  };
  const std::string one = folder.file("one.toml", entry("mos") + entry("mos") + entry("moss"));
  Run told = run({"cut", card, "--also", one});
  CHECK(told.status == 0);
  CHECK(told.err == "evenmat: " + one + ": no card is cut from \"mos\". Did you mean \"moss\"?\n");
  const std::string two = folder.file("two.toml", entry("mos") + entry("fern"));
  told = run({"cut", card, "--also", two});
  CHECK(told.err == "evenmat: " + two + ": no card is cut from \"mos\" or \"fern\".\n");
  CHECK(run({"cut", card, "--also", folder.file("none.toml", entry("moss"))}).err.empty());
}

TEST_CASE("where files are of different units, the one that all is told in is named") {
  const Folder folder;
  const std::string inches = folder.file("in.toml", halves(2, five_letters));
  const std::string metric = folder.file("mm.toml", "unit = \"mm\"\n" + halves(2, five_letters));
  CHECK(has(run({"cut", metric, inches}).out, "All is told in millimetres, the unit of "));
  CHECK(has(run({"cut", inches, metric}).out, "All is told in inches, the unit of "));
  CHECK_FALSE(has(run({"cut", metric}).out, "All is told in"));
  const std::string left =
      folder.file("left.toml", "unit = \"mm\"\n[[paper]]\nname = \"moss\"\nsheet = \"iso A4\"\nhave = 1\n");
  CHECK(has(run({"cut", inches, "--also", left}).out, "All is told in inches, the unit of "));
  CHECK_FALSE(has(run({"cut", metric, "--also", left}).out, "All is told in"));
}

TEST_CASE("a paper that is not defined is a mistake in the file") {
  const Folder folder;
  const std::string text = "[base]\nfold = \"side\"\nfront = \"us A2\"\npaper = \"moss\"\n";
  const std::string card = folder.file("card.toml", text);
  const Run told = run({"cut", card});
  CHECK(told.status == 2);
  CHECK(told.out.empty());
  CHECK(has(told.err, card + ":4:"));
  CHECK(has(told.err, "   4 | paper = \"moss\"\n"));
  const Json json = answer({card});
  CHECK(json.at("verdict") == "invalid");
  CHECK(json.at("errors").at(0).at("file") == card);
  CHECK(json.at("errors").at(0).at("line") == 4);
}

TEST_CASE("a card that cannot be built is answered as size does, and its file named") {
  const Folder folder;
  const std::string bad = folder.file("bad.toml", too_wide);
  const std::string good = folder.file("good.toml", halves(10, five_letters));
  const std::string out = (folder.path() / "left.toml").string();
  const Run told = run({"cut", good, bad, "--keep", out});
  CHECK(told.status == 1);
  CHECK(has(told.out, bad + ":\nThis card cannot be built as stated.\n"));
  CHECK(has(told.out, run({"size", bad}).out));
  CHECK_FALSE(std::filesystem::exists(out));
  const Json json = answer({good, bad});
  CHECK(json.at("verdict") == "conflict");
  CHECK(json.at("file") == bad);
  CHECK_FALSE(json.at("conflicts").empty());
}

TEST_CASE("every file with mistakes is told, the right one under each") {
  const Folder folder;
  const std::string card = folder.file("card.toml", "[base]\nfold = \"sid\"\nfront = \"us A2\"\n");
  const std::string other = folder.file("other.toml", "[base]\nfold = \"side\"\nfront = \"us A\"\n");
  const std::string left = folder.file("left.toml", "[[paper]]\nname = \"moss\"\n");
  const Run told = run({"cut", card, other, "--also", left});
  CHECK(told.status == 2);
  CHECK(has(told.err, card + ":2:8: "));
  CHECK(has(told.err, other + ":3:9: "));
  CHECK(has(told.err, left + ":1:1: "));
  std::set<std::string> files;
  const Json json = answer({card, other, "--also", left});
  for (const Json& error : json.at("errors")) files.insert(error.at("file").get<std::string>());
  CHECK(files == std::set<std::string>{card, other, left});
}

TEST_CASE("two files are cut from the same stacks of paper, in one plan") {
  const Folder folder;
  const std::string one = folder.file("one.toml", halves(5, five_letters));
  const std::string two = folder.file("two.toml", halves(5, five_letters));
  const Json json = answer({one, two});
  CHECK(json.at("verdict") == "planned");
  REQUIRE(json.at("papers").size() == 1);
  CHECK(json.at("papers").at(0).at("sheets") == 5);
  CHECK(json.at("cards").size() == 2);
  CHECK(has(run({"cut", one, two}).out, "Cut together: 2 card files\n"));
}

TEST_CASE("what is kept is what the plan says is left, and the next job reads it") {
  const Folder folder;
  const std::string card = folder.file("card.toml", one_mat);
  const std::string out = (folder.path() / "left.toml").string();
  const Json json = answer({card, "--keep", out});
  CHECK(json.at("kept").at("file") == out);
  const LeftoversReading kept = read_leftovers(read(out));
  CHECK(kept.mistakes.empty());
  const Json& said = json.at("papers").at(0).at("leftovers");
  REQUIRE_FALSE(said.empty());
  REQUIRE(kept.papers.size() == said.size());
  for (std::size_t i = 0; i < said.size(); ++i) {
    CHECK(fraction_text(kept.papers[i].sheet->size.width) == said[i].at("width"));
    CHECK(fraction_text(kept.papers[i].sheet->size.height) == said[i].at("height"));
    CHECK(kept.papers[i].have->value == said[i].at("count"));
    CHECK_FALSE(kept.papers[i].cost);
  }

  const std::string none =
      folder.file("none.toml", std::string(one_mat).replace(one_mat.find("have   = 1"), 10, "have   = 0"));
  CHECK(run({"cut", none}).status == 1);
  const Json next = answer({none, "--also", out});
  CHECK(next.at("verdict") == "planned");
  CHECK(next.at("papers").at(0).at("stock").at(1).at("from") == "more");
  CHECK(next.at("papers").at(0).at("stock").at(1).at("file") == out);
}

TEST_CASE("the report says where what is left was written") {
  const Folder folder;
  const std::string out = (folder.path() / "left.toml").string();
  const Run told = run({"cut", folder.file("card.toml", one_mat), "--keep", out});
  CHECK(told.status == 0);
  CHECK(has(told.out, "What is left was written to"));
  CHECK(std::filesystem::exists(out));
}

TEST_CASE("where nothing is left, or the batch is short, nothing is written and that is said") {
  const Folder folder;
  const std::string out = (folder.path() / "left.toml").string();
  const Run whole = run({"cut", folder.file("whole.toml", halves(10, five_letters)), "--keep", out});
  CHECK(whole.status == 0);
  CHECK(has(whole.err, "Nothing worth keeping is left: nothing was written to "));
  const Run too_few = run({"cut", folder.file("short.toml", halves(11, five_letters)), "--keep", out});
  CHECK(too_few.status == 1);
  CHECK(has(too_few.err, "nothing was written to "));
  CHECK_FALSE(std::filesystem::exists(out));
}

TEST_CASE("no file that is there is written over, and none that is read even with force") {
  const Folder folder;
  const std::string card = folder.file("card.toml", one_mat);
  const std::string also = folder.file("also.toml", "[[paper]]\nname = \"moss\"\nsheet = \"4 x 4\"\n");
  const std::string there = folder.file("there.toml", "kept");
  std::filesystem::create_hard_link(also, folder.path() / "hard.toml");
  const auto cut = [&](const std::string& keep, bool force) {
    std::vector<std::string> words{"cut", card, "--also", also, "--keep", keep};
    if (force) words.emplace_back("--force");
    return run(words);
  };
  for (const std::string& read_here :
       {card, also, (folder.path() / "hard.toml").string(), (folder.path() / "." / "card.toml").string()}) {
    for (const bool force : {false, true}) {
      const Run told = cut(read_here, force);
      CHECK(told.status == 2);
      CHECK(told.out.empty());
      CHECK(has(told.err, "is never written over"));
    }
  }
  CHECK(has(cut(there, false).err, "is there already, and was left as it is; --force"));
  CHECK(read(there) == "kept");
  CHECK(read(card) == one_mat);
  CHECK(cut(there, true).status == 0);
  CHECK(read_leftovers(read(there)).mistakes.empty());
  CHECK(entries(folder) == 4);
}

TEST_CASE("a file of leftovers that is none ends the call, with the line where it is known") {
  const Folder folder;
  const std::string card = folder.file("card.toml", one_mat);
  struct Wrong {
    std::string file;
    std::string told;
  };
  const std::string empty = folder.file("empty.toml", "");
  const std::string other = folder.file("other.toml", halves(1, five_letters));
  const std::string not_toml = folder.file("not.toml", "[[paper]]\nname = moss\n");
  const std::string key = folder.file("key.toml", "[[paper]]\nname = \"moss\"\nshet = \"4 x 4\"\n");
  for (const Wrong& wrong :
       std::vector<Wrong>{{empty, empty + ":1:1: No paper is left over in this file."},
                          {other, other + ":3:2: \"base\" makes this a card file."},
                          {not_toml, not_toml + ":2:8: \"moss\" needs quotes"},
                          {key, key + ":3:1: \"shet\" is not a key of a paper. Did you mean \"sheet\"?"},
                          {folder.path().string(), "is a folder, not a file of leftovers."},
                          {(folder.path() / "missing.toml").string(), "There is no file "},
                          {"", "The name of a file of leftovers is empty."}}) {
    const Run told = run({"cut", card, "--also", wrong.file});
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    CHECK(has(told.err, wrong.told));
    CHECK(answer({card, "--also", wrong.file}).at("verdict") == "invalid");
  }
}

TEST_CASE("a file is named once, or its paper would be counted twice") {
  const Folder folder;
  const std::string card = folder.file("card.toml", one_mat);
  const std::string left = folder.file("left.toml", "[[paper]]\nname = \"moss\"\nsheet = \"4 x 4\"\n");
  const std::string same = (folder.path() / "." / "left.toml").string();
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"cut", card, card},
                                             {"cut", card, "--also", left, "--also", same},
                                             {"cut", card, "--also", card}}) {
    const Run told = run(words);
    CHECK(told.status == 2);
    CHECK(has(told.err, " is named twice."));
  }
}

TEST_CASE("what is being done is told while it is done") {
  const Folder folder;
  std::set<std::string> at_work;
  const Meanwhile meanwhile{.say = {}, .at_work = [&](std::string_view what) { at_work.emplace(what); }};
  CutCall call;
  call.files = {folder.file("card.toml", one_mat)};
  CHECK(cut_command(call, {}, {}, meanwhile).status == Status::done);
  REQUIRE_FALSE(at_work.empty());
  bool sizing = false;
  for (const std::string& what : at_work) sizing = sizing || what.starts_with("sizing ");
  CHECK(sizing);
}

TEST_CASE("a limit too short to size a card by ends with status 3") {
  const Folder folder;
  std::string text = "[base]\nfold = \"side\"\nfront = \"us A2\"\n";
  for (int i = 0; i < 40; ++i) {
    text += "[[layer]]\nname = \"l" + std::to_string(i) + "\"\non = \"front\"\n";
    text += "border = \"at least 1/8\"\nwidth = \"1/4 to 3\"\nclearance = \"1/16\"\nclear-of = [";
    for (int j = 0; j < i; ++j) text += "\"l" + std::to_string(j) + "\", ";
    text += "]\n";
  }
  const std::string card = folder.file("card.toml", text);
  const Run told = run({"cut", card, "--limit", "0.05"});
  CHECK(told.status == 3);
  CHECK(has(told.out, "whether this card"));
  CHECK(has(told.err, "The limit of 0.05 s was reached first"));
  const Json json = answer({card, "--limit", "0.05"});
  CHECK(json.at("verdict") == "undecided");
  CHECK(json.at("file") == card);
}
