// Wishes about a length: every form, two joined, and those that cannot be met.
#include "model/wish.h"

#include "tests/catch.h"

using namespace evenmat;

namespace {

Rational part(long long over, long long under) { return Rational(over) / Rational(under); }

Wish wish(std::string_view text) {
  const WishReading reading = read_wish(text, Unit::inch, {3, 7});
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.wish);
  return *reading.wish;
}

std::string trouble(std::string_view text) {
  const WishReading reading = read_wish(text, Unit::inch, {});
  INFO(text);
  CHECK_FALSE(reading.wish);
  return reading.trouble;
}

bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("a decimal comma is told as one, in a wish as in a length") {
  for (const char* text : {"2,5", "2,5 mm", "10,25 to 12"}) {
    INFO(text);
    const WishReading reading = read_wish(text, Unit::millimetre, {});
    CHECK_FALSE(reading.wish);
    CHECK(reading.trouble.find("point") != std::string::npos);
  }
  CHECK(read_wish("one of 2,3,5", Unit::millimetre, {}).wish);
}

TEST_CASE("a length alone is an exact wish") {
  const Wish exact = wish("1/8");
  CHECK(exact.at_least == part(1, 8));
  CHECK(exact.at_most == part(1, 8));
  CHECK(exact.exact() == part(1, 8));
  CHECK_FALSE(exact.about);
  CHECK_FALSE(exact.even);
  CHECK(exact.text == "1/8");
  CHECK(exact.spot == Spot{3, 7});
}

TEST_CASE("ranges and limits") {
  CHECK(wish("1/16 to 1/4").at_least == part(1, 16));
  CHECK(wish("1/16 to 1/4").at_most == part(1, 4));
  CHECK_FALSE(wish("1/16 to 1/4").exact());
  CHECK(wish("2 to 2").exact() == 2);
  CHECK(wish("at least 1/8").at_least == part(1, 8));
  CHECK_FALSE(wish("at least 1/8").at_most);
  CHECK(wish("at most 3").at_most == 3);
  CHECK_FALSE(wish("at most 3").at_least);
  CHECK(wish("At Least 1 mm").at_least == part(5, 127));
}

TEST_CASE("about, even and same as") {
  CHECK(wish("about 1/8").about == part(1, 8));
  CHECK_FALSE(wish("about 1/8").exact());
  CHECK(wish("even").even);
  CHECK(wish("same as dawn").same_as == "dawn");
  CHECK(wish("same as top of it").same_as == "top of it");
  CHECK(wish("same as 'ink, dry', at least 1").same_as == "ink, dry");
  CHECK(wish("same as 'ink, dry', at least 1").at_least == 1);
}

TEST_CASE("one of is sorted and without doubles") {
  const Wish dies = wish("one of 3, 2 1/4, 2 5/8, 2.25");
  CHECK(dies.one_of == std::vector<Rational>{part(9, 4), part(21, 8), Rational(3)});
  CHECK_FALSE(dies.exact());
  CHECK(wish("one of 2").exact() == 2);
  const Wish floored = wish("one of 2 1/4, 2 5/8, 3, at least 2 3/4");
  CHECK(floored.one_of.size() == 3);
  CHECK(floored.at_least == part(11, 4));
  CHECK(floored.exact() == 3);
}

TEST_CASE("two wishes are joined by a comma") {
  const Wish both = wish("1/16 to 3/16, about 1/8");
  CHECK(both.at_least == part(1, 16));
  CHECK(both.at_most == part(3, 16));
  CHECK(both.about == part(1, 8));
  CHECK(both.text == "1/16 to 3/16, about 1/8");
  const Wish tight = wish("at least 1, 1/2 to 3");
  CHECK(tight.at_least == 1);
  CHECK(tight.at_most == 3);
  const Wish even = wish("even, at least 1/8");
  CHECK(even.even);
  CHECK(even.at_least == part(1, 8));
  CHECK(wish("about 1/4, 1/16 to 1/8").about == part(1, 4));
}

TEST_CASE("a wish that contradicts itself is told") {
  for (const char* text :
       {"at least 3, at most 2", "1/8, 1/4", "1/8 to 1/4, at least 1/2", "one of 1, 2, at least 3",
        "one of 1, 2, 1 1/4 to 1 3/4", "about 1, about 2", "same as a, same as b"}) {
    INFO(text);
    CHECK(says(trouble(text), "contradicts itself"));
  }
  CHECK(says(trouble("1/4 to 1/16"), "runs backwards"));
}

TEST_CASE("what is no wish is told") {
  CHECK(says(trouble("1/l6"), "\"1/l6\""));
  CHECK(says(trouble("at least"), "at least"));
  CHECK(says(trouble("at least x"), "\"x\""));
  CHECK(says(trouble("atleast 3"), "\"atleast 3\""));
  CHECK(says(trouble("1/16 to x"), "\"x\""));
  CHECK(says(trouble("x to 1/16"), "\"x\""));
  CHECK(says(trouble("one of"), "one of"));
  CHECK(says(trouble("one of x"), "\"x\""));
  CHECK(says(trouble("same as"), "same as"));
  CHECK(says(trouble(""), "\"\""));
  CHECK(says(trouble("1/8,"), "\"\""));
  CHECK(says(trouble("1, 1, 1"), "more than two"));
  CHECK(says(trouble("about 1/0"), "divides by 0"));
  CHECK(says(trouble("at most " + std::string(40, '1')), "30 digits"));
}
