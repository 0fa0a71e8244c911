// Whole runs of `evenmat draw` and `explore --draw`: what is written where, and what is refused.
#include <nlohmann/json.hpp>

#include "tests/cli/drawn.h"
#include "tests/cli/program.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::vector<std::string> names_in(const Folder& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

TEST_CASE("the ending of the name says what a drawing becomes") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  const auto drawn = [&](const std::string& name) {
    const std::string path = (folder.path() / name).string();
    const Run told = run({"draw", card, "-o", path});
    INFO(told.err);
    CHECK(told.status == 0);
    CHECK(told.err.empty());
    CHECK(has(told.out, "The card is in"));
    return whole_text(path);
  };
  CHECK(drawn("a.svg").starts_with("<?xml"));
  CHECK(drawn("a.PDF").starts_with("%PDF-"));
  CHECK(drawn("a.png").starts_with("\x89PNG"));
}

TEST_CASE("every subject of a drawing is written as it is asked for") {
  const Folder folder;
  const std::string card = std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml";
  for (const std::string subject : {"--plan", "--worksheet", "--recipe", "--templates"}) {
    INFO(subject);
    const std::string path = (folder.path() / (subject.substr(2) + ".pdf")).string();
    const Run told = run({"draw", card, subject, "-o", path, "--json"});
    CHECK(told.status == 0);
    const auto json = nlohmann::json::parse(told.out);
    CHECK(json["verdict"] == "drawn");
    CHECK(json["written"] == path);
    REQUIRE_FALSE(json["pages"].empty());
    CHECK(json["pages"][0]["width"] == 612);
    CHECK(json["pages"][0]["height"] == 792);
  }
}

TEST_CASE("templates that are no PDF say that they do not print at true size") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  const Run svg = run({"draw", card, "--templates", "-o", (folder.path() / "a.svg").string()});
  CHECK(svg.status == 0);
  CHECK(has(svg.err, ".pdf"));
  CHECK(run({"draw", card, "--templates", "-o", (folder.path() / "a.pdf").string()}).err.empty());
}

TEST_CASE("single views of a card are drawn alone and one that it has not is refused") {
  const Folder folder;
  const std::string card = std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml";
  const std::string path = (folder.path() / "a.svg").string();
  const Run one = run({"draw", card, "-o", path, "--json", "--only", "the plain card", "--view", "inside"});
  const auto pages = nlohmann::json::parse(one.out)["pages"];
  REQUIRE(pages.size() == 1);
  REQUIRE(pages[0]["views"].size() == 1);
  CHECK(pages[0]["views"][0]["face"] == "inside");
  const Run wrong = run({"draw", card, "-o", path, "--force", "--view", "insides"});
  CHECK(wrong.status == 2);
  CHECK(has(wrong.err, "\"inside\""));
}

TEST_CASE("cards in millimetres go on A4 and cards in inches on Letter unless a page is asked for") {
  const Folder folder;
  const auto width = [&](const std::string& file, const std::vector<std::string>& more) {
    std::vector<std::string> words{"draw",    std::string(EVENMAT_SOURCE) + "/cases/" + file,
                                   "-o",      (folder.path() / "a.pdf").string(),
                                   "--force", "--json"};
    words.insert(words.end(), more.begin(), more.end());
    return nlohmann::json::parse(run(words).out)["pages"][0]["width"].get<double>();
  };
  CHECK(width("swift-tower.toml", {}) == 612);
  CHECK(width("swift-tower.toml", {"--page", "A4"}) == Approx(595.28).margin(0.01));
  CHECK(width("porthole.toml", {}) == Approx(595.28).margin(0.01));
  CHECK(width("porthole.toml", {"--page", "letter"}) == 612);
}

TEST_CASE("one variant alone can be drawn and one that is not there is refused with the nearest") {
  const Folder folder;
  const std::string card = std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml";
  const std::string path = (folder.path() / "a.pdf").string();
  const Run all = run({"draw", card, "-o", path, "--json"});
  const Run one = run({"draw", card, "-o", path, "--force", "--json", "--only", "the plain card"});
  CHECK(nlohmann::json::parse(one.out)["pages"].size() < nlohmann::json::parse(all.out)["pages"].size());
  const Run wrong = run({"draw", card, "-o", path, "--force", "--only", "for the drumers"});
  CHECK(wrong.status == 2);
  CHECK(has(wrong.err, "for the drummers"));
}

TEST_CASE("a card that cannot be built is drawn as why not and its plan is told but not drawn") {
  const Folder folder;
  const std::string card = folder.file("card.toml", too_wide);
  const std::string path = (folder.path() / "a.svg").string();
  const Run drawn = run({"draw", card, "-o", path});
  CHECK(drawn.status == 1);
  CHECK(has(drawn.out, "cannot be built"));
  CHECK(std::filesystem::exists(path));
  for (const std::string subject : {"--plan", "--worksheet", "--recipe", "--templates"}) {
    INFO(subject);
    const std::string other = (folder.path() / "b.pdf").string();
    const Run told = run({"draw", card, "-o", other, subject});
    CHECK(told.status == 1);
    CHECK_FALSE(told.out.empty());
    CHECK_FALSE(std::filesystem::exists(other));
  }
}

