// Entries of `rules`: what each form compares, how names are found, and where a reading stops.
#include "model/statement.h"

#include "tests/catch.h"

using namespace evenmat;

namespace {

const std::vector<std::string> names{"front",   "greeting", "lantern", "lantern panel", "top",
                                     "2nd mat", "x and y",  "it's",    "a.left",        "caf\u00E9"};

// `{factor name.line ... constant op}` for each comparison, `|` between choices.
std::string shape(std::string_view text) {
  const StatementReading reading = read_statement(text, names, Unit::inch, {2, 9});
  if (!reading.statement) return "trouble: " + reading.trouble;
  const char* lines[] = {"left", "right", "top", "bottom", "width", "height", "centre-across", "centre-down"};
  std::string out;
  for (const auto& choice : reading.statement->choices) {
    if (!out.empty()) out += "| ";
    for (const Comparison& comparison : choice) {
      for (const StatementTerm& term : comparison.terms) {
        out += term.factor.str() + "*" + term.name + "." + lines[static_cast<int>(term.line)] + " ";
      }
      out += comparison.constant.str() + (comparison.equal ? "=0 " : "<=0 ");
    }
  }
  return out;
}

std::pair<int, std::string> trouble(std::string_view text) {
  const StatementReading reading = read_statement(text, names, Unit::inch, {});
  INFO(text);
  CHECK_FALSE(reading.statement);
  return {reading.at, reading.trouble};
}

bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("comparisons become sums against 0") {
  CHECK(shape("greeting.bottom <= lantern.bottom - 1/4") == "1*greeting.bottom -1*lantern.bottom 1/4<=0 ");
  CHECK(shape("greeting.left >= 1") == "-1*greeting.left 1<=0 ");
  CHECK(shape("greeting.width = 2 * lantern.height") == "1*greeting.width -2*lantern.height 0=0 ");
  CHECK(shape("greeting.width == lantern.height * 1/2") == "1*greeting.width -1/2*lantern.height 0=0 ");
  CHECK(shape("- 2*greeting.left + front.width <= 2 in - 25.4 mm") ==
        "-2*greeting.left 1*front.width -1<=0 ");
  CHECK(shape("greeting.left\u2264front.right\u22121") == "1*greeting.left -1*front.right 1<=0 ");
}

TEST_CASE("a hyphen without blanks is part of a mixed number") {
  CHECK(shape("front.width - 4-1/4 <= 0") == "1*front.width -17/4<=0 ");
  CHECK(shape("front.width-1/4 <= 4 - 1/4") == "1*front.width -4<=0 ");
  CHECK(shape("front.width-front.height<=0") == "1*front.width -1*front.height 0<=0 ");
}

TEST_CASE("and binds tighter than or") {
  CHECK(shape("front.left<=1 and front.top<=2 or front.left>=3") ==
        "1*front.left -1<=0 1*front.top -2<=0 | -1*front.left 3<=0 ");
  CHECK(shape("front.left<=1 or front.top<=2 and front.left>=3") ==
        "1*front.left -1<=0 | 1*front.top -2<=0 -1*front.left 3<=0 ");
  CHECK(shape("0 <= greeting.left <= 1") == "-1*greeting.left 0<=0 1*greeting.left -1<=0 ");
}

TEST_CASE("the longest declared name is read and quotes settle doubt") {
  CHECK(shape("lantern panel.left <= 'lantern panel'.right") ==
        "1*lantern panel.left -1*lantern panel.right 0<=0 ");
  CHECK(shape("top.top <= x and y.top and 2nd mat.left <= 1") ==
        "1*top.top -1*x and y.top 0<=0 1*2nd mat.left -1<=0 ");
  CHECK(shape("it's.left <= 'it's'.right") == "1*it's.left -1*it's.right 0<=0 ");
  CHECK(shape("a.left.left <= 1") == "1*a.left.left -1<=0 ");
  CHECK(shape("caf\u00E9.width <= 1") == "1*caf\u00E9.width -1<=0 ");
}

TEST_CASE("center reads as centre") {
  CHECK(shape("greeting.center-across = front.centre-across") ==
        "1*greeting.centre-across -1*front.centre-across 0=0 ");
  CHECK(shape("greeting.center-down = front.centre-down") ==
        "1*greeting.centre-down -1*front.centre-down 0=0 ");
}

TEST_CASE("a bare number is in the card's unit") {
  const auto reading = read_statement("front.width <= 10 + 1 in", names, Unit::millimetre, {2, 9});
  REQUIRE(reading.statement);
  CHECK(reading.statement->choices[0][0].constant == Rational(-354) / 10);
  CHECK(reading.statement->spot == Spot{2, 9});
  CHECK(reading.statement->text == "front.width <= 10 + 1 in");
}

TEST_CASE("what cannot be read is told with the character where it shows") {
  CHECK(trouble("greting.left <= 1").first == 0);
  CHECK(says(trouble("greting.left <= 1").second, "\"greting\""));
  CHECK(says(trouble("greting.left <= 1").second, "Did you mean \"greeting\"?"));
  CHECK(trouble("caf\u00E9.widht <= 1").first == 5);
  CHECK(says(trouble("greeting.botom <= 1").second, "Did you mean \"bottom\"?"));
  CHECK(says(trouble("greeting.left < 1").second, "<="));
  CHECK(says(trouble("1 <= 2").second, "numbers only"));
  CHECK(says(trouble("greeting.left").second, "missing"));
  CHECK(says(trouble("").second, "ends"));
  CHECK(says(trouble("greeting.left <=").second, "ends"));
  CHECK(says(trouble("greeting.left <= 1 +").second, "ends"));
  CHECK(says(trouble("greeting.left <= 1 - -1").second, "\"-1\""));
  CHECK(says(trouble("greeting.left <= 1 2").second, "\"2\""));
  CHECK(says(trouble("(greeting.left) <= 1").second, "brackets"));
  CHECK(says(trouble("2 in * greeting.left <= 1").second, "unit"));
  CHECK(says(trouble("greeting.left * 2 in <= 1").second, "unit"));
  CHECK(says(trouble("greeting.left * lantern.left <= 1").second, "Only a number"));
  CHECK(says(trouble("3rd mat.left <= 1").second, "2nd mat"));
  CHECK(says(trouble("greeting <= 1").second, "greeting.width"));
  CHECK(says(trouble("greeting.left >= 1/0").second, "divides by 0"));
  CHECK(says(trouble("greeting.left <= 1 and").second, "ends"));
  CHECK(says(trouble("greeting.left <= 1 xor front.left <= 1").second, "does not belong"));
  CHECK(says(trouble("greeting.left <= " + std::string(1000, '1')).second, "30 digits"));
}
