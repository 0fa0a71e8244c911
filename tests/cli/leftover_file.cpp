// The file of leftovers: what a job leaves is what the next one reads.
#include "cli/leftover_file.h"

#include "model/read_leftovers.h"
#include "tests/catch.h"
#include "tests/cli/cut_plans.h"

using namespace evenmat;
using testing::Planned;
using testing::three_sheets;

namespace {

std::string written(const Planned& planned) {
  return leftover_file(planned.batch_cards, planned.more, planned.batch);
}

LeftoversReading again(const Planned& planned) {
  const std::string text = written(planned);
  LeftoversReading reading = read_leftovers(text);
  INFO(text);
  for (const Remark& mistake : reading.mistakes) UNSCOPED_INFO(mistake.says);
  CHECK(reading.mistakes.empty());
  return reading;
}

Paper earlier(const std::string& name, const Size& sheet, int have) {
  Paper paper;
  paper.name = {name, {}};
  paper.sheet = {sheet, "", {}, {}};
  paper.have = {have, {}};
  return paper;
}

}  // namespace

TEST_CASE("a leftover keeps its name, its size, how many there are, and what its paper weighs") {
  Planned planned = three_sheets();
  planned.cards.front().papers.front().thickness = {Rational(11) / 1000, {}};
  const LeftoversReading reading = again(planned);
  CHECK(reading.unit == Unit::inch);
  REQUIRE(reading.papers.size() == 1);
  const Paper& left = reading.papers.front();
  CHECK(left.name.value == "moss");
  CHECK(left.sheet->size == Size{Rational(9) / 2, Rational(21) / 4});
  CHECK(left.have->value == 1);
  CHECK(left.grams_per_square_metre->value ==
        planned.cards.front().papers.front().grams_per_square_metre->value);
  CHECK(left.thickness->value == Rational(11) / 1000);
  CHECK_FALSE(left.up);
  CHECK_FALSE(left.grain);
}

TEST_CASE("a leftover says what its paper weighs, and how thick it is, in the words it was stated in") {
  Planned planned = three_sheets();
  Paper& moss = planned.cards.front().papers.front();
  CHECK(written(planned).find("weight = \"80 lb cover\"\n") != std::string::npos);
  moss.thickness = {Rational(11) / 1000, {}};
  CHECK(written(planned).find("thickness = \"0.011\"\n") != std::string::npos);
  moss.thickness_words = "11 pt";
  CHECK(written(planned).find("thickness = \"11 pt\"\n") != std::string::npos);
  moss.thickness_words.clear();
  moss.thickness->value = Rational(1) / 64;
  CHECK(written(planned).find("thickness = \"1/64\"\n") != std::string::npos);
}

TEST_CASE("offcuts of the work that nothing is cut from are left over where they are worth keeping") {
  Planned planned = three_sheets();
  CutSheet strip;
  strip.from = CutSheet::From::cut_back;
  strip.size = {1, Rational(11) / 2};
  strip.have = 11;
  planned.moss().stock.push_back(strip);
  CHECK(again(planned).papers.size() == 1);
  planned.moss().stock.back().keep = true;
  const LeftoversReading reading = again(planned);
  REQUIRE(reading.papers.size() == 2);
  CHECK(reading.papers[1].sheet->size == strip.size);
  CHECK(reading.papers[1].have->value == 11);
  planned.moss().plan.back().sheet = 1;  // one of them is cut
  CHECK(again(planned).papers[1].have->value == 10);
}

TEST_CASE("what is left is one entry with what was left before, where they are alike") {
  Planned planned = three_sheets();
  CutSheet before;
  before.from = CutSheet::From::more;
  before.size = {Rational(21) / 4, Rational(9) / 2};
  before.have = 2;
  planned.moss().stock.push_back(before);
  REQUIRE(again(planned).papers.size() == 1);
  CHECK(again(planned).papers.front().have->value == 3);
  for (CutSheet& sheet : planned.moss().stock) sheet.up = true;
  CHECK(again(planned).papers.size() == 2);
  for (CutSheet& sheet : planned.moss().stock) sheet.up = false;
  planned.moss().stock.back().cost = 1;
  CHECK(again(planned).papers.size() == 2);
}

