// The numbers inside wishes, sizes and rules: where they stand, and what a text says once one is changed.
#include "model/numbered_text.h"

#include <array>
#include <random>

#include "model/named_sizes.h"
#include "model/size_text.h"
#include "model/statement.h"
#include "model/wish.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::vector<std::string> names{"front", "mat", "lantern panel", "it's", "caf\u00E9"};

Wish wish(const std::string& text, Unit unit = Unit::inch) {
  const WishReading reading = read_wish(text, unit, {});
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.wish);
  return *reading.wish;
}

Statement statement(const std::string& text, Unit unit = Unit::inch) {
  const StatementReading reading = read_statement(text, names, unit, {});
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.statement);
  return *reading.statement;
}

NumberedText size(const std::string& text, Unit unit) {
  const SizeReading reading = read_size(text, unit);
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.size);
  return reading.numbered;
}

const char* word(NumberPart part) {
  constexpr std::array<const char*, 7> words{"exact", "least", "most", "one", "width", "height", "constant"};
  return words.at(static_cast<std::size_t>(part));
}

// `part:the text it takes` of each number, with bars between.
std::string shape(const NumberedText& numbered) {
  std::string out;
  for (const NumberIn& number : numbered.numbers) {
    if (!out.empty()) out += "|";
    out +=
        std::string(word(number.part)) + ":" + numbered.text.substr(number.begin, number.end - number.begin);
  }
  return out;
}

std::string changed(const NumberedText& numbered, std::size_t place, const Rational& value,
                    Unit unit = Unit::inch) {
  return with_numbers(numbered, {{place, value}}, unit);
}

bool same_wish(const Wish& a, const Wish& b) {
  return a.at_least == b.at_least && a.at_most == b.at_most && a.about == b.about && a.one_of == b.one_of &&
         a.same_as == b.same_as && a.even == b.even;
}

// Texts put together at random, with the numbers that were put in.
struct Put {
  NumberPart part;
  bool about = false;
  Rational value;
  std::size_t begin = 0, end = 0;
};

class Maker {
 public:
  Maker(unsigned seed, Unit unit) : random_(seed), unit_(unit) {}

  std::size_t below(std::size_t size) { return random_() % size; }
  std::string blanks() {
    std::string some(1 + below(5) / 4, below(9) == 0 ? '\t' : ' ');
    return some;
  }
  std::string maybe_blanks() { return below(3) == 0 ? std::string() : blanks(); }

  // A length above 0 in any of its forms, read by the reader of lengths, which other tests try.
  std::pair<std::string, Rational> length(bool with_unit = true) {
    static const std::array<const char*, 12> bare{"1/8", "1/16", "4 1/4", "4-1/4", "17/4",   "3",
                                                  "2.5", ".25",  "4¼",    "¾",     "33/127", "007.50"};
    static const std::array<const char*, 7> units{" in", "\"", "mm", " mm", " cm", "in", " inches"};
    std::string written = bare.at(below(bare.size()));
    if (with_unit && below(3) == 0) written += units.at(below(units.size()));
    return {written, read_length(written, unit_).value.value()};
  }

  void put(NumberPart part, bool about = false) {
    const auto [written, value] = length();
    puts.push_back({part, about, value, text.size(), text.size() + written.size()});
    text += written;
  }

  std::string text;
  std::vector<Put> puts;

 private:
  std::mt19937 random_;
  Unit unit_;
};

// One part of a wish; false where it says none of the bounds.
void put_part(Maker& maker) {
  switch (maker.below(6)) {
    case 0:
      maker.put(NumberPart::exact);
      break;
    case 1:
      maker.put(NumberPart::at_least);
      maker.text += " to ";
      maker.put(NumberPart::at_most);
      break;
    case 2:
      maker.text += "at least" + maker.blanks();
      maker.put(NumberPart::at_least);
      break;
    case 3:
      maker.text += "At most" + maker.blanks();
      maker.put(NumberPart::at_most);
      break;
    case 4:
      maker.text += "about" + maker.blanks();
      maker.put(NumberPart::at_least, true);
      break;
    default:
      maker.text += "one of" + maker.blanks();
      for (std::size_t more = maker.below(3) + 1; more > 0; --more) {
        maker.put(NumberPart::one_of);
        if (more > 1) maker.text += maker.maybe_blanks() + "," + maker.maybe_blanks();
      }
  }
}

