// The same design on other bases: which can be built and what comes of it there, and why not elsewhere.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cli/explore/formats.h"
#include "model/read_card.h"
#include "solver/size_card.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

Card card_of(std::string_view text) {
  CardReading reading = read_card(text);
  REQUIRE(reading.card);
  return std::move(*reading.card);
}

std::vector<TriedFormat> on(std::string_view file, std::string_view list, double limit = 60) {
  const FormatReading reading = read_formats(list, card_of(file).unit, false, {});
  INFO(reading.refused.err);
  REQUIRE_FALSE(reading.formats.empty());
  FormatOptions options;
  options.limit = limit;
  return try_formats(file, reading.formats, options);
}

nlohmann::json json_of(std::string_view file, std::string_view list) {
  return nlohmann::json::parse(formats_json(card_of(file), on(file, list)));
}

std::string refused(std::string_view list) {
  const FormatReading reading = read_formats(list, Unit::inch, false, {});
  CHECK(reading.formats.empty());
  CHECK(reading.refused.status == Status::bad_input);
  CHECK(reading.refused.out.empty());
  return reading.refused.err;
}

std::string replaced(std::string text, std::string_view old, std::string_view now) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), now);
}

std::string case_text(const std::string& name) {
  std::ifstream file(std::string(EVENMAT_SOURCE) + "/cases/" + name + ".toml", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// A photo that takes 4 1/4 x 4 3/4 with its border. On a us A2 the panel is 4 1/4 - 2 x 3/16 = 3 7/8 wide:
// 3/8 are missing. On a us A7 it is 4 5/8 x 6 5/8.
const std::string with_photo = std::string(two_layers) + R"(
[[layer]]
name   = "gull, photo"
on     = "fern panel"
size   = "4 x 4 1/2"
border = "at least 1/8"
)";

// The rows of a CSV text by RFC 4180, each with its fields.
std::vector<std::vector<std::string>> rows_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const char c = csv[i];
    std::string& field = rows.back().back();
    if (quoted) {
      if (c == '"' && csv.substr(i + 1, 1) == "\"") {
        field += csv[i++];
      } else if (c == '"') {
        quoted = false;
      } else {
        field += c;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      rows.back().emplace_back();
    } else if (csv.substr(i, 2) == "\r\n") {
      rows.push_back({""});
      ++i;
    } else {
      field += c;
    }
  }
  CHECK(rows.back() == std::vector<std::string>{""});
  rows.pop_back();
  return rows;
}

}  // namespace

TEST_CASE("a list of bases is read as a card file reads its front") {
  const FormatReading reading =
      read_formats(" us A2,us a7 Turned , 5 x 7, 105 mm x 148 mm, iso A6", Unit::inch, false, {});
  REQUIRE(reading.formats.size() == 5);
  CHECK(reading.formats[0].text == "us A2");
  CHECK(reading.formats[0].size == Size{Rational(17) / 4, Rational(11) / 2});
  CHECK(reading.formats[1].text == "us a7 Turned");
  CHECK(reading.formats[1].size == Size{7, 5});
  CHECK(reading.formats[2].size == Size{5, 7});
  CHECK(reading.formats[3].size == reading.formats[4].size);
  CHECK(reading.formats[4].size == Size{Rational(525) / 127, Rational(740) / 127});
}

TEST_CASE("a base that cannot be read is pointed at with the nearest size") {
  const std::string far = refused("us A2, us A8");
  CHECK(far.find("\"us A8\" is not a size that has a name here") != std::string::npos);
  CHECK(far.find("Did you mean \"us A") != std::string::npos);
  const std::vector<std::string> shown = lines(far);
  REQUIRE(shown.size() >= 3);
  CHECK(shown[shown.size() - 1].find('^') == shown[shown.size() - 2].find("us A8"));
  CHECK(refused("us A2, A6").find("\"iso A6\" or \"us A6\"") != std::string::npos);
  CHECK(refused("us A2,, us A7").find("A size is missing here") != std::string::npos);
  CHECK(refused("us A2,").find("A size is missing here") != std::string::npos);
  CHECK(refused("").find("A size is missing here") != std::string::npos);
  CHECK(refused("5 x 0").find("0 or less") != std::string::npos);
  CHECK(refused("5 x -7").find("0 or less") != std::string::npos);
  CHECK(refused("5 x").find("length") != std::string::npos);
  std::string many = "us A2";
  for (int i = 0; i < 100; ++i) many += ", us A2";
  CHECK(refused(many).find("100 at most") != std::string::npos);

  const FormatReading reading = read_formats("us A2, \u00FCs A7", Unit::inch, true, {});
  const auto told = nlohmann::json::parse(reading.refused.out);
  CHECK(told["verdict"] == "invalid");
  CHECK(told["errors"][0]["line"] == 1);
  CHECK(told["errors"][0]["column"] == 8);
}

