// The sums that stories are told from: they come out, they need every line, and with as much more room as
// they say is missing the conflict is gone.
#include "solver/why/sums.h"

#include <algorithm>

#include "model/change_file.h"
#include "model/read_card.h"
#include "solver/check_card.h"
#include "solver/why/conflicts.h"
#include "tests/catch.h"
#include "tests/solver/faulty_cards.h"
#include "tests/solver/random_cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

bool can_hold_together(const Rules& rules, const std::vector<SumLine>& lines) {
  System reals(rules.mark, rules.variables());
  Prover prover(30, 0);
  prover.describe(reals);
  for (const SumLine& line : lines) prover.require(line.says);
  return prover.possible();
}

void check_sum(const Rules& rules, const ExactSum& exact) {
  Sum sum;
  for (const SumLine& line : exact.lines) {
    sum.add(line.says.sum, line.times);
    CHECK((line.says.equal || line.times > 0));
  }
  CHECK(sum.is_constant());
  CHECK(sum.constant() == exact.miss);
  CHECK(exact.miss > 0);
  CHECK_FALSE(can_hold_together(rules, exact.lines));
  for (std::size_t i = 0; i < exact.lines.size(); ++i) {
    std::vector<SumLine> rest = exact.lines;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    CHECK(can_hold_together(rules, rest));
  }
  if (exact.space) {
    const Rational& times = exact.lines[*exact.space].times;
    CHECK((times == 1 || times == -1));
  }
}

// Marks aside, with a front of another size.
bool holds_on(const std::string& text, const Size& front, const std::vector<Spot>& spots) {
  const Spot spot = card_of(text).design.base.front.spot;
  const std::string size = fraction_text(front.width) + " x " + fraction_text(front.height);
  const Rules rules = rules_of(card_of(with_value(text, spot, size).value()));
  std::size_t most = 0;
  for (const Rule& rule : rules.rules) most = std::max(most, rule.wish);
  std::vector<bool> counts(most + 1, false);
  for (const Rule& rule : rules.rules) {
    if (std::find(spots.begin(), spots.end(), rule.spot) != spots.end()) counts[rule.wish] = true;
  }
  Prover prover(30, 0);
  return possible(system_of(rules, counts, false), prover);
}

}  // namespace

TEST_CASE("the sums of a conflict come out, and none of their lines can be left out") {
  int sums = 0;
  const auto check = [&](const std::string& text) {
    INFO(text);
    const Rules rules = rules_of(card_of(text));
    Prover prover(30, 0);
    Prover aside(&prover);
    Inquiry inquiry(rules, prover);
    find_clashes(inquiry, [&](const Clash& clash) {
      for (const std::size_t part : clash.parts) {
        const auto nearest = nearest_sum(rules, inquiry.rules_in(part, clash.wishes), std::nullopt, aside);
        if (!nearest) continue;
        for (const WayThrough& way : nearest->ways) {
          for (const ExactSum& sum : way.sums) check_sum(rules, sum);
        }
        ++sums;
      }
      return true;
    });
  };
  for (unsigned seed = 0; seed < 40; ++seed) check(faulty_card(seed));
  for (unsigned seed = 400; seed < 500; ++seed) check(random_card(seed));
  CHECK(sums > 60);
}

TEST_CASE("a front as much longer as it is too short would do, and no shorter one") {
  int fronts = 0;
  for (unsigned seed = 0; seed < 120; ++seed) {
    const std::string text = faulty_card(seed);
    const Card card = card_of(text);
    for (const Conflict& conflict : check_card(card, text, {}).conflicts) {
      INFO("seed " << seed << "\n" << text);
      const auto first = std::find_if(conflict.story.begin(), conflict.story.end(),
                                      [](const StoryStep& step) { return step.amount.has_value(); });
      const auto spaces = std::count_if(conflict.story.begin(), conflict.story.end(),
                                        [](const StoryStep& step) { return step.says.starts_with("That "); });
      if (spaces > 1) continue;
      if (!conflict.short_by || first == conflict.story.end() || !first->says.starts_with("The front is "))
        continue;
      ++fronts;
      const Size& front = card.design.base.front.size;
      const bool across = first->says.ends_with("wide.");
      const auto with = [&](const Rational& more) {
        return across ? Size{front.width + more, front.height} : Size{front.width, front.height + more};
      };
      std::vector<Spot> spots;
      for (const Remark& rule : conflict.rules) spots.push_back(rule.spot);
      const Rational little = Rational(*conflict.short_by < 0 ? -1 : 1, 1000);
      CHECK(holds_on(text, with(*conflict.short_by), spots));
      CHECK_FALSE(holds_on(text, with(*conflict.short_by - little), spots));
    }
  }
  CHECK(fronts > 10);
}

