// Whole runs of `evenmat explore`: what it lists of real files, in every form, and what it writes.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/explore/csv.h"
#include "cli/explore/written.h"
#include "tests/catch.h"
#include "tests/cli/explore_values.h"

using namespace evenmat;
using namespace evenmat::testing;
using Json = nlohmann::json;

namespace {

// One layer whose border may be 1/16, 1/8, 3/16 or 1/4. A sheet of 8 1/2 x 11 gives four of any of these: two
// beside two.
constexpr std::string_view four_borders = R"(unit  = "in"
mark  = "1/16"
cards = 4

[base]
fold  = "side"
front = "4 1/4 x 5 1/2"

# The mat, which may be wide or narrow.
[[layer]]
name   = "clay mat"
on     = "front"
border = "1/16 to 1/4"  # its border
paper  = "clay"

[[paper]]
name  = "clay"
sheet = "8 1/2 x 11"
)";

std::string content(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Json json_of(std::vector<std::string> words, int status = 0) {
  words.emplace_back("--json");
  const Run told = run(words);
  INFO(told.err);
  CHECK(told.status == status);
  return Json::parse(told.out);
}

}  // namespace

TEST_CASE("all cards of a border that may vary are listed with their sizes and sheets") {
  const Folder folder;
  const std::string card = folder.file("card.toml", four_borders);
  const Json json = json_of({"explore", card});
  CHECK(json["verdict"] == "explored");
  CHECK(json["count"] == 4);
  CHECK(json["shown"] == 4);
  CHECK(json["complete"] == true);
  CHECK(json["open"].size() == 1);
  CHECK(json["open"][0]["name"] == "clay mat");
  CHECK(json["open"][0]["key"] == "border");
  CHECK(json["open"][0]["line"] == 13);
  CHECK(json["open"][0]["least"] == "1/16");
  CHECK(json["open"][0]["most"] == "1/4");
  const std::vector<std::string> widths{"33/8", "4", "31/8", "15/4"};
  for (std::size_t i = 0; i < 4; ++i) {
    const Json& one = json["alternatives"][i];
    CHECK(one["number"] == i + 1);
    CHECK(one["layers"][0]["width"] == widths[i]);
    CHECK(one["papers"][0]["paper"] == "clay");
    CHECK(one["papers"][0]["sheets"] == 1);
    CHECK(one["papers"][0]["proven"] == true);
    CHECK(one["as_sized"] == (one["amounts"][0] == "1/8"));
  }
  const Run told = run({"explore", card});
  CHECK(told.status == 0);
  CHECK(on_one_page(told.out).starts_with("Open: border of clay mat, 1/16 to 1/4 in.\n"));
  CHECK(has(told.out, "  2.  1/8 "));
  CHECK(has(told.out, "as sized"));
  CHECK(told.out.ends_with("These are all 4 cards.\n"));
}

TEST_CASE("a few of many cards are shown and which is said") {
  const Folder folder;
  const std::string card = folder.file("card.toml", four_borders);
  const Json json = json_of({"explore", card, "--show", "2"});
  CHECK(json["shown"] == 2);
  CHECK(json["count"] == 4);
  CHECK(has(run({"explore", card, "--show", "2"}).out, "2 of 4 cards, those that differ most.\n"));
  const Run best = run({"explore", card, "--best", "border"});
  CHECK(has(best.out, "  1.  1/4 "));
  CHECK(best.out.ends_with("These are all 4 cards, the widest narrowest border first.\n"));
  CHECK(run({"explore", card, "--show", "all"}).out == run({"explore", card}).out);
}

TEST_CASE("a border that is varied from the call is swept against all the rest") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  const Json json = json_of({"explore", card, "--vary", "plum mat.border=1/16 to 1/4"});
  CHECK(json["shown"] == 4);
  for (const Json& one : json["alternatives"]) CHECK(one["layers"].size() == 2);
  CHECK(json["alternatives"][3]["layers"][1]["width"] == "29/8");
  const Run told = run({"explore", card, "--vary", "plum mat.border=1/16 to 1/4"});
  CHECK(has(on_one_page(told.out), "How they differ"));

  const Json both = json_of(
      {"explore", card, "--vary", "plum mat.border=1/16 to 1/4", "--vary", "fern panel.border=1/16 to 1/8"});
  CHECK(both["count"] == 8);
  const Json stated =
      json_of({"explore", card, "--vary", "plum mat.border=1/16 to 1/4", "--set", "fern panel.border=1/8"});
  CHECK(stated["alternatives"][0]["layers"][1]["width"] == "31/8");
  const Json kept = json_of(
      {"explore", card, "--vary", "plum mat.border=1/16 to 1/4", "--keep-same", "Plum  Mat", "--show", "8"});
  CHECK(kept["count"] == 1);
}

