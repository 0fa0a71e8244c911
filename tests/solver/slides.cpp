// What is told to slide goes as far as it says, and not a mark further.
#include <set>

#include "solver/search/choose.h"
#include "tests/catch.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

bool all_hold(const Rules& rules, const std::vector<Rational>& values) {
  return std::all_of(rules.rules.begin(), rules.rules.end(),
                     [&](const Rule& rule) { return holds(rule, values); });
}

// Those pieces of a version, artwork and copies with them, moved by so much.
std::vector<Rational> moved(const Rules& rules, std::vector<Rational> values, std::size_t version,
                            const Slide& slide, const Rational& by) {
  const std::set<std::string> names(slide.names.begin(), slide.names.end());
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& rectangle = rules.rectangles[i];
    if (rectangle.version != version || rectangle.kind == Rectangle::Kind::face) continue;
    if (!names.contains(rectangle.name)) continue;
    values[variable(i, slide.across ? Measure::left : Measure::top)] += by;
  }
  return values;
}

// Every slide goes as far as it says, and not a mark further. How many there are.
std::size_t check_slides(const Card& card) {
  const Rules rules = rules_of(card);
  const std::vector<Rational> values = choose(rules, {}).values;
  REQUIRE(all_hold(rules, values));
  std::size_t count = 0;
  const SizedCard sized = size_card(card, {});
  for (std::size_t version = 0; version < sized.versions.size(); ++version) {
    for (const Slide& slide : sized.versions[version].slides) {
      ++count;
      INFO(slide.names.front() << (slide.across ? " across " : " down ") << slide.low << " " << slide.high);
      CHECK(slide.low >= 0);
      CHECK(slide.high >= 0);
      CHECK(slide.low + slide.high > 0);
      const auto holds_at = [&](const Rational& by) {
        return all_hold(rules, moved(rules, values, version, slide, by));
      };
      CHECK(holds_at(-slide.low));
      CHECK(holds_at(slide.high));
      CHECK(holds_at((slide.high - slide.low) / 2));
      CHECK_FALSE(holds_at(-slide.low - card.mark));
      CHECK_FALSE(holds_at(slide.high + card.mark));
    }
  }
  return count;
}

}  // namespace

TEST_CASE("a greeting slides from edge to edge of what it is on, and no further") {
  const SizedText card(
      side_fold + panel +
      layer("greeting", "panel", "size = \"2 x 1\"\nfrom-top = \"at least 1/2\"\nfrom-left = 1\n"));
  REQUIRE(card.plain().slides.size() == 1);
  const Slide& slide = card.plain().slides.front();
  CHECK(slide.names == std::vector<std::string>{"greeting"});
  CHECK_FALSE(slide.across);
  // 5 1/4 - 1 = 4 1/4 is left, 2 1/8 above and below; 1/2 above is asked for.
  CHECK(card.piece("greeting").from_top == part(17, 8));
  CHECK(slide.low == part(13, 8));
  CHECK(slide.high == part(17, 8));
  CHECK(check_slides(card.card) == 1);
}

TEST_CASE("what is level slides together") {
  const SizedText card(side_fold + panel + layer("a", "panel", "size = \"1 x 1\"\nfrom-left = \"1/4\"\n") +
                       layer("b", "panel", "size = \"1 x 2\"\nfrom-right = \"1/4\"\nlevel-with = \"a\"\n"));
  REQUIRE(card.plain().slides.size() == 1);
  CHECK(card.plain().slides.front().names == std::vector<std::string>{"a", "b"});
  CHECK(check_slides(card.card) == 1);
}

TEST_CASE("what lies on a layer goes along") {
  const SizedText card(side_fold + panel + layer("mat", "panel", "align = \"left\"\n") +
                       layer("words", "mat", "artwork = \"2 x 1/2\"\nmargin = \"1/8\"\nborder = \"1/16\"\n"));
  REQUIRE(card.plain().slides.size() == 1);
  CHECK(card.plain().slides.front().names == std::vector<std::string>{"mat", "words"});
  CHECK(check_slides(card.card) == 1);
}

TEST_CASE("nothing slides where every place is stated") {
  CHECK(SizedText(side_fold + panel + layer("a", "panel", "size = \"1 x 1\"\nalign = \"centre\"\n"))
            .plain()
            .slides.empty());
}

TEST_CASE("layers on a panel that stays slide each by itself") {
  const SizedText card(
      side_fold + panel + layer("a", "panel", "size = \"1 x 1\"\nfrom-left = \"1/4\"\n") +
      layer("words", "panel", "artwork = \"2 x 1/2\"\nmargin = \"about 1/8\"\nfrom-bottom = 1\n"));
  REQUIRE(card.plain().slides.size() == 2);
  std::vector<std::vector<std::string>> names;
  for (const Slide& slide : card.plain().slides) names.push_back(slide.names);
  std::sort(names.begin(), names.end());
  CHECK(names == std::vector<std::vector<std::string>>{{"a"}, {"words"}});
  CHECK(check_slides(card.card) == 2);
}

TEST_CASE("of many small cards, each slide goes as far as it says and not a mark further") {
  std::size_t count = 0;
  for (unsigned seed = 300; seed < 360; ++seed) {
    const std::string text = random_card(seed);
    INFO("seed " << seed << "\n" << text);
    const Card card = card_of(text);
    if (choose(rules_of(card), {}).outcome != Outcome::found) continue;
    count += check_slides(card);
  }
  CHECK(count > 30);
}
