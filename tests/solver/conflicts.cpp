// Why a card cannot be built: nothing that is told could be left out.
#include "solver/why/conflicts.h"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cstdint>
#include <set>

#include "solver/search/system_of.h"
#include "tests/catch.h"
#include "tests/solver/faulty_cards.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string panel = layer("panel", "front", "border = \"1/8\"\n");

std::vector<Spot> spots_of(const Inquiry& inquiry, const WishIds& wishes) {
  std::vector<Spot> spots;
  for (const WishId wish : wishes) spots.push_back(inquiry.spot(wish));
  return spots;
}

struct Found {
  std::vector<Spot> spots;
  std::vector<std::size_t> versions;
};
std::vector<Found> all_clashes(const Rules& rules, bool& all) {
  Prover prover(30, 0);
  Inquiry inquiry(rules, prover);
  std::vector<Found> found;
  all = find_clashes(inquiry, [&](const Clash& clash) {
    found.push_back({spots_of(inquiry, clash.wishes), {}});
    for (const std::size_t part : clash.parts) found.back().versions.push_back(inquiry.parts()[part].version);
    return true;
  });
  return found;
}

Rules version_of(const Rules& rules, std::size_t version) {
  std::vector<bool> only(version + 1, false);
  for (const Rule& rule : rules.rules) only.resize(std::max(only.size(), rule.version + 1), false);
  only[version] = true;
  return only_versions(rules, only);
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

TEST_CASE("a wish that is too large by itself is told with the border it has to leave, or alone") {
  const SizedText card(side_fold + panel + layer("a", "panel", "width = 2\nheight = 6\n"));
  // What the panel is on is given, but not how much border the panel has there.
  CHECK(lines(card.sized) == std::vector<int>{7, 12});
  CHECK(lines(SizedText(side_fold + layer("a", "front", "width = 2\nheight = 6\n")).sized) ==
        std::vector<int>{8});
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

TEST_CASE("every conflict told cannot hold together, and without any one of it the rest can") {
  int unbuildable = 0;
  for (unsigned seed = 0; seed < 250; ++seed) {
    const std::string text = random_card(seed);
    const Rules rules = rules_of(card_of(text));
    Prover prover(30, 0);
    if (possible(system_of(rules), prover)) continue;
    INFO("seed " << seed << "\n" << text);
    ++unbuildable;
    bool all = false;
    const std::vector<Found> found = all_clashes(rules, all);
    CHECK(all);
    REQUIRE_FALSE(found.empty());
    for (const Found& clash : found) {
      REQUIRE_FALSE(clash.spots.empty());
      for (const std::size_t version : clash.versions) {
        const Rules own = version_of(rules, version);
        CHECK_FALSE(can_hold(own, clash.spots));
        for (const Spot& spot : clash.spots) {
          std::vector<Spot> rest = clash.spots;
          std::erase(rest, spot);
          CHECK(can_hold(own, rest));
        }
      }
    }
  }
  CHECK(unbuildable > 30);
}

TEST_CASE("trying every set of wishes finds the same conflicts") {
  int compared = 0;
  int several = 0;
  for (unsigned seed = 0; seed < 30; ++seed) {
    const std::string text = faulty_card(seed);
    const Card card = card_of(text);
    const Rules rules = rules_of(card);
    std::vector<Spot> spots;
    for (const Rule& rule : rules.rules) {
      if (rule.origin == Origin::stated) spots.push_back(rule.spot);
    }
    std::sort(spots.begin(), spots.end());
    spots.erase(std::unique(spots.begin(), spots.end()), spots.end());
    if (can_hold(rules, spots)) continue;
    REQUIRE(spots.size() <= 10);
    INFO("seed " << seed << "\n" << text);
    ++compared;
    std::vector<std::uint32_t> conflicts;
    for (std::size_t count = 1; count <= spots.size(); ++count) {
      for (std::uint32_t set = 1; set < 1U << spots.size(); ++set) {
        if (static_cast<std::size_t>(std::popcount(set)) != count) continue;
        if (std::any_of(conflicts.begin(), conflicts.end(), [&](std::uint32_t c) { return (c & set) == c; }))
          continue;
        std::vector<Spot> held;
        for (std::size_t i = 0; i < spots.size(); ++i) {
          if ((set >> i & 1U) != 0) held.push_back(spots[i]);
        }
        if (!can_hold(rules, held)) conflicts.push_back(set);
      }
    }
    std::set<std::uint32_t> told;
    bool all = false;
    for (const Found& clash : all_clashes(rules, all)) {
      std::uint32_t set = 0;
      for (const Spot& spot : clash.spots) {
        set |= 1U << (std::find(spots.begin(), spots.end(), spot) - spots.begin());
      }
      told.insert(set);
    }
    if (told.size() > 1) ++several;
    CHECK(told == std::set<std::uint32_t>(conflicts.begin(), conflicts.end()));
  }
  CHECK(compared > 12);
  CHECK(several > 3);
}

TEST_CASE("without any time all wishes are told, with enough the fewest") {
  const std::string text = side_fold + panel + layer("a", "panel", "size = \"3 x 3\"\n") +
                           layer("b", "panel", "size = \"3 x 3\"\n") +
                           layer("c", "panel", "size = \"1 x 1\"\nalign = \"left\"\n");
  const Rules rules = rules_of(card_of(text));
  const SizedCard hasty = size_card(card_of(text), {.limit = 1e-9, .seed = 0, .ranges = false});
  CHECK(hasty.verdict == Verdict::conflict);
  CHECK_FALSE(hasty.clash_is_smallest);
  CHECK(hasty.clash.size() == 5);
  bool all = false;
  const std::vector<Found> found = all_clashes(rules, all);
  REQUIRE(found.size() == 1);
  CHECK(found.front().spots.size() == 3);
}

TEST_CASE("a wish that cannot hold by itself down the card is no part of a conflict across it") {
  // Across, the border and the cut-back leave a width between the marks; down, the border alone does.
  const std::string text =
      "unit = \"mm\"\nmark = \"1\"\n[base]\nfold = \"side\"\nfront = \"37 x 48\"\ncut-back = \"15\"\n" +
      layer("maple mat", "front", "border = \"0.375\"\n");
  bool all = false;
  const std::vector<Found> found = all_clashes(rules_of(card_of(text)), all);
  CHECK(all);
  REQUIRE(found.size() == 1);
  CHECK(found.front().spots.size() == 1);
  CHECK(found.front().spots.front().line == 10);
}