TEST_CASE("each base has the sizes that the wishes come to there") {
  // The photo fills what is left of 5 1/8 high: 5 1/8 - 3/8 - 1/4 = 4 1/2.
  const auto tried = on(with_photo, "us A2, us A7, 5 1/8 x 5 1/8");
  CHECK(status_of(tried) == Status::done);
  CHECK(formats_text(card_of(with_photo), tried, {}) ==
        "It can be built on 2 of these 3 bases.\n"
        "\n"
        "base           size              plum mat         fern panel\n"
        "us A2          4 1/4 x 5 1/2 in  cannot be built\n"
        "  These cannot all hold: the border of plum mat is 1/8; the border of fern panel\n"
        "    is 1/16; gull, photo is 4 x 4 1/2; the border of gull, photo is at least\n"
        "    1/8. Missing: 3/8 in. Make the width of gull, photo 3 5/8 instead of 4 (3/8\n"
        "    in less).\n"
        "us A7          5 x 7 in          4 3/4 x 6 3/4    4 5/8 x 6 5/8\n"
        "5 1/8 x 5 1/8  5 1/8 x 5 1/8 in  4 7/8 x 4 7/8    4 3/4 x 4 3/4\n");
}

TEST_CASE("a base in another unit is told in its own") {
  const auto tried = on(with_photo, "iso A6, 5 x 7");
  const std::string text = formats_text(card_of(with_photo), tried, {});
  CHECK(text.find("iso A6  105 x 148 mm  ") != std::string::npos);
  const std::string metric = "unit = \"mm\"\n" + replaced(std::string(two_layers), "us A2", "iso A6");
  CHECK(formats_text(card_of(metric), on(metric, "us A2"), {}).find("4 1/4 x 5 1/2 in") != std::string::npos);
}

TEST_CASE("each base in JSON has its verdict with its sizes or the reason") {
  const auto told = json_of(with_photo, "us A2, us A7 turned, us A7");
  CHECK(told["verdict"] == "explored");
  CHECK(told["unit"] == "in");
  REQUIRE(told["formats"].size() == 3);
  const auto& fails = told["formats"][0];
  CHECK(fails["base"] == "us A2");
  CHECK(fails["width"] == "17/4");
  CHECK(fails["height"] == "11/2");
  CHECK(fails["verdict"] == "conflict");
  CHECK(fails["short_by"] == "3/8");
  CHECK(fails["says"].get<std::string>().find("the border of plum mat is 1/8") != std::string::npos);
  CHECK_FALSE(fails.contains("layers"));
  // The panel is 7 - 3/8 wide and 5 - 3/8 = 4 5/8 high, and 4 3/4 are wanted.
  CHECK(told["formats"][1]["verdict"] == "conflict");
  CHECK(told["formats"][1]["short_by"] == "1/8");
  const auto& builds = told["formats"][2];
  CHECK(builds["verdict"] == "buildable");
  CHECK_FALSE(builds.contains("says"));
  REQUIRE(builds["layers"].size() == 3);
  CHECK(builds["layers"][0]["width"] == "19/4");
  CHECK(builds["layers"][0]["height"] == "27/4");
  CHECK(builds["layers"][1]["width"] == "37/8");
  CHECK(builds["blank"]["width"] == "10");
  CHECK(builds["mail"].is_array());
}

TEST_CASE("rows of values hold every base under the same headings") {
  const auto tried = on(with_photo, "us A2, us A7");
  const auto rows = rows_of(formats_csv(card_of(with_photo), tried));
  REQUIRE(rows.size() == 3);
  CHECK(rows[0] == std::vector<std::string>{"base", "width", "height", "unit", "verdict", "says", "short by",
                                            "envelope", "plum mat width", "plum mat height",
                                            "fern panel width", "fern panel height", "gull, photo width",
                                            "gull, photo height"});
  REQUIRE(rows[1].size() == rows[0].size());
  CHECK(rows[1][4] == "conflict");
  CHECK(rows[1][5].find("gull, photo is 4 x 4 1/2") != std::string::npos);
  CHECK(rows[1][6] == "3/8");
  CHECK(rows[1][8].empty());
  CHECK(rows[2] == std::vector<std::string>{"us A7", "5", "7", "in", "buildable", "", "", "", "19/4", "27/4",
                                            "37/8", "53/8", "4", "9/2"});
}

