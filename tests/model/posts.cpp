// The posts' letter limits, held to a second listing of them.
#include "model/posts.h"

#include <set>

#include "tests/catch.h"

using namespace evenmat;

namespace {

using Maybe = std::optional<Rational>;
Rational part(long long over, long long under) { return Rational(over) / Rational(under); }
bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

const PostRules& post(std::string_view name) {
  const PostReading reading = read_post(name);
  INFO(name << ": " << reading.trouble);
  REQUIRE(reading.post);
  return *reading.post;
}

void check(const Between& limits, const Maybe& least, const Maybe& most) {
  CHECK(limits.least == least);
  CHECK(limits.most == most);
}

}  // namespace

// Universal Postal Union, Regulations to the Convention, small letters (P): 90 x 140 mm to 165 x 245 mm, 5
// mm, 100 g. From memory.
TEST_CASE("the union's small letter") {
  const PostRules& rules = post("upu");
  check(rules.length, Rational(140), Rational(245));
  check(rules.height, Rational(90), Rational(165));
  check(rules.thickness, std::nullopt, Rational(5));
  CHECK(rules.grams == Maybe(Rational(100)));
  CHECK(says(rules.source, "not checked against their text"));
}

// Domestic Mail Manual, updated 7-9-23, 101.1.1: at least 5 x 3 1/2 x 0.007 in; more than 6 in long or 4 1/4
// in high at least 0.009 in; at most 11 1/2 x 6 1/8 x 1/4 in; at most 3.5 oz. 101.1.2a: length to height 1.3
// to 2.5.
TEST_CASE("the United States' letter") {
  const PostRules& rules = post("usps");
  CHECK(rules.unit == Unit::inch);
  check(rules.length, Rational(5), part(115, 10));
  check(rules.height, part(35, 10), part(6125, 1000));
  check(rules.thickness, part(7, 1000), part(25, 100));
  check(rules.ratio, part(13, 10), part(25, 10));
  REQUIRE(rules.thin);
  CHECK(rules.thin->length == 6);
  CHECK(rules.thin->height == part(425, 100));
  CHECK(rules.thin->thickness == part(9, 1000));
  // 1 oz = 28.349523125 g (1 lb = 453.59237 g, International yard and pound agreement, 1959).
  CHECK(rules.grams == Maybe(part(28349523125, 1000000000) * part(35, 10)));
  CHECK_FALSE(rules.by_hand.empty());
}

// Canada Post, "Size requirements" of Lettermail: 140 x 90 x 0.18 mm to 245 x 156 x 5 mm, 50 g or less.
TEST_CASE("Canada's standard letter") {
  const PostRules& rules = post("canada post");
  check(rules.length, Rational(140), Rational(245));
  check(rules.height, Rational(90), Rational(156));
  check(rules.thickness, part(18, 100), Rational(5));
  CHECK(rules.grams == Maybe(Rational(50)));
}

// Royal Mail, "Size formats and weights - UK": 24 cm, 16.5 cm, 5 mm, 100 g at most.
TEST_CASE("the United Kingdom's letter") {
  const PostRules& rules = post("royal mail");
  check(rules.length, std::nullopt, Rational(240));
  check(rules.height, std::nullopt, Rational(165));
  check(rules.thickness, std::nullopt, Rational(5));
  CHECK(rules.grams == Maybe(Rational(100)));
}

// Deutsche Post, Standardbrief, as reported: 14 to 23.5 cm long, 9 to 12.5 cm wide, up to 0.5 cm and 20 g, at
// least 1.4 times as long as wide. Others are not sorted as such at all.
TEST_CASE("Germany's standard letter") {
  const PostRules& rules = post("deutsche post");
  check(rules.length, Rational(140), Rational(235));
  check(rules.height, Rational(90), Rational(125));
  check(rules.thickness, std::nullopt, Rational(5));
  CHECK(rules.grams == Maybe(Rational(20)));
  check(rules.ratio, part(14, 10), std::nullopt);
  CHECK(rules.by_hand.empty());
}

TEST_CASE("each post has a name, a source and a date of its own, and tells no price") {
  std::set<std::string> names;
  for (const PostRules& rules : posts()) {
    INFO(rules.name);
    CHECK(names.insert(rules.name).second);
    CHECK_FALSE(rules.format.empty());
    CHECK_FALSE(rules.source.empty());
    CHECK(rules.date.find("20") != std::string::npos);
    for (const char* money : {"$", "\u00A3", "\u20AC", "\u00A2", "cent"})
      CHECK_FALSE(says(rules.by_hand, money));
  }
}

TEST_CASE("a post is found in any letter case") {
  CHECK(post("USPS").name == "usps");
  CHECK(post(" Royal  Mail ").name == "royal mail");
}

TEST_CASE("a post nobody knows is told with the nearest one and with all") {
  const PostReading reading = read_post("uspss");
  CHECK(reading.post == nullptr);
  CHECK(says(reading.trouble, "\"uspss\" is not a post whose rules are known here. Did you mean \"usps\"?"));
  for (const PostRules& rules : posts()) CHECK(says(reading.trouble, "\"" + rules.name + "\""));
  CHECK(says(read_post("").trouble, "needs a name"));
  CHECK(says(read_post("a pigeon").trouble, "The nearest is"));
}