// What numbers ask together, by themselves and without the text; absent where no length is left.
std::optional<Wish> asked(const std::vector<Put>& puts) {
  Wish wish;
  for (const Put& put : puts) {
    if (put.about) {
      wish.about = put.value;
      continue;
    }
    if (put.part == NumberPart::one_of) wish.one_of.push_back(put.value);
    const bool low = put.part == NumberPart::exact || put.part == NumberPart::at_least;
    const bool high = put.part == NumberPart::exact || put.part == NumberPart::at_most;
    if (low && (!wish.at_least || *wish.at_least < put.value)) wish.at_least = put.value;
    if (high && (!wish.at_most || put.value < *wish.at_most)) wish.at_most = put.value;
  }
  std::sort(wish.one_of.begin(), wish.one_of.end());
  wish.one_of.erase(std::unique(wish.one_of.begin(), wish.one_of.end()), wish.one_of.end());
  if (wish.at_least && wish.at_most && *wish.at_least > *wish.at_most) return std::nullopt;
  const bool one_fits = std::any_of(wish.one_of.begin(), wish.one_of.end(), [&](const Rational& value) {
    return (!wish.at_least || *wish.at_least <= value) && (!wish.at_most || value <= *wish.at_most);
  });
  if (!wish.one_of.empty() && !one_fits) return std::nullopt;
  return wish;
}

// Whether the wish would be the same with this number left out.
bool says_nothing(const std::vector<Put>& puts, std::size_t which) {
  const Put& own = puts[which];
  if (own.about) return true;
  if (own.part == NumberPart::one_of) return false;
  std::vector<Put> others = puts;
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(which));
  if (own.part == NumberPart::exact) {
    return std::any_of(others.begin(), others.end(),
                       [](const Put& other) { return other.part == NumberPart::exact; });
  }
  return same_wish(*asked(others), *asked(puts));
}

// The changed text is the old one but for the number, and a blank where it would run into what follows.
bool differs_only_at(const std::string& old, const NumberIn& number, const std::string& now) {
  const std::string after = old.substr(number.end);
  return now.starts_with(old.substr(0, number.begin)) && now.ends_with(after) &&
         now.size() >= number.begin + after.size();
}

const std::array<Rational, 7> new_values{part(1, 16),      Rational(0), part(9, 4),  Rational(3),
                                         part(263, 20320), part(7, 3),  Rational(12)};

}  // namespace

TEST_CASE("each number of a wish is found with its unit") {
  CHECK(shape(wish("1/8").numbered) == "exact:1/8");
  CHECK(shape(wish("  1/8 in ").numbered) == "exact:1/8 in");
  CHECK(wish("  1/8 in ").numbered.text == "1/8 in");
  CHECK(shape(wish("-1/8").numbered) == "exact:-1/8");
  CHECK(shape(wish("1/16 to 1/4").numbered) == "least:1/16|most:1/4");
  CHECK(shape(wish("1/8 to 1/8").numbered) == "least:1/8|most:1/8");
  CHECK(shape(wish("At least  3 mm").numbered) == "least:3 mm");
  CHECK(shape(wish("at most 4\"").numbered) == "most:4\"");
  CHECK(shape(wish("one of 2 1/4, 2 5/8,3").numbered) == "one:2 1/4|one:2 5/8|one:3");
  CHECK(shape(wish("one of 3, 2.25, 2 1/4, at least 2 1/2").numbered) ==
        "one:3|one:2.25|one:2 1/4|least:2 1/2");
  CHECK(shape(wish("same as 'ink, 2 to 3', at least 1").numbered) == "least:1");
  CHECK(shape(wish("3¼ to 10.5 cm").numbered) == "least:3¼|most:10.5 cm");
}

TEST_CASE("numbers that bind nothing are left out") {
  CHECK(shape(wish("about 1/8").numbered).empty());
  CHECK(shape(wish("even").numbered).empty());
  CHECK(shape(wish("1/16 to 3/16, about 1/8").numbered) == "least:1/16|most:3/16");
  CHECK(shape(wish("at least 1, 1/2 to 3").numbered) == "least:1|most:3");
  CHECK(shape(wish("1/2 to 3, at most 2").numbered) == "least:1/2|most:2");
  CHECK(shape(wish("1/8, 1/16 to 1/4").numbered) == "exact:1/8");
  CHECK(shape(wish("at least 1/8, 1/8").numbered) == "exact:1/8");
  CHECK(shape(wish("at least 1, 1 to 3").numbered) == "most:3");
}

TEST_CASE("a plain number of the file is one exact number") {
  CHECK(shape(layer_with("width = 2.50\n").width->numbered) == "exact:2.50");
  CHECK(shape(layer_with("from-left = -1_0.5e-1\n").from_left->numbered) == "exact:-1_0.5e-1");
  CHECK(layer_with("from-left = -1_0.5e-1\n").from_left->numbered.numbers[0].value == part(-105, 100));
  const Piece sides = layer_with("border = { left = 0.125, down = \"at least 1/16\" }\n");
  CHECK(shape(sides.border.left->numbered) == "exact:0.125");
  CHECK(shape(sides.border.down->numbered) == "least:1/16");
}

