// Why a card cannot be built: nothing that is told could be left out.
#include "solver/answer/clash.h"

#include "solver/search/system_of.h"
#include "tests/catch.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

bool can_hold(const Rules& rules, const std::vector<std::size_t>& wishes) {
  std::size_t most = 0;
  for (const Rule& rule : rules.rules) most = std::max(most, rule.wish);
  std::vector<bool> counts(most + 1, false);
  for (const std::size_t wish : wishes) counts[wish] = true;
  Prover prover(30, 0);
  return possible(system_of(rules, counts), prover);
}

std::vector<int> lines(const SizedCard& sized) {
  std::vector<int> found;
  for (const ClashingRule& rule : sized.clash) found.push_back(rule.spot.line);
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

TEST_CASE("two widths side by side that are wider than the panel clash, and nothing else does") {
  // Lines 4 to 7 are the panel.
  const SizedText card(side_fold + panel + layer("a", "panel", "width = \"2 1/2\"\nheight = 1\n") +
                       layer("b", "panel", "width = \"1 5/8\"\nheight = 1\nright-of = \"a\"\n"));
  CHECK(card.sized.verdict == Verdict::conflict);
  CHECK(lines(card.sized) == std::vector<int>{7, 11, 16, 18});
  CHECK(card.sized.off_marks.empty());
  CHECK(card.sized.clash_of.empty());
}

TEST_CASE("a wish that is too large by itself is told alone") {
  const SizedText card(side_fold + panel + layer("a", "panel", "width = 2\nheight = 6\n"));
  CHECK(lines(card.sized) == std::vector<int>{12});
  CHECK_FALSE(card.sized.clash.front().says.empty());
}

TEST_CASE("of two clashes the one that comes first in the file is told") {
  const SizedText card(side_fold + layer("a", "front", "width = 5\n") + layer("b", "front", "width = 6\n"));
  CHECK(lines(card.sized) == std::vector<int>{7});
}

TEST_CASE("where only the marks stand in the way, that is said") {
  const std::string text = side_fold + layer("a", "front", "border = \"1/3\"\n");
  const SizedText card(text);
  CHECK(card.sized.verdict == Verdict::conflict);
  CHECK_FALSE(card.sized.off_marks.empty());
  CHECK(card.sized.off_marks.find("1/16 in") != std::string::npos);
  CHECK(lines(card.sized) == std::vector<int>{7});
  CHECK(SizedText(text + "cut = \"die\"\n").sized.verdict == Verdict::buildable);
}

TEST_CASE("what a clash tells cannot hold together, and without any one of it, the rest can") {
  int clashes = 0;
  int marks = 0;
  for (unsigned seed = 0; seed < 200; ++seed) {
    const std::string text = random_card(seed);
    const Rules rules = rules_of(card_of(text));
    Prover prover(30, 0);
    if (possible(system_of(rules), prover)) continue;
    INFO("seed " << seed << "\n" << text);
    ++clashes;
    const Clash clash = find_clash(rules, prover);
    REQUIRE_FALSE(clash.wishes.empty());
    CHECK_FALSE(can_hold(rules, clash.wishes));
    for (const std::size_t wish : clash.wishes) {
      std::vector<std::size_t> rest = clash.wishes;
      std::erase(rest, wish);
      CHECK(can_hold(rules, rest));
    }
    CHECK(clash.only_marks == possible(system_of(rules, {}, false), prover));
    if (clash.only_marks) ++marks;
  }
  CHECK(clashes > 20);
  CHECK(marks > 0);
}

TEST_CASE("a clash that time did not allow to make small still cannot hold together") {
  const Rules rules = rules_of(card_of(side_fold + panel + layer("a", "panel", "size = \"3 x 3\"\n") +
                                       layer("b", "panel", "size = \"3 x 3\"\n") +
                                       layer("c", "panel", "size = \"1 x 1\"\nalign = \"left\"\n")));
  Prover none(0, 0);
  const Clash hasty = find_clash(rules, none);
  CHECK_FALSE(hasty.smallest);
  CHECK_FALSE(can_hold(rules, hasty.wishes));
  Prover enough(30, 0);
  const Clash small = find_clash(rules, enough);
  CHECK(small.smallest);
  CHECK(small.wishes.size() == 2);
  CHECK(hasty.wishes.size() > 2);
}
