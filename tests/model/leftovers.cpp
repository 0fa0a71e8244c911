// Files of paper left over: what they hold, and every way in which a file is none.
#include "model/read_leftovers.h"
#include "tests/catch.h"
#include "tests/model/told.h"

using namespace evenmat;

namespace {

// The only mistake of the text.
Remark mistake(std::string_view text) {
  const LeftoversReading reading = read_leftovers(text);
  INFO(text << "\n" << testing::told(reading.mistakes));
  CHECK(reading.papers.empty());
  REQUIRE(reading.mistakes.size() == 1);
  return reading.mistakes.front();
}

void check(std::string_view text, Spot spot, std::initializer_list<std::string_view> words) {
  const Remark told = mistake(text);
  INFO(told.says);
  CHECK(told.spot == spot);
  for (const std::string_view word : words) CHECK(told.says.find(word) != std::string::npos);
}

}  // namespace

TEST_CASE("leftovers are papers as a card file has them, in the unit of their own file") {
  const LeftoversReading reading = read_leftovers(R"(unit = "mm"

[[paper]]
name = "moss"
sheet = "80 x 297"
have = 2
weight = "216 gsm"
up = true
grain = "short"

[[paper]]
name = "moss"
sheet = "4 in x 40"
)");
  CHECK(reading.mistakes.empty());
  CHECK(reading.unit == Unit::millimetre);
  REQUIRE(reading.papers.size() == 2);
  const Paper& first = reading.papers.front();
  CHECK(first.name.value == "moss");
  REQUIRE(first.sheet);
  CHECK(first.sheet->size == Size{80, 297});
  REQUIRE(first.have);
  CHECK(first.have->value == 2);
  CHECK(first.have->spot == Spot{6, 8});
  REQUIRE(first.grams_per_square_metre);
  CHECK(first.grams_per_square_metre->value == 216);
  CHECK(first.up);
  REQUIRE(first.grain);
  CHECK(first.grain->value == "short");
  CHECK_FALSE(reading.papers.back().have);
  CHECK(reading.papers.back().sheet->size == Size{Rational(508) / 5, 40});
}

TEST_CASE("without a unit leftovers are in inches") {
  const LeftoversReading reading = read_leftovers("[[paper]]\nname = \"moss\"\nsheet = \"4 x 8 1/2\"\n");
  CHECK(reading.mistakes.empty());
  CHECK(reading.unit == Unit::inch);
}

TEST_CASE("a file in which no paper is left over is told as such") {
  check("", {1, 1}, {"No paper is left over"});
  check("# swept clean\n", {1, 1}, {"No paper is left over"});
  check("unit = \"mm\"\n", {1, 1}, {"No paper is left over"});
  check("paper = []\n", {1, 1}, {"No paper is left over"});
}

TEST_CASE("a card file is no file of leftovers, and that alone is told") {
  check("title = \"x\"\ncards = 4\n\n[base]\nfold = \"side\"\nfront = \"us A2\"\n", {4, 2},
        {"\"base\" makes this a card file", "[[paper]]"});
  check("[[layer]]\nname = \"moss mat\"\n", {1, 3}, {"\"layer\" makes this a card file"});
}

TEST_CASE("a key that leftovers have not is told with the nearest one") {
  check("units = \"in\"\n[[paper]]\nname = \"moss\"\nsheet = \"4 x 8\"\n", {1, 1}, {"\"units\"", "\"unit\""});
  check("[[paper]]\nname = \"moss\"\nsheat = \"4 x 8\"\nsheet = \"4 x 8\"\n", {3, 1},
        {"\"sheat\"", "\"sheet\""});
  check("[trimmer]\nhold = 1\n[[paper]]\nname = \"moss\"\nsheet = \"4 x 8\"\n", {1, 2},
        {"\"trimmer\" is not a key of a file of leftovers"});
}

TEST_CASE("what is no TOML is told where it stops being so") {
  check("unit = \"in\"\n[[paper]]\nname = moss\n", {3, 8}, {"\"moss\" needs quotes"});
  check("\xff", {1, 1}, {});
  check("[[[", {1, 1}, {});
}

TEST_CASE("a leftover states its name and its size") {
  check("[[paper]]\nname = \"moss\"\nhave = 2\n", {1, 1}, {"has no size", "sheet = "});
  check("[[paper]]\nsheet = \"4 x 8\"\n", {1, 1}, {"no name"});
  check("[[paper]]\nname = \"moss\"\nsheet = \"4 by 8\"\n", {3, 9}, {});
  check("[paper]\nname = \"moss\"\nsheet = \"4 x 8\"\n", {1, 1}, {"Write [[paper]]"});
  check("paper = \"moss\"\n", {1, 9}, {"[[paper]]"});
}

TEST_CASE("all mistakes of leftovers are told, in file order") {
  const LeftoversReading reading =
      read_leftovers("[[paper]]\nname = \"moss\"\nhave = -1\n\n[[paper]]\nsheet = \"4 x 8\"\nup = 1\n");
  INFO(testing::told(reading.mistakes));
  REQUIRE(reading.mistakes.size() == 4);
  for (std::size_t i = 1; i < reading.mistakes.size(); ++i) {
    CHECK(reading.mistakes[i - 1].spot <= reading.mistakes[i].spot);
  }
}
