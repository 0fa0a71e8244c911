// Sizes with names and without, and the weight of paper, held to the published measures.
#include <algorithm>

#include "model/named_sizes.h"
#include "model/paper_weight.h"
#include "model/size_text.h"
#include "tests/catch.h"

using namespace evenmat;

namespace {

Rational part(long long over, long long under) { return Rational(over) / Rational(under); }

Size size(std::string_view text, Unit unit = Unit::inch) {
  const SizeReading reading = read_size(text, unit);
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.size);
  return *reading.size;
}

std::string trouble(std::string_view text) {
  const SizeReading reading = read_size(text, Unit::inch);
  INFO(text);
  CHECK_FALSE(reading.size);
  return reading.trouble;
}

bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

Size metric(const std::string& name) { return size("iso " + name, Unit::millimetre); }

}  // namespace

TEST_CASE("a size is a width and a height") {
  const Size a2{part(17, 4), part(11, 2)};
  for (const char* text : {"4 1/4 x 5 1/2", "4 1/4 X 5 1/2", "4.25x5.5", "4\u00BC \u00D7 5\u00BD",
                           " 17/4 in x 11/2 ", "107.95 mm x 5 1/2 in", "4 1/4\" x 5 1/2\""}) {
    INFO(text);
    CHECK(size(text) == a2);
  }
  CHECK(size("105 x 148", Unit::millimetre) == Size{105, 148});
}

// ISO 216:2007: An+1 is An halved across its longer side, rounded down to a whole millimetre; B likewise.
TEST_CASE("ISO sizes follow from halving") {
  for (const char* series : {"A", "B"}) {
    for (int n = 0; n < 10; ++n) {
      const Size whole = metric(series + std::to_string(n));
      const Size half = metric(series + std::to_string(n + 1));
      INFO(series << n);
      CHECK(half.height == whole.width);
      CHECK(half.width == Rational(floor(whole.height / 2)));
    }
  }
}

TEST_CASE("ISO sizes begin where the standard has them") {
  CHECK(metric("A0") == Size{841, 1189});
  CHECK(metric("A4") == Size{210, 297});
  CHECK(metric("A6") == Size{105, 148});
  CHECK(metric("B0") == Size{1000, 1414});
  CHECK(metric("B10") == Size{31, 44});
}

// ANSI/ASME Y14.1 sheets; the trade's card sizes are common practice.
TEST_CASE("US letter halves into the trade's folded card") {
  const Size letter = size("us letter");
  CHECK(letter == Size{part(17, 2), 11});
  CHECK(size("us A2") == Size{letter.width / 2, letter.height / 2});
  CHECK(size("us tabloid") == Size{letter.height, letter.width * 2});
  CHECK(size("us legal") == Size{part(17, 2), 14});
  CHECK(size("us A1") == Size{part(7, 2), part(39, 8)});
  CHECK(size("us A6") == Size{part(9, 2), part(25, 4)});
  CHECK(size("us A7") == Size{5, 7});
  CHECK(size("us slimline") == Size{part(7, 2), part(17, 2)});
  CHECK(size("us square 5 1/2") == Size{part(11, 2), part(11, 2)});
}

TEST_CASE("named sizes are upright, told apart, and turn") {
  for (const NamedSize& entry : named_sizes()) {
    INFO(entry.name);
    CHECK(entry.size.width <= entry.size.height);
    CHECK(entry.size.width > 0);
    CHECK(size(entry.name, entry.unit) == entry.size);
    CHECK(size(entry.name + " turned", entry.unit) == Size{entry.size.height, entry.size.width});
    CHECK(read_size(entry.name, Unit::inch).named_in == entry.unit);
  }
  CHECK(size("ISO a6") == size("iso A6"));
  CHECK(size("  Us   Letter  Turned ") == Size{11, part(17, 2)});
  CHECK(size("iso A6").width == part(105 * 5, 127));
  CHECK_FALSE(read_size("4 x 6", Unit::inch).named_in);
}

TEST_CASE("a letter that ISO and US sizes share asks whose it is") {
  CHECK(says(trouble("A6"), "\"iso A6\" or \"us A6\""));
  CHECK(says(trouble("a2"), "\"iso A2\" or \"us A2\""));
  CHECK(says(trouble("A4"), "\"iso A4\""));
  CHECK(says(trouble("letter"), "\"us letter\""));
}

TEST_CASE("what is no size is told") {
  CHECK(says(trouble("iso A66"), "Did you mean \"iso A6\"?"));
  CHECK(says(trouble("us leter"), "\"us letter\""));
  CHECK(says(trouble("4"), "\"4\""));
  CHECK(says(trouble("4 x"), "\"\""));
  CHECK(says(trouble("4 x 5 x 6"), "5 x 6"));
  CHECK(says(trouble("4 x 1/l6"), "1/l6"));
  CHECK(says(trouble(""), "\"\""));
}

// 1 lb = 453.59237 g, 500 sheets of the basic size, 1 in = 25.4 mm.
TEST_CASE("basis weights become grams per square metre") {
  const auto gsm = [](std::string_view text) {
    const WeightReading reading = read_weight(text);
    INFO(text << ": " << reading.trouble);
    REQUIRE(reading.grams_per_square_metre);
    return *reading.grams_per_square_metre;
  };
  CHECK(gsm("216 gsm") == 216);
  CHECK(gsm("216.5gsm") == part(433, 2));
  CHECK(gsm("80 g/m\u00B2") == 80);
  const Rational square_inch = part(254, 10000) * part(254, 10000);
  const Rational pound = part(45359237, 100000);
  CHECK(gsm("80 lb cover") == 80 * pound / (500 * 20 * 26 * square_inch));
  CHECK(gsm("80# cover") == gsm("80 LB Cover"));
  CHECK(gsm("60 lb text") == 60 * pound / (500 * 25 * 38 * square_inch));
  CHECK(gsm("110 lb index") == 110 * pound / (500 * part(51, 2) * part(61, 2) * square_inch));
  CHECK(gsm("67 lb bristol") == 67 * pound / (500 * part(45, 2) * part(57, 2) * square_inch));
  CHECK(gsm("20 lb bond") == 20 * pound / (500 * 17 * 22 * square_inch));
  // What packets print, rounded: 80 lb cover is 216 gsm, 20 lb bond is 75 gsm.
  CHECK(floor(gsm("80 lb cover") + part(1, 2)) == 216);
  CHECK(floor(gsm("20 lb bond") + part(1, 2)) == 75);
  for (const char* text :
       {"", "heavy", "80", "80 lb", "80 lb card", "0 gsm", "80 in cover", "80 lbcover", "1/0 gsm"}) {
    INFO(text);
    CHECK_FALSE(read_weight(text).grams_per_square_metre);
    CHECK_FALSE(read_weight(text).trouble.empty());
  }
}
