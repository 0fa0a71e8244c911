// Envelopes with names, held to a second listing of their sizes.
#include "model/envelopes.h"

#include <map>
#include <set>
#include <utility>

#include "tests/catch.h"

using namespace evenmat;

namespace {

Rational part(long long over, long long under) { return Rational(over) / Rational(under); }

Envelope envelope(std::string_view text, Unit unit = Unit::inch) {
  const EnvelopeReading reading = read_envelope(text, unit);
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.envelope);
  CHECK(reading.trouble.empty());
  return *reading.envelope;
}

std::string trouble(std::string_view text) {
  const EnvelopeReading reading = read_envelope(text, Unit::inch);
  INFO(text);
  CHECK_FALSE(reading.envelope);
  return reading.trouble;
}

bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

}  // namespace

// The sizes of ISO 269 as GOST R 51506-99, section on sizes, and public encyclopedias repeat them; C7 and C3
// as a listing of DIN 476-2:1991 has them. (The standard itself was not read.)
TEST_CASE("ISO envelopes have the sizes of ISO 269") {
  const std::map<std::string, Size> listed{
      {"iso C3", {324, 458}},   {"iso C4", {229, 324}},    {"iso C5", {162, 229}}, {"iso C6", {114, 162}},
      {"iso C7", {81, 114}},    {"iso B4", {250, 353}},    {"iso B5", {176, 250}}, {"iso B6", {125, 176}},
      {"iso C7/C6", {81, 162}}, {"iso C6/C5", {114, 229}}, {"iso DL", {110, 220}}, {"iso E4", {280, 400}}};
  std::size_t seen = 0;
  for (const Envelope& known : envelopes()) {
    if (known.unit != Unit::millimetre) continue;
    INFO(known.name);
    REQUIRE(listed.contains(known.name));
    CHECK(known.size == listed.at(known.name));
    CHECK((says(known.source, "ISO 269:1985") || says(known.source, "DIN 476-2:1991")));
    ++seen;
  }
  CHECK(seen == listed.size());
}

// Cn is the size between An and Bn, and so takes An with room to spare (ISO 269 on ISO 216 sheets).
TEST_CASE("each C envelope folds in two to the next") {
  for (int n = 3; n < 7; ++n) {
    const Size large = envelope("iso C" + std::to_string(n)).size;
    const Size small = envelope("iso C" + std::to_string(n + 1)).size;
    INFO("C" << n);
    CHECK(small.height == large.width);
    CHECK(small.width == Rational(floor(large.height / 2)));
  }
}

// Common practice of the card trade, no source; no. 10 and no. 9 (the slimline one) as stationers' charts
// list commercial envelopes.
TEST_CASE("US envelopes have the sizes the trade gives them") {
  CHECK(envelope("us A1").size == Size{part(29, 8), part(41, 8)});
  CHECK(envelope("us A2").size == Size{part(35, 8), part(23, 4)});
  CHECK(envelope("us A6").size == Size{part(19, 4), part(13, 2)});
  CHECK(envelope("us A7").size == Size{part(21, 4), part(29, 4)});
  CHECK(envelope("us A8").size == Size{part(11, 2), part(65, 8)});
  CHECK(envelope("us A9").size == Size{part(23, 4), part(35, 4)});
  CHECK(envelope("us A10").size == Size{6, part(19, 2)});
  CHECK(envelope("us slimline").size == Size{part(31, 8), part(71, 8)});
  CHECK(envelope("us no. 10").size == Size{part(33, 8), part(19, 2)});
  for (const Envelope& known : envelopes()) {
    if (known.unit == Unit::inch) CHECK(says(known.source, "common practice"));
    if (known.name.starts_with("us square")) {
      INFO(known.name);
      CHECK(known.size.width == known.size.height);
      CHECK(known.size == envelope(known.name.substr(10) + " x " + known.name.substr(10)).size);
    }
  }
}

TEST_CASE("envelopes come from the smallest to the largest and lie with the shorter side across") {
  std::map<Unit, Rational> before;
  std::set<std::string> names;
  for (const Envelope& known : envelopes()) {
    INFO(known.name);
    CHECK(names.insert(known.name).second);
    CHECK(known.size.width <= known.size.height);
    const Rational area = known.size.width * known.size.height;
    CHECK(area > before[known.unit]);
    before[known.unit] = area;
  }
}

TEST_CASE("an envelope is found in any letter case") {
  for (const char* text : {"us A2", "US a2", " us  A2 ", "Us A2"}) CHECK(envelope(text).name == "us A2");
  CHECK(envelope("ISO dl").name == "iso DL");
}

TEST_CASE("an envelope may be a size of the maker's own") {
  const Envelope own = envelope("5 3/4 x 4 3/8");
  CHECK(own.size == envelope("us A2").size);
  CHECK(own.unit == Unit::inch);
  CHECK(own.name == "5 3/4 x 4 3/8");
  CHECK(envelope("114 x 162", Unit::millimetre).size == envelope("iso C6").size);
  CHECK(envelope("114 mm x 162 mm").size == Size{part(570, 127), part(810, 127)});
}

TEST_CASE("an envelope nobody knows is told with the nearest one") {
  CHECK(says(trouble("us B2"), "Did you mean \"us A2\"?"));
  CHECK(says(trouble("us squere 6"), "Did you mean \"us square 6\"?"));
  CHECK(says(trouble("iso LD"), "Did you mean \"iso DL\"?"));
  CHECK(says(trouble("a shoebox"), "The nearest is"));
}

TEST_CASE("an envelope whose system is not said is asked for") {
  CHECK(says(trouble("A2"), "Write \"us A2\"."));
  CHECK(says(trouble("DL"), "Write \"iso DL\"."));
}

TEST_CASE("an envelope without a size is refused") {
  CHECK(says(trouble(""), "needs a name"));
  CHECK(says(trouble("0 x 5"), "each side needs some length"));
  CHECK(says(trouble("5 x -1"), "each side needs some length"));
  CHECK_FALSE(trouble("5 x").empty());
  CHECK_FALSE(trouble("#10").empty());
}