TEST_CASE("what is left costs nothing, and has no edge to come off any more") {
  Planned planned = three_sheets();
  planned.cards.front().papers.front().cost = {2, {}};
  planned.moss().stock.front().cost = 2;
  planned.moss().stock.front().trim_first = Rational(1) / 4;
  const Paper left = again(planned).papers.front();
  CHECK_FALSE(left.cost);
  CHECK_FALSE(left.trim_first);
}

TEST_CASE("a leftover keeps its way up, and its grain though its longer side may be another") {
  Planned planned = three_sheets();
  CutSheet& sheet = planned.moss().stock.front();
  sheet.up = true;
  sheet.grain = "long";  // up and down: the sheet is taller than wide, and so is what is left
  CHECK(again(planned).papers.front().up);
  CHECK(again(planned).papers.front().grain->value == "long");
  planned.moss().plan.back().leftovers[1].width = 6;
  CHECK(again(planned).papers.front().grain->value == "short");
  sheet.grain = "short";
  CHECK(again(planned).papers.front().grain->value == "long");
}

TEST_CASE("leftovers alike are one entry, those that may not turn only if they lie alike") {
  Planned planned = three_sheets();
  std::vector<Leftover>& left = planned.moss().plan.front().leftovers;
  left[0] = {0, 0, Rational(21) / 4, Rational(9) / 2, true};
  REQUIRE(again(planned).papers.size() == 1);
  CHECK(again(planned).papers.front().have->value == 3);
  planned.moss().stock.front().up = true;
  CHECK(again(planned).papers.size() == 2);
}

TEST_CASE("names are read again as they were, whatever is in them") {
  for (const std::string name : {"moss \"deep\" \\ green", "a\nb\tc", "caf\u00E9 \u2013 #1", "\x01\x1f\x7f",
                                 "name = \"x\"\n[[paper]]", "'''"}) {
    Planned planned = three_sheets();
    planned.moss().paper = name;
    planned.cards.front().title = name;
    const LeftoversReading reading = again(planned);
    REQUIRE(reading.papers.size() == 1);
    CHECK(reading.papers.front().name.value == name);
  }
}

TEST_CASE("lengths are read again as they were, where they can be written at all") {
  for (const Unit unit : {Unit::inch, Unit::millimetre}) {
    for (const Rational& width : {Rational(Rational(1) / 3), Rational(Rational(10007) / 10009), Rational(4),
                                  Rational(Rational(123456789) / 1000000)}) {
      Planned planned = three_sheets();
      planned.cards.front().unit = unit;
      planned.moss().plan.back().leftovers[1].width = width;
      const LeftoversReading reading = again(planned);
      CHECK(reading.unit == unit);
      CHECK(reading.papers.front().sheet->size.width == width);
    }
  }
  Planned planned = three_sheets();
  const Rational odd = 4 + Rational(1) / Rational("1000000000000000000000000000000000007");
  planned.moss().plan.back().leftovers[1].width = odd;
  CHECK(again(planned).papers.front().sheet->size.width == 4);
}

TEST_CASE("earlier leftovers that were not touched are written down with the new ones") {
  Planned planned = three_sheets();
  planned.more.push_back({"left.toml", Unit::millimetre, {earlier("moss", {508, 127}, 5)}});
  planned.more.back().papers.push_back(earlier("fog", {254, 127}, 2));
  planned.more.back().papers.push_back(earlier("dusk", {254, 127}, 0));
  CutSheet sheet;
  sheet.from = CutSheet::From::more;
  sheet.size = {20, 5};
  sheet.have = 5;
  planned.moss().stock.push_back(sheet);
  planned.moss().plan.back().sheet = 1;  // takes one of them
  const LeftoversReading reading = again(planned);
  REQUIRE(reading.papers.size() == 3);
  CHECK(reading.papers[1].name.value == "moss");
  CHECK(reading.papers[1].sheet->size == Size{20, 5});
  CHECK(reading.papers[1].have->value == 4);
  CHECK(reading.papers[2].name.value == "fog");
  CHECK(reading.papers[2].sheet->size == Size{10, 5});
  CHECK(reading.papers[2].have->value == 2);
}

TEST_CASE("where nothing worth keeping is left there is no text") {
  Planned planned = three_sheets();
  planned.moss().plan.back().leftovers[1].keep = false;
  CHECK(written(planned).empty());
}

TEST_CASE("the file says what it is") {
  const std::string text = written(three_sheets());
  CHECK(text.starts_with("# Paper left over after \"Fern fair\". Name this file after --also "));
}