TEST_CASE("a drawing that cannot be written leaves nothing behind and says why") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  const std::string there = folder.file("there.svg", "what was there");
  struct Wrong {
    std::vector<std::string> words;
    std::vector<std::string> told;
  };
  const std::string place = folder.path().string() + "/";
  for (const Wrong& wrong : std::vector<Wrong>{
           {{"draw", card}, {"-o", ".pdf"}},
           {{"draw", card, "-o", place + "a"}, {"no ending", ".svg"}},
           {{"draw", card, "-o", place + "a.pfd"}, {"\".pfd\"", "Did you mean", ".pdf"}},
           {{"draw", card, "-o", place + "nowhere/a.svg"}, {"There is no folder"}},
           {{"draw", card, "-o", there}, {"is there already", "--force"}},
           {{"draw", card, "-o", place + "a.svg", "--page", "a5"}, {"letter", "a4"}},
           {{"draw", card, "-o", place + "a.svg", "--dots", "300"}, {".png"}},
           {{"draw", card, "-o", place + "a.png", "--dots", "3"}, {"10 to 1200"}},
           {{"draw", card, "-o", place + "a.png", "--dots", "nan"}, {"10 to 1200"}},
           {{"draw", card, "-o", place + "a.pdf", "--plan", "--recipe"}, {"--plan", "--recipe"}},
           {{"draw", card, "-o", place + "a.pdf", "--plan", "--only", "x"}, {"--only"}},
           {{"draw", card, "-o", place + "a.pdf", "--most"}, {"--most", "--plan"}},
           {{"draw", card, card, "-o", place + "a.pdf"}, {"--plan", "--worksheet"}},
           {{"draw", card, "-o", place + "a.svg", "-o", place + "b.svg"}, {"once"}},
           {{"draw", place + "none.toml", "-o", place + "a.svg"}, {"no file"}},
           {{"draw", card, "-o", place + "a.svg", "--only", "x"}, {"no variants"}},
           {{"explore", card, "--draw", place + "a.gif"}, {"\".gif\"", ".png"}},
           {{"explore", card, "--draw", there}, {"is there already"}},
           {{"explore", card, "--on", "us A7", "--draw", place + "a.svg"}, {"--on", "--draw"}},
       }) {
    INFO(wrong.words.back());
    const Run told = run(wrong.words);
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    for (const std::string& part : wrong.told) CHECK(has(told.err, part));
    CHECK(names_in(folder) == std::vector<std::string>{"card.toml", "there.svg"});
  }
  CHECK(whole_text(there) == "what was there");
}

TEST_CASE("a card file is never drawn over even when it is told by another name") {
  const Folder folder;
  const std::string card = folder.file("card.svg", two_layers);
  std::filesystem::create_symlink(card, folder.path() / "link.svg");
  for (const std::string name : {"card.svg", "link.svg"}) {
    const Run told = run({"draw", card, "-o", (folder.path() / name).string(), "--force"});
    CHECK(told.status == 2);
    CHECK(has(told.err, "never written over"));
  }
  CHECK(whole_text(card) == two_layers);
}

TEST_CASE("none of several cards that are read is drawn over") {
  const Folder folder;
  const std::string first = folder.file("first.toml", two_layers);
  const std::string second = folder.file("second.svg", two_layers);
  const Run told = run({"draw", first, second, "--plan", "-o", second, "--force"});
  CHECK(told.status == 2);
  CHECK(has(told.err, "never written over"));
  CHECK(whole_text(second) == two_layers);
}

TEST_CASE("alternatives are drawn beside the list that tells them") {
  const Folder folder;
  const std::string path = (folder.path() / "all.pdf").string();
  const std::string card = std::string(EVENMAT_SOURCE) + "/cases/first-snow.toml";
  const Run told = run({"explore", card, "--draw", path});
  CHECK(told.status == 0);
  CHECK(has(told.out, "side by side in"));
  CHECK(whole_text(path).starts_with("%PDF-"));
  const Run json = run({"explore", card, "--draw", path, "--force", "--json"});
  CHECK(nlohmann::json::parse(json.out)["verdict"] == "explored");
  CHECK(has(json.err, "side by side in"));
}

TEST_CASE("the help of draw teaches by example within the page") {
  const Run help = run({"draw", "--help"});
  CHECK(help.status == 0);
  CHECK(has(help.out, "--worksheet"));
  for (const std::string& line : lines(help.out)) CHECK(line.size() <= 80);
}