TEST_CASE("a card that leaves nothing open is the only one") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  const Run told = run({"explore", card});
  CHECK(told.status == 0);
  CHECK(told.out.starts_with("Nothing is open"));
  CHECK(told.out.ends_with("There is no other card within the wishes; --vary opens more.\n"));
}

TEST_CASE("a card that cannot be built is explained as check explains it") {
  const Folder folder;
  const std::string card = folder.file("card.toml", too_wide);
  const Run check = run({"check", card});
  const Run explore = run({"explore", card});
  CHECK(check.status == 1);
  CHECK(explore.status == 1);
  const std::string way = "--mend OUT.toml writes the card so mended";
  const std::string explained = check.out.substr(0, check.out.find(way));
  REQUIRE(has(check.out, way));
  CHECK(explore.out.starts_with(explained));
  CHECK(has(flowing(explore.out), "evenmat check " + card + " --mend OUT.toml writes the card so mended."));
  CHECK(json_of({"explore", card}, 1) == json_of({"check", card}, 1));
  CHECK(json_of({"explore", card, "--fit"}, 1)["verdict"] == "conflict");

  const Run csv = run({"explore", card, "--csv"});
  CHECK(csv.out.empty());
  CHECK(csv.err.starts_with(explained));

  const std::string fine = folder.file("fine.toml", two_layers);
  const Run changed = run({"explore", fine, "--set", "plum mat.width=4 1/8"});
  CHECK(changed.status == 1);
  CHECK(has(changed.out, "This card cannot be built as stated."));
  CHECK_FALSE(has(changed.out, "--mend"));
}

TEST_CASE("a card of the list is written with its comments and comes to the same sizes") {
  const Folder folder;
  const std::string card = folder.file("card.toml", four_borders);
  const std::string out = (folder.path() / "out.toml").string();
  const Run told = run({"explore", card, "--write", "4", out});
  CHECK(told.status == 0);
  CHECK(told.out.ends_with("Card 4 was written to " + out + ".\n"));
  std::string expected(four_borders);
  expected.replace(expected.find("1/16 to 1/4"), 11, "1/4");
  CHECK(content(out) == expected);
  CHECK(json_of({"size", out})["layers"][0]["width"] == "15/4");

  const Run again = run({"explore", card, "--write", "3", out});
  CHECK(again.status == 2);
  CHECK(again.out.empty());
  CHECK(content(out) == expected);
  const Json forced = json_of({"explore", card, "--write", "3", out, "--force"});
  CHECK(forced["written"]["number"] == 3);
  CHECK(forced["written"]["file"] == out);
  CHECK(json_of({"size", out})["layers"][0]["width"] == "31/8");
  CHECK(run({"explore", card, "--write", "1", card, "--force"}).status == 2);
  CHECK(content(card) == four_borders);
}

TEST_CASE("a card that is not in the list is not written") {
  const Folder folder;
  const std::string card = folder.file("card.toml", four_borders);
  const std::string out = (folder.path() / "out.toml").string();
  const Run told = run({"explore", card, "--write", "5", out});
  CHECK(told.status == 2);
  CHECK(has(told.err, "There is no card 5: those shown go from 1 to 4. Nothing was written."));
  CHECK(json_of({"explore", card, "--write", "5", out}, 2)["verdict"] == "invalid");
  CHECK(run({"explore", card, "--fit", "--write", "2", out}).status == 2);
  CHECK_FALSE(std::filesystem::exists(out));
}

TEST_CASE("a card that would come out otherwise than it is listed is told apart") {
  const MadeCard made;
  const SizedCard one = made.at(2, 1, 4).sized;
  CHECK(difference_of(one, one).empty());
  CHECK(difference_of(one, made.at(3, 1, 4).sized) == "the size of plum mat");
  SizedCard moved = one;
  moved.versions[0].pieces[1].left += sixteenths(1);
  CHECK(difference_of(moved, one) == "the place of fern panel");
  SizedCard cut_back = one;
  cut_back.versions[0].cut_back = 1;
  CHECK(difference_of(one, cut_back) == "the cut-back");
  SizedCard with_variant = one;
  with_variant.versions.push_back(one.versions[0]);
  CHECK(difference_of(with_variant, one) == "the variants");
  SizedCard other_variant = with_variant;
  with_variant.versions[1].name = "for the crew";
  other_variant.versions[1].pieces[0].width += sixteenths(1);
  CHECK(difference_of(with_variant, other_variant) == "the size of plum mat in \"for the crew\"");
}