TEST_CASE("a size has its width and its height") {
  CHECK(shape(size(" 4 1/4 x 5 1/2 ", Unit::inch)) == "width:4 1/4|height:5 1/2");
  CHECK(shape(size("4x5", Unit::inch)) == "width:4|height:5");
  CHECK(shape(size("105 mm \u00D7 14.8 cm", Unit::inch)) == "width:105 mm|height:14.8 cm");
  CHECK(shape(layer_with("size = '4\"X5 in'\n").size->numbered) == "width:4\"|height:5 in");
  CHECK(shape(layer_with("artwork = \"4 x 5\"\n").artwork->numbered) == "width:4|height:5");
}

TEST_CASE("a named size stands as width x height in the card's unit") {
  CHECK(size("us A2", Unit::inch).text == "4 1/4 x 5 1/2");
  CHECK(shape(size("us A2 turned", Unit::inch)) == "width:5 1/2|height:4 1/4");
  CHECK(size("iso A6 turned", Unit::millimetre).text == "148 x 105");
  CHECK(size("iso A6", Unit::inch).text == "4 17/127 x 5 105/127");
  for (const NamedSize& entry : named_sizes()) {
    for (const Unit unit : {Unit::inch, Unit::millimetre}) {
      const SizeReading named = read_size(entry.name, unit);
      INFO(entry.name << " " << named.numbered.text);
      REQUIRE(named.numbered.numbers.size() == 2);
      const SizeReading again = read_size(named.numbered.text, unit);
      CHECK(again.size == named.size);
      CHECK(shape(again.numbered) == shape(named.numbered));
    }
  }
}

TEST_CASE("a new number is written as the ruler shows it and never rounded") {
  CHECK(changed(wish("1/8").numbered, 0, part(3, 16)) == "3/16");
  CHECK(changed(wish("one of 2 1/4, 2 5/8, 3").numbered, 1, part(11, 4)) == "one of 2 1/4, 2 3/4, 3");
  CHECK(changed(wish("at least 1/8 in, about 1").numbered, 0, part(1, 4)) == "at least 1/4 in, about 1");
  CHECK(changed(wish("10.5 cm").numbered, 0, Rational(4)) == "4 in");
  CHECK(changed(wish("2\" to 4\"", Unit::millimetre).numbered, 1, part(99, 2), Unit::millimetre) ==
        "2\" to 49.5 mm");
  CHECK(changed(wish("4").numbered, 0, part(263, 2032)) == "263/2032");
  CHECK(changed(wish("4").numbered, 0, part(2063, 2032)) == "2063/2032");
  CHECK(changed(wish("33", Unit::millimetre).numbered, 0, part(100, 3), Unit::millimetre) == "100/3");
  CHECK(changed(size("4\"x5\"", Unit::inch), 0, part(17, 4)) == "4 1/4 in x5\"");
  CHECK(with_numbers(wish("1/16 to 1/4").numbered, {{1, part(3, 16)}, {0, part(1, 8)}}, Unit::inch) ==
        "1/8 to 3/16");
  CHECK(with_numbers(wish("1/16 to 1/4").numbered, {}, Unit::inch) == "1/16 to 1/4");
}

TEST_CASE("a changed rule never runs into its neighbours") {
  CHECK(changed(statement("mat.left <= 3-3 mm").numbered, 1, part(1, 16)) == "mat.left <= 3- 1/16 in");
  CHECK(changed(statement("mat.left <= 1/2-1/4").numbered, 0, Rational(1)) == "mat.left <= 1 -1/4");
  CHECK(changed(statement("mat.bottom-1/4 <= 4").numbered, 0, part(5, 4)) == "mat.bottom-1 1/4 <= 4");
}

TEST_CASE("a constant below 0 turns its sign") {
  CHECK(changed(statement("mat.left <= front.right - 1/4").numbered, 0, part(-1, 8)) ==
        "mat.left <= front.right + 1/8");
  CHECK(changed(statement("mat.left <= front.right+1/4 in").numbered, 0, part(-1, 8)) ==
        "mat.left <= front.right-1/8 in");
  CHECK(changed(statement("mat.left <= front.right \u2212 1/4").numbered, 0, part(-1, 8)) ==
        "mat.left <= front.right + 1/8");
  CHECK(changed(statement("mat.left <= 1/4").numbered, 0, part(-1, 8)) == "mat.left <= -1/8");
  CHECK(changed(statement("mat.left <= 4+¼").numbered, 1, part(-1, 8)) == "mat.left <= 4 -1/8");
}