TEST_CASE("every real card on another base is what its file with that front comes to") {
  const std::vector<std::string> bases{"us A7", "iso A6", "us A1 turned"};
  int builds = 0, fails = 0;
  for (const char* name : {"lantern-thanks", "forest-walk", "seed-swap", "kite-day", "first-snow"}) {
    const std::string file = case_text(name);
    const std::string stated = card_of(file).design.base.front.text;
    for (const std::string& base : bases) {
      INFO(name << " on " << base);
      const auto told = json_of(file, base)["formats"][0];
      const std::size_t at = file.find("\"" + stated + "\"", file.find("[base]"));
      REQUIRE(at != std::string::npos);
      std::string other = file;
      const CardReading reading = read_card(other.replace(at + 1, stated.size(), base));
      if (!reading.card) {
        CHECK(told["verdict"] == "invalid");
        CHECK(told["says"] == reading.mistakes.front().says);
        continue;
      }
      const SizedCard sized = size_card(*reading.card, {});
      CHECK(told["verdict"] == (sized.verdict == Verdict::buildable ? "buildable" : "conflict"));
      (sized.verdict == Verdict::buildable ? builds : fails) += 1;
      if (sized.verdict != Verdict::buildable) {
        CHECK_FALSE(told["says"].get<std::string>().empty());
        continue;
      }
      std::size_t layers = 0;
      for (const PlacedPiece& placed : sized.versions.front().pieces) {
        if (placed.piece->kind == Piece::Kind::window) continue;
        const auto& layer = told["layers"].at(layers++);
        CHECK(layer["name"] == placed.piece->name.value);
        CHECK(layer["width"] == fraction_text(placed.width));
        CHECK(layer["height"] == fraction_text(placed.height));
      }
      CHECK(told["layers"].size() == layers);
      CHECK(told.value("variants", nlohmann::json::array()).size() == reading.card->variants.size());
    }
  }
  CHECK(builds >= 3);
  CHECK(fails >= 3);
}

TEST_CASE("a base on which the file itself is wrong says so") {
  const std::string file = replaced(std::string(two_layers), "us A2\"", "us A2\"\nleaves = \"4 1/4, 4 1/4\"");
  const auto tried = on(file, "us A7, us A2");
  CHECK(status_of(tried) == Status::done);
  const auto told = nlohmann::json::parse(formats_json(card_of(file), tried));
  const CardReading alone = read_card(replaced(file, "us A2", "us A7"));
  REQUIRE_FALSE(alone.card);
  CHECK(told["formats"][0]["verdict"] == "invalid");
  CHECK(told["formats"][0]["says"] == alone.mistakes.front().says);
  CHECK(told["formats"][0]["errors"][0]["line"] == alone.mistakes.front().spot.line);
  CHECK(told["formats"][1]["verdict"] == "buildable");
  CHECK(status_of(on(file, "us A7")) == Status::cannot_be_built);
}

TEST_CASE("bases that are not settled in time say so") {
  const std::string file = case_text("lantern-thanks");
  const auto tried = on(file, "us A2, us A7", 0.0001);
  CHECK(status_of(tried) == Status::limit_reached);
  const std::string text = formats_text(card_of(file), tried, {});
  CHECK(text.find("It can be built on none of these 2 bases; 2 not settled.") != std::string::npos);
  CHECK(text.find("Not settled within the time allowed.") != std::string::npos);
  const auto told = nlohmann::json::parse(formats_json(card_of(file), tried));
  CHECK(told["formats"][0]["verdict"] == "undecided");
}

TEST_CASE("the table of bases keeps within the page whatever the names") {
  std::string file = with_photo;
  for (const std::string& name : {std::string("plum mat"), std::string("fern panel")}) {
    const std::string longer =
        name + " of the third lantern from the left \u00E4\u00F6\u00FC behind the harbour";
    for (std::size_t at = file.find("\"" + name + "\""); at != std::string::npos;
         at = file.find("\"" + name + "\"", at + longer.size()))
      file.replace(at + 1, name.size(), longer);
  }
  const std::string text = formats_text(card_of(file), on(file, "us A2, us A7, 127 mm x 177.8 mm"), {});
  for (const std::string& line : lines(text)) {
    INFO(line);
    const auto columns = std::count_if(
        line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    CHECK(columns <= 80);
  }
}

TEST_CASE("a size that names a unit for one side only is refused where the other would be read otherwise") {
  CHECK(refused("us A2, 105 x 148 mm").find("Name it for both, as in 105 mm x 148 mm.") != std::string::npos);
  for (const char* fine : {"105 mm x 148 mm", "5 x 7 in", "5 x 7", "iso A6"})
    CHECK(read_formats(fine, Unit::inch, false, {}).formats.size() == 1);
}