TEST_CASE("amounts are written from the last line of the file to the first and unstated ones beside them") {
  const MadeCard made;
  const std::string text =
      "[base]\nfold = \"side\"\nfront = \"us A2\"\n[[layer]]\nname = \"plum mat\"\non = \"front\"\n"
      "border = { left = \"at least 1/8\", right = \"at most 1\" }  # sides\nheight = \"3 to 4\"\n";
  OpenAmount left = MadeCard::border();
  left.part = "left";
  left.spot = {7, 19};
  OpenAmount right = left;
  right.part = "right";
  right.spot = {7, 43};
  OpenAmount height = left;
  height.key = "height";
  height.part = "";
  height.spot = {8, 10};
  OpenAmount width = height;
  width.key = "width";
  width.spot = {};
  const auto written =
      with_amounts(text, {left, right, height, width},
                   {sixteenths(16), sixteenths(4), sixteenths(56), sixteenths(40)}, Unit::inch);
  REQUIRE(written);
  CHECK(has(*written, "border = { left = \"1\", right = \"1/4\" }  # sides\n"));
  CHECK(has(*written, "height = \"3 1/2\"\n"));
  CHECK(has(*written, "width = \"2 1/2\"\n"));
  width.name = "no such layer";
  CHECK_FALSE(with_amounts(text, {width}, {sixteenths(40)}, Unit::inch));
}

TEST_CASE("what the call states is in the file that is written") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  const std::string out = (folder.path() / "out.toml").string();
  const Run told = run({"explore", card, "--set", "fern panel.border=1/8", "--vary",
                        "plum mat.border=1/16 to 1/4", "--write", "4", out});
  INFO(told.err);
  CHECK(told.status == 0);
  const std::string written = content(out);
  CHECK(has(written, "border = \"1/4\""));
  CHECK(has(written, "border = \"1/8\""));
  CHECK(json_of({"size", out})["layers"][1]["width"] == "7/2");
}

TEST_CASE("for a spreadsheet there is a line of headings and a line for each card") {
  const Folder folder;
  const std::string card = folder.file("card.toml", four_borders);
  const Run told = run({"explore", card, "--csv"});
  CHECK(told.status == 0);
  CHECK(told.err.empty());
  const std::vector<std::string> all = lines(told.out);
  REQUIRE(all.size() == 5);
  CHECK(all[0].starts_with("card,as sized,unbeaten,clay mat.border,clay mat width,clay mat height,"));
  CHECK(all[1].starts_with("1,no,"));
  CHECK(has(all[2], ",1/8,4,21/4,1/8,1/8,1,1,yes,0,"));
  CHECK(all[2].starts_with("2,yes,"));
  for (const std::string& line : all) {
    CHECK(line.ends_with('\r'));
    CHECK(std::count(line.begin(), line.end(), ',') == std::count(all[0].begin(), all[0].end(), ','));
  }
}

TEST_CASE("values with commas and quotes and line ends are quoted for a spreadsheet") {
  CHECK(csv_line({"a", "b, c", "", "say \"hi\"", "two\nlines"}) ==
        "a,\"b, c\",,\"say \"\"hi\"\"\",\"two\nlines\"\r\n");
}

TEST_CASE("a batch that is fitted to its paper tells the sizes that take the fewest sheets") {
  const Folder folder;
  // One sheet gives four mats, whatever the border, so five take two.
  std::string text(four_borders);
  text.replace(text.find("cards = 4"), 9, "cards = 5");
  const std::string card = folder.file("card.toml", text);
  const Json json = json_of({"explore", card, "--fit"});
  CHECK(json["verdict"] == "explored");
  CHECK(json["fit"]["enough"] == true);
  CHECK(json["fit"]["proven"] == true);
  CHECK(json["alternatives"][0]["papers"][0]["sheets"] == 2);
  const Run told = run({"explore", card, "--fit"});
  CHECK(told.status == 0);
  CHECK(has(on_one_page(told.out), "Sheets for 5 cards"));

  std::string with_one(text);
  with_one += "have  = 1\n";
  const std::string short_of = folder.file("short.toml", with_one);
  CHECK(json_of({"explore", short_of, "--fit"}, 1)["verdict"] == "short");
  CHECK(has(run({"explore", short_of, "--fit"}).out, "The batch does not come out of the paper on hand."));
}

TEST_CASE("the same design on other bases is told in every form") {
  const Folder folder;
  const std::string card = folder.file("card.toml", two_layers);
  CHECK(has(on_one_page(run({"explore", card, "--on", "us A2, us A7"}).out), "us A7"));
  CHECK(json_of({"explore", card, "--on", "us A2, us A7"}).is_object());
  CHECK(lines(run({"explore", card, "--on", "us A2, us A7", "--csv"}).out).size() >= 3);
  CHECK(run({"explore", card, "--on", "us A99"}).status == 2);
}

TEST_CASE("what is explored comes out the same every time") {
  const std::string card = std::string(EVENMAT_SOURCE) + "/cases/museum-night.toml";
  const Run first = run({"explore", card});
  CHECK(first.status == 0);
  for (int i = 0; i < 3; ++i) CHECK(run({"explore", card}).out == first.out);
}
