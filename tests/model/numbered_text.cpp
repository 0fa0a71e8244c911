// The numbers inside wishes and sizes, and of rules by example: where they stand, and what a text says once
// one is changed.
#include "model/numbered_text.h"

#include "tests/model/numbered_texts.h"

using namespace evenmat;
using namespace evenmat::testing;

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
