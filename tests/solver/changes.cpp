// Changes that are offered for a card that cannot be built: each mends, none nearer would, and together they
// are the fewest. Held against trying every value on the marks in the file's own text.
#include "solver/why/changes.h"

#include <functional>
#include <map>
#include <optional>
#include <set>

#include "model/change_file.h"
#include "model/read_card.h"
#include "solver/check_card.h"
#include "tests/catch.h"
#include "tests/solver/faulty_cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

constexpr int most_marks = 16 * 6;  // no number of these cards is larger, in sixteenths

struct Faulty {
  std::string text;
  Rules rules;
  CheckedCard checked;

  explicit Faulty(unsigned seed)
      : text(faulty_card(seed)),
        rules(rules_of(card_of(text))),
        checked(check_card(card_of(text), text, {})) {}

  // The file with a number written otherwise; absent if it says nothing sensible then.
  [[nodiscard]] std::optional<Rules> with(const std::vector<NewValue>& values) const {
    std::string changed = text;
    std::map<Spot, std::vector<NewValue>, std::greater<>> by_spot;
    for (const NewValue& value : values) by_spot[rules.numbers[value.number].spot].push_back(value);
    for (const auto& [spot, some] : by_spot) {
      std::vector<std::pair<std::size_t, Rational>> places;
      for (const NewValue& value : some) places.emplace_back(rules.numbers[value.number].place, value.value);
      const StatedNumber& number = rules.numbers[some.front().number];
      changed = with_value(changed, spot, with_numbers(number.numbered, places, Unit::inch)).value();
    }
    const CardReading reading = read_card(changed);
    if (!reading.card) return std::nullopt;
    return rules_of(*reading.card);
  }

  // The number that a change is about.
  [[nodiscard]] std::size_t number_of(const Change& change) const {
    for (std::size_t i = 0; i < rules.numbers.size(); ++i) {
      const StatedNumber& number = rules.numbers[i];
      if (number.spot == change.spot &&
          with_numbers(number.numbered, {{number.place, number.number().value + change.by}}, Unit::inch) ==
              change.to)
        return i;
    }
    FAIL("no number of line " << change.spot.line << " was changed from " << change.from << " to "
                              << change.to);
    return 0;
  }
};

std::vector<Spot> spots_of(const Conflict& conflict) {
  std::vector<Spot> spots;
  for (const Remark& rule : conflict.rules) spots.push_back(rule.spot);
  return spots;
}

std::vector<Spot> all_spots(const Rules& rules) {
  std::vector<Spot> spots;
  for (const Rule& rule : rules.rules) spots.push_back(rule.spot);
  return spots;
}

bool holds_with(const Faulty& card, const std::vector<Spot>& spots, const std::vector<NewValue>& values) {
  const auto changed = card.with(values);
  return changed && can_hold(*changed, spots);
}

bool builds_with(const Faulty& card, const std::vector<NewValue>& values) {
  return holds_with(card, all_spots(card.rules), values);
}

Rational size(const Rational& by) { return by < 0 ? Rational(-by) : by; }

}  // namespace

TEST_CASE("each change offered mends its conflict, and no mark nearer to the stated value does") {
  int offered = 0;
  int refused = 0;
  for (unsigned seed = 200; seed < 204; ++seed) {
    const Faulty card(seed);
    INFO("seed " << seed << "\n" << card.text);
    for (const Conflict& conflict : card.checked.conflicts) {
      const std::vector<Spot> spots = spots_of(conflict);
      std::set<std::size_t> changed;
      for (const Change& change : conflict.changes) {
        if (!change.on_marks) continue;
        ++offered;
        const std::size_t number = card.number_of(change);
        const Rational from = card.rules.numbers[number].number().value;
        INFO("line " << change.spot.line << ", " << change.from << " to " << change.to);
        changed.insert(number);
        CHECK(holds_with(card, spots, {{number, from + change.by}}));
        CHECK(change.mends_card == builds_with(card, {{number, from + change.by}}));
        for (int mark = 0; mark < most_marks; ++mark) {
          const Rational value(mark, 16);
          const bool nearer = size(value - from) < size(change.by);
          const bool smaller = size(value - from) == size(change.by) && value < from + change.by;
          if (nearer || smaller) CHECK_FALSE(holds_with(card, spots, {{number, value}}));
        }
      }
      for (std::size_t number = 0; number < card.rules.numbers.size(); ++number) {
        const StatedNumber& stated = card.rules.numbers[number];
        const bool in_it = std::find(spots.begin(), spots.end(), stated.spot) != spots.end();
        const bool in_a_list = stated.number().part == NumberPart::one_of;
        if (!in_it || stated.artwork || in_a_list || changed.contains(number)) continue;
        ++refused;
        INFO("line " << stated.spot.line << ", " << stated.text << " is not offered");
        for (int mark = 0; mark < most_marks; ++mark)
          CHECK_FALSE(holds_with(card, spots, {{number, Rational(mark, 16)}}));
      }
    }
  }
  CHECK(offered > 4);
  CHECK(refused > 0);
}

TEST_CASE("no fewer numbers would mend the card, and no less change of as many") {
  int ones = 0;
  int twos = 0;
  for (unsigned seed = 300; seed < 308; ++seed) {
    const Faulty card(seed);
    if (card.checked.verdict != Verdict::conflict) continue;
    INFO("seed " << seed << "\n" << card.text);
    std::vector<std::size_t> numbers;
    for (std::size_t i = 0; i < card.rules.numbers.size(); ++i) {
      if (!card.rules.numbers[i].artwork) numbers.push_back(i);
    }
    const auto from = [&](std::size_t number) { return card.rules.numbers[number].number().value; };
    REQUIRE_FALSE(card.checked.mend.empty());
    Rational total = 0;
    for (const Change& change : card.checked.mend) total += size(change.by);
    const auto changed = read_card(with_changes(card.text, card.checked.mend).value());
    REQUIRE(changed.card);
    CHECK(check_card(*changed.card, "", {}).verdict == Verdict::buildable);
    const bool several = card.checked.mend.size() > 1;
    several ? ++twos : ++ones;
    // Any single number: whatever it is, if more are told; else only what is nearer.
    for (const std::size_t number : numbers) {
      for (int mark = 0; mark < most_marks; ++mark) {
        const Rational value(mark, 16);
        if (several || size(value - from(number)) < total) CHECK_FALSE(builds_with(card, {{number, value}}));
      }
    }
    if (card.checked.mend.size() != 2 || total > 1) continue;  // more would take long
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      for (std::size_t j = i + 1; j < numbers.size(); ++j) {
        for (Rational a = -total; a < total; a += Rational(1, 16)) {
          for (Rational b = -(total - size(a)); size(b) + size(a) <= total; b += Rational(1, 16)) {
            if (size(a) + size(b) == total || from(numbers[i]) + a < 0 || from(numbers[j]) + b < 0) continue;
            CHECK_FALSE(
                builds_with(card, {{numbers[i], from(numbers[i]) + a}, {numbers[j], from(numbers[j]) + b}}));
          }
        }
      }
    }
  }
  CHECK(ones > 0);
  CHECK(twos > 0);
}
