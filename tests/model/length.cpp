// Lengths: every form a maker writes, exact values, and how they are shown.
#include "model/length.h"

#include "tests/catch.h"

using namespace evenmat;

namespace {

Rational part(long long over, long long under) { return Rational(over) / Rational(under); }

std::optional<Rational> inches(std::string_view text) { return read_length(text, Unit::inch).value; }
std::optional<Rational> millimetres(std::string_view text) {
  return read_length(text, Unit::millimetre).value;
}

}  // namespace

TEST_CASE("every written form of four and a quarter inches is one length") {
  for (const char* text : {"4 1/4",
                           "4-1/4",
                           "17/4",
                           "4.25",
                           "4 1/4 in",
                           "4 1/4\"",
                           "4 1/4in",
                           "4\u00BC",
                           "4 \u00BC",
                           "4-\u00BC",
                           "4 2/8",
                           "34/8",
                           "4.250",
                           "04.25",
                           "  4 1/4  ",
                           "4\t1/4",
                           "4\u00A01/4",
                           "4 1\u20444",
                           "4\u20111/4",
                           "4 1/4 inch",
                           "4 1/4 inches",
                           "4 1/4 IN",
                           "4 1/4\u2033",
                           "107.95 mm",
                           "10.795 cm",
                           "107.95mm",
                           "10.795 centimetres",
                           "107.95 millimeters",
                           "+4.25"}) {
    INFO(text);
    CHECK(inches(text) == part(17, 4));
  }
}

TEST_CASE("a bare number is in the card's unit and a named unit is not") {
  CHECK(inches("3") == 3);
  CHECK(millimetres("3") == 3);
  CHECK(millimetres("3 in") == part(381, 5));
  CHECK(inches("3 mm") == part(15, 127));
  CHECK(millimetres("10.5 cm") == 105);
}

// International yard and pound agreement, 1959: 1 yd = 0.9144 m.
TEST_CASE("an inch is exactly 25.4 mm") {
  CHECK(millimetres("1 in") == part(254, 10));
  CHECK(convert(Rational(36), Unit::inch, Unit::millimetre) == part(9144, 10));
  CHECK(convert(convert(part(1, 3), Unit::inch, Unit::millimetre), Unit::millimetre, Unit::inch) ==
        part(1, 3));
  CHECK(inches("25.4 mm") == 1);
}

TEST_CASE("decimals are exact tenths") {
  CHECK(inches("0.1") == part(1, 10));
  CHECK(inches(".1") == part(1, 10));
  CHECK(inches("0.1").value() + inches("0.2").value() == inches("0.3").value());
  CHECK(inches("010") == 10);
  CHECK(inches("0.000000000000000000000000001") == 1 / Rational("1000000000000000000000000000"));
}

TEST_CASE("lengths below 0 keep their sign over the whole of them") {
  CHECK(inches("-1/16") == part(-1, 16));
  CHECK(inches("-1 1/16") == part(-17, 16));
  CHECK(inches("\u22121.5") == part(-3, 2));
  CHECK(inches("- 2 mm") == -inches("2 mm").value());
}

TEST_CASE("what is no length is refused and quoted") {
  for (const char* text : {"1/l6", "", "four", "1 1", "1/", "/4", "1.", "1.2.3", "1//4", "4 1/4 ft", "in",
                           "1e3", "4 1/4 x", "--1", "1 /4 5", "4 - 1/4", "0x10", "nan", "1,5 in 2"}) {
    INFO(text);
    const LengthReading reading = read_length(text, Unit::inch);
    CHECK_FALSE(reading.value);
    CHECK(reading.trouble.find(std::string("\"") + text + "\"") != std::string::npos);
  }
}

TEST_CASE("what is nearly a length is told what mends it") {
  CHECK(read_length("4,25", Unit::inch).trouble.find("4.25") != std::string::npos);
  CHECK(read_length("4 5/4", Unit::inch).trouble.find("less than 1") != std::string::npos);
  CHECK(read_length("1/0", Unit::inch).trouble.find("divides by 0") != std::string::npos);
  CHECK_FALSE(read_length("1/0", Unit::inch).value);
}

TEST_CASE("numbers of more than 30 digits are refused and 30 are not") {
  const std::string thirty(30, '7');
  CHECK(inches(thirty) == Rational(thirty));
  CHECK(inches("1/" + thirty) == 1 / Rational(thirty));
  for (const std::string& text : {thirty + "7", "1/" + thirty + "7", thirty + "7/8", "1 1/" + thirty + "7",
                                  "0." + thirty, std::string(1000, '9')}) {
    INFO(text);
    CHECK(read_length(text, Unit::inch).trouble.find("30 digits") != std::string::npos);
  }
}

TEST_CASE("inches are shown as the ruler has them") {
  CHECK(length_text(part(33, 8), Unit::inch) == "4 1/8");
  CHECK(length_text(0, Unit::inch) == "0");
  CHECK(length_text(4, Unit::inch) == "4");
  CHECK(length_text(part(-1, 16), Unit::inch) == "-1/16");
  CHECK(length_text(part(-17, 16), Unit::inch) == "-1 1/16");
  CHECK(length_text(part(1, 64), Unit::inch) == "1/64");
  CHECK(length_text(part(19, 12), Unit::inch) == "1 7/12");
  CHECK(length_text(part(1, 1000), Unit::inch) == "1/1000");
  CHECK(length_text(part(1684, 1000) + part(1, 10007), Unit::inch) == "about 1.684");
  CHECK(length_text(-part(1684, 1000) - part(1, 10007), Unit::inch) == "about -1.684");
  CHECK(length_with_unit(part(33, 8), Unit::inch) == "4 1/8 in");
}

TEST_CASE("millimetres are shown as decimals and told where they are rounded") {
  CHECK(length_text(99, Unit::millimetre) == "99");
  CHECK(length_text(part(9, 2), Unit::millimetre) == "4.5");
  CHECK(length_text(part(1, 8), Unit::millimetre) == "0.125");
  CHECK(length_text(part(100, 3), Unit::millimetre) == "about 33.333");
  CHECK(length_text(part(2, 3), Unit::millimetre) == "about 0.667");
  CHECK(length_text(part(1, 16), Unit::millimetre) == "about 0.063");
  CHECK(length_text(part(-9, 2), Unit::millimetre) == "-4.5");
  CHECK(length_with_unit(99, Unit::millimetre) == "99 mm");
}

TEST_CASE("what is shown and not rounded is read back as itself") {
  for (int under = 1; under <= 64; ++under) {
    for (int over = -3 * under - 1; over <= 3 * under + 1; ++over) {
      const Rational value = part(over, under);
      INFO(value);
      CHECK(inches(length_text(value, Unit::inch)) == value);
      CHECK(inches(length_with_unit(value, Unit::inch)) == value);
      CHECK(millimetres(length_with_unit(value, Unit::inch)) == convert(value, Unit::inch, Unit::millimetre));
      const std::string metric = length_text(value, Unit::millimetre);
      if (metric.find("about") == std::string::npos) {
        CHECK(millimetres(metric) == value);
      } else {
        const Rational off = millimetres(metric.substr(6)).value() - value;
        CHECK(off <= part(1, 2000));
        CHECK(off >= part(-1, 2000));
      }
    }
  }
}