TEST_CASE("of two ways to lie apart the nearer is told, and the other by how much it misses") {
  const std::string text =
      "[base]\nfold = \"flat\"\nfront = \"5 x 4\"\n" + layer("a", "front", "size = \"2 1/2 x 3 1/2\"\n") +
      layer("b", "front", "size = \"2 3/8 x 3 1/2\"\nclear-of = [\"a\"]\nclearance = \"1/4\"\n");
  const CheckedCard checked = check_card(card_of(text), text, {});
  REQUIRE(checked.conflicts.size() == 1);
  CHECK(checked.conflicts[0].short_by == Rational(1, 8));
  CHECK(checked.conflicts[0].story.back().says == "One above the other they would be 3 1/4 in too tall.");
}

TEST_CASE("a size between two marks is told with the sum that puts it there") {
  const std::string text = "mark = \"1/8\"\n[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n" +
                           layer("mat", "front", "border = \"5/32\"\n");
  const CheckedCard checked = check_card(card_of(text), text, {});
  REQUIRE(checked.conflicts.size() == 1);
  CHECK_FALSE(checked.conflicts[0].short_by);
  CHECK(checked.conflicts[0].off_mark == Rational(1, 16));
  CHECK(checked.conflicts[0].story[1].total == Rational(63, 16));
  CHECK(checked.conflicts[0].story[4].total == Rational(83, 16));
}

TEST_CASE("a second mat beside the first is told where it may have been meant to lie") {
  const std::string text = side_fold + layer("first mat", "front", "border = \"1/8\"\n") +
                           layer("second mat", "front", "border = \"1/4\"\n");
  const CheckedCard checked = check_card(card_of(text), text, {});
  REQUIRE(checked.conflicts.size() == 1);
  REQUIRE(checked.conflicts[0].hints.size() == 1);
  CHECK(checked.conflicts[0].hints[0].find("on = \"first mat\"") != std::string::npos);
}

TEST_CASE("a rule whose lengths cancel is told with what it asks too much") {
  const std::string text =
      "rules = [\"mat.width >= mat.width + 5\"]\n[base]\nfold = \"flat\"\nfront = \"5 x 5\"\n" +
      layer("mat", "front");
  const CheckedCard checked = check_card(card_of(text), text, {});
  REQUIRE(checked.conflicts.size() == 1);
  CHECK(checked.conflicts[0].short_by == Rational(5));
  CHECK(checked.conflicts[0].story.back().says == "That is 5 in too much.");
}

TEST_CASE("a strip too wide for any cut-back of the front is too wide by the front that it lacks") {
  const std::string text = "unit = \"mm\"\n[base]\nfold = \"side\"\nfront = \"10 x 18\"\ncut-back = \"3\"\n" +
                           layer("strip", "reveal", "width = \"8\"\nborder = { across = \"at least 2\" }\n");
  const CheckedCard checked = check_card(card_of(text), text, {});
  const auto beyond_the_front =
      std::find_if(checked.conflicts.begin(), checked.conflicts.end(),
                   [](const Conflict& conflict) { return conflict.rules.size() == 2; });
  REQUIRE(beyond_the_front != checked.conflicts.end());
  CHECK(beyond_the_front->short_by == Rational(2));
}

TEST_CASE("borders that are exact on a front between the marks may each give way a little") {
  const std::string text = "unit = \"in\"\n[base]\nfold = \"side\"\nfront = \"iso A6\"\n" +
                           layer("leaf mat", "front", "border = \"1/8\"\n") +
                           layer("back mat", "back", "border = \"1/16\"\n");
  const CheckedCard checked = check_card(card_of(text), text, {});
  REQUIRE(checked.conflicts.size() == 2);
  for (const Conflict& conflict : checked.conflicts) {
    REQUIRE(conflict.changes.size() == 1);
    CHECK_FALSE(conflict.changes[0].on_marks);
    CHECK_FALSE(conflict.changes[0].mends_card);
  }
  REQUIRE(checked.mend.size() == 2);
  const auto mended = with_changes(text, checked.mend);
  REQUIRE(mended);
  CHECK(check_card(card_of(*mended), *mended, {}).verdict == Verdict::buildable);
}