TEST_CASE("lengths of a rule are its constants and not its factors") {
  const Statement twice = statement("2 * mat.width + 1/4 in <= front.width * 3 - 1 or mat.left >= 5 mm");
  CHECK(shape(twice.numbered) == "constant:1/4 in|constant:1|constant:5 mm");
  REQUIRE(twice.lengths.size() == 3);
  CHECK(twice.lengths[0].factor == 1);
  CHECK(twice.lengths[1].factor == 1);
  CHECK(twice.lengths[2].choice == 1);
  CHECK(twice.lengths[2].comparison == 0);
  const Statement chain = statement("  0 <= mat.left - 1 <= 2 and mat.top = 3");
  CHECK(shape(chain.numbered) == "constant:0|constant:1|constant:2|constant:3");
  REQUIRE(chain.lengths.size() == 5);  // the 1 is in both comparisons of the chain
  int of_the_1 = 0;
  for (const StatementNumber& length : chain.lengths) of_the_1 += length.number == 1 ? 1 : 0;
  CHECK(of_the_1 == 2);
}

TEST_CASE("a wish with one number changed asks that number and all else as before") {
  int read = 0;
  int idle = 0;
  int contradict = 0;
  for (unsigned seed = 0; seed < 4000; ++seed) {
    const Unit unit = seed % 2 == 0 ? Unit::inch : Unit::millimetre;
    Maker maker(seed, unit);
    put_part(maker);
    if (maker.below(2) == 0) {
      maker.text += maker.maybe_blanks() + ", ";
      if (maker.below(5) == 0) {
        maker.text += "same as mat";
      } else {
        const std::size_t second = maker.puts.size();
        put_part(maker);
        // A bare length after a list goes on with it.
        if (maker.puts.front().part == NumberPart::one_of && maker.puts[second].part == NumberPart::exact)
          maker.puts[second].part = NumberPart::one_of;
      }
    }
    const WishReading reading = read_wish(maker.text, unit, {});
    if (!reading.wish) continue;
    ++read;
    const Wish& own = *reading.wish;
    INFO("seed " << seed << ": " << maker.text);
    std::size_t next = 0;
    for (std::size_t i = 0; i < maker.puts.size(); ++i) {
      if (says_nothing(maker.puts, i)) {
        ++idle;
        continue;
      }
      REQUIRE(next < own.numbered.numbers.size());
      const NumberIn& number = own.numbered.numbers[next];
      REQUIRE(number.part == maker.puts[i].part);
      REQUIRE(number.value == maker.puts[i].value);
      REQUIRE(number.begin == maker.puts[i].begin);
      REQUIRE(number.end == maker.puts[i].end);
      REQUIRE(same_wish(wish(changed(own.numbered, next, number.value, unit), unit), own));
      for (const Rational& value : new_values) {
        std::vector<Put> puts = maker.puts;
        puts[i].value = value;
        std::optional<Wish> expected = asked(puts);
        if (expected) expected->same_as = own.same_as;
        const std::string text = changed(own.numbered, next, value, unit);
        INFO("changed: " << text);
        REQUIRE(differs_only_at(own.text, number, text));
        const WishReading again = read_wish(text, unit, {});
        REQUIRE(again.wish.has_value() == expected.has_value());
        if (expected) {
          REQUIRE(same_wish(*again.wish, *expected));
        } else {
          ++contradict;
        }
      }
      ++next;
    }
    REQUIRE(next == own.numbered.numbers.size());
  }
  CHECK(read > 2000);
  CHECK(idle > 500);
  CHECK(contradict > 1000);
}

TEST_CASE("a size with one side changed has that side and the other as before") {
  for (unsigned seed = 0; seed < 1000; ++seed) {
    const Unit unit = seed % 2 == 0 ? Unit::inch : Unit::millimetre;
    Maker maker(seed, unit);
    maker.put(NumberPart::width);
    maker.text += maker.maybe_blanks() + std::array<const char*, 3>{"x", "X", "\u00D7"}.at(maker.below(3)) +
                  maker.maybe_blanks();
    maker.put(NumberPart::height);
    const NumberedText numbered = size(maker.text, unit);
    const Size before = *read_size(maker.text, unit).size;
    for (std::size_t i = 0; i < 2; ++i) {
      REQUIRE(numbered.numbers[i].part == maker.puts[i].part);
      REQUIRE(numbered.numbers[i].begin == maker.puts[i].begin);
      REQUIRE(numbered.numbers[i].end == maker.puts[i].end);
      REQUIRE(numbered.numbers[i].value == (i == 0 ? before.width : before.height));
      for (const Rational& value : new_values) {
        const std::string text = changed(numbered, i, value, unit);
        INFO(maker.text << " changed: " << text);
        REQUIRE(differs_only_at(numbered.text, numbered.numbers[i], text));
        REQUIRE(read_size(text, unit).size ==
                (i == 0 ? Size{value, before.height} : Size{before.width, value}));
      }
    }
  }
}

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
