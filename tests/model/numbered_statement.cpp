// The numbers inside made-up rules: one changed, everything else compared as before.
#include <algorithm>

#include "tests/model/numbered_texts.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

void put_item(Maker& maker, bool constant) {
  static const std::array<const char*, 6> terms{"front.width",        "mat.left", "lantern panel.bottom",
                                                "'it's'.centre-down", "it's.top", "caf\u00E9.height"};
  const std::string term = terms.at(maker.below(terms.size()));
  if (constant) {
    maker.put(NumberPart::constant);
  } else if (maker.below(3) == 0) {
    maker.text += maker.length(false).first + maker.maybe_blanks() + "*" + maker.maybe_blanks() + term;
  } else if (maker.below(3) == 0) {
    maker.text += term + " * " + maker.length(false).first;
  } else {
    maker.text += term;
  }
}

void put_sum(Maker& maker) {
  if (maker.below(6) == 0) maker.text += "-" + maker.maybe_blanks();
  put_item(maker, maker.below(3) == 0);
  for (std::size_t more = maker.below(3); more > 0; --more) {
    static const std::array<const char*, 3> signs{"+", "-", "\u2212"};
    maker.text += maker.maybe_blanks() + signs.at(maker.below(signs.size())) + maker.maybe_blanks();
    put_item(maker, maker.below(2) == 0);
  }
}

void put_statement(Maker& maker) {
  static const std::array<const char*, 5> senses{"<=", ">=", "=", "\u2264", "\u2265"};
  for (std::size_t more = maker.below(3); true; --more) {
    put_sum(maker);
    for (std::size_t sums = 1 + maker.below(4) / 3; sums > 0; --sums) {
      maker.text += maker.maybe_blanks() + senses.at(maker.below(senses.size())) + maker.maybe_blanks();
      put_sum(maker);
    }
    if (more == 0) return;
    const char last = maker.text.back();
    const bool blank_wanted = last != '"';
    maker.text += (blank_wanted ? maker.blanks() : maker.maybe_blanks()) +
                  (maker.below(2) == 0 ? "and" : "or") + maker.blanks();
  }
}

bool same_terms(const Comparison& a, const Comparison& b) {
  return a.equal == b.equal && std::equal(a.terms.begin(), a.terms.end(), b.terms.begin(), b.terms.end(),
                                          [](const StatementTerm& one, const StatementTerm& other) {
                                            return one.factor == other.factor && one.name == other.name &&
                                                   one.line == other.line;
                                          });
}

// Each constant is the sum of the lengths said to be in it, with the value of one of them replaced.
void check_constants(const Statement& own, const Statement& now, std::size_t number, const Rational& value) {
  REQUIRE(now.choices.size() == own.choices.size());
  for (std::size_t choice = 0; choice < own.choices.size(); ++choice) {
    REQUIRE(now.choices[choice].size() == own.choices[choice].size());
    for (std::size_t i = 0; i < own.choices[choice].size(); ++i) {
      REQUIRE(same_terms(now.choices[choice][i], own.choices[choice][i]));
      Rational constant = 0;
      for (const StatementNumber& length : own.lengths) {
        if (length.choice != choice || length.comparison != i) continue;
        constant +=
            length.factor * (length.number == number ? value : own.numbered.numbers[length.number].value);
      }
      REQUIRE(now.choices[choice][i].constant == constant);
    }
  }
}

}  // namespace

TEST_CASE("a rule with one length changed compares that length and all else as before") {
  int read = 0;
  int tried = 0;
  for (unsigned seed = 0; seed < 3000; ++seed) {
    const Unit unit = seed % 2 == 0 ? Unit::inch : Unit::millimetre;
    Maker maker(seed, unit);
    put_statement(maker);
    const StatementReading reading = read_statement(maker.text, names, unit, {});
    if (!reading.statement) continue;
    const Statement& own = *reading.statement;
    INFO("seed " << seed << ": " << maker.text);
    // `4` and `-1/4` put side by side are one number to a reader, and not what was put.
    if (own.numbered.numbers.size() != maker.puts.size()) continue;
    ++read;
    for (std::size_t i = 0; i < maker.puts.size(); ++i) {
      const NumberIn& number = own.numbered.numbers[i];
      REQUIRE(number.part == NumberPart::constant);
      REQUIRE(number.begin == maker.puts[i].begin);
      REQUIRE(number.end == maker.puts[i].end);
      REQUIRE(number.value == maker.puts[i].value);
      check_constants(own, statement(changed(own.numbered, i, number.value, unit), unit), i, number.value);
      for (const Rational& size : new_values) {
        for (const Rational& value : {size, Rational(-size)}) {
          const std::string text = changed(own.numbered, i, value, unit);
          INFO("changed: " << text);
          check_constants(own, statement(text, unit), i, value);
          ++tried;
        }
      }
    }
  }
  CHECK(read > 1500);
  CHECK(tried > 20000);
}

TEST_CASE("several numbers of a text are changed at once") {
  for (unsigned seed = 0; seed < 500; ++seed) {
    Maker maker(seed, Unit::inch);
    put_statement(maker);
    const StatementReading reading = read_statement(maker.text, names, Unit::inch, {});
    if (!reading.statement) continue;
    std::vector<std::pair<std::size_t, Rational>> changes;
    const std::size_t count = reading.statement->numbered.numbers.size();
    const auto value = [](std::size_t place) { return Rational(Integer(place)) + part(1, 3); };
    for (std::size_t i = 0; i < count; ++i) changes.emplace_back(i, value(i));
    if (seed % 2 == 0) std::reverse(changes.begin(), changes.end());
    const std::string text = with_numbers(reading.statement->numbered, changes, Unit::inch);
    INFO(maker.text << " changed: " << text);
    const Statement now = statement(text);
    REQUIRE(now.numbered.numbers.size() == count);
    for (std::size_t i = 0; i < count; ++i) REQUIRE(now.numbered.numbers[i].value == value(i));
  }
}
