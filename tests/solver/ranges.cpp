// Each end of a range can be had, and nothing beyond it.
#include <map>

#include "solver/search/system_of.h"
#include "tests/catch.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

// The measures that ranges are told of, in their order.
std::vector<Sum> measures(std::size_t cell, std::size_t body, std::size_t below) {
  const auto of = [](std::size_t i, Measure measure) { return Sum::of(variable(i, measure)); };
  return {of(cell, Measure::width), of(cell, Measure::height),
          of(body, Measure::left) - of(below, Measure::left),
          of(body, Measure::top) - of(below, Measure::top)};
}

bool can_be(Rules rules, const Sum& sum, const Rational& value) {
  Rule rule;
  rule.choices = {{equals(sum, value)}};
  rule.origin = Origin::stated;
  rule.wish = 1'000'000;
  rules.rules.push_back(std::move(rule));
  Prover prover(30, 0);
  return possible(system_of(rules), prover);
}

}  // namespace

TEST_CASE("each end of a range can be stated, a mark beyond it cannot") {
  const auto with_words = [](const std::string& key) {
    return side_fold + panel +
           layer("words", "panel", "artwork = \"2 x 1/2\"\nmargin = \"at least 1/8\"\n" + key) +
           layer("tag", "panel", "size = \"1 x 1\"\nbelow = \"words\"\ngap = \"at least 1/4\"\n");
  };
  SizeOptions options;
  options.ranges = true;
  const SizedText card(with_words(""), options);
  REQUIRE(card.plain().ranges.size() == 12);
  const auto verdict = [&](const std::string& key, const Rational& value) {
    return SizedText(with_words(key + " = \"" + length_text(value, Unit::inch) + "\"\n")).sized.verdict;
  };
  const std::vector<std::string> keys = {"width", "height", "from-left", "from-top"};
  for (std::size_t i = 0; i < 4; ++i) {
    const Range& range = card.plain().ranges[4 + i];
    INFO(range.what);
    CHECK(range.layer == "words");
    CHECK(range.least < range.most);
    CHECK(verdict(keys[i], range.least) == Verdict::buildable);
    CHECK(verdict(keys[i], range.most) == Verdict::buildable);
    if (range.least > 0) CHECK(verdict(keys[i], range.least - part(1, 16)) == Verdict::conflict);
    CHECK(verdict(keys[i], range.most + part(1, 16)) == Verdict::conflict);
  }
  // 2 + 1/4 to 4 wide; 1/2 + 1/4 to 5 1/4 - 1 - 1/4 tall.
  CHECK(card.plain().ranges[4].least == part(9, 4));
  CHECK(card.plain().ranges[4].most == 4);
  CHECK(card.plain().ranges[5].least == part(3, 4));
  CHECK(card.plain().ranges[5].most == 4);
}

TEST_CASE("of many small cards, each end of a range can be had, a mark beyond it cannot") {
  int open = 0;
  for (unsigned seed = 400; seed < 425; ++seed) {
    const std::string text = random_card(seed);
    INFO("seed " << seed << "\n" << text);
    const Card card = card_of(text);
    if (!card.variants.empty()) continue;
    const Rules rules = rules_of(card);
    SizeOptions options;
    options.ranges = true;
    const SizedCard sized = size_card(card, options);
    if (sized.verdict != Verdict::buildable) continue;
    std::map<std::string, std::size_t> cell;
    std::map<std::string, std::size_t> body;
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      const Rectangle& rectangle = rules.rectangles[i];
      if (rectangle.kind == Rectangle::Kind::artwork) continue;
      if (rectangle.kind != Rectangle::Kind::copies) cell[rectangle.name] = i;
      body[rectangle.name] = i;
    }
    std::size_t next = 0;
    for (const Piece& piece : card.design.pieces) {
      const std::string& name = piece.name.value;
      for (const Sum& sum : measures(cell.at(name), body.at(name), cell.at(piece.on.value))) {
        const Range& range = sized.versions.front().ranges.at(next++);
        INFO(name << " " << range.what);
        if (range.least < range.most) ++open;
        CHECK(can_be(rules, sum, range.least));
        CHECK(can_be(rules, sum, range.most));
        CHECK_FALSE(can_be(rules, sum, range.least - card.mark));
        CHECK_FALSE(can_be(rules, sum, range.most + card.mark));
      }
    }
  }
  CHECK(open > 30);
}
