// What tests of the numbers in texts share: reading, changing one number, and made-up texts whose numbers are
// known as they are put.
#pragma once

#include <array>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "model/named_sizes.h"
#include "model/numbered_text.h"
#include "model/size_text.h"
#include "model/statement.h"
#include "model/wish.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

namespace evenmat::testing {

inline const std::vector<std::string> names{"front", "mat", "lantern panel", "it's", "caf\u00E9"};

inline Wish wish(const std::string& text, Unit unit = Unit::inch) {
  const WishReading reading = read_wish(text, unit, {});
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.wish);
  return *reading.wish;
}

inline Statement statement(const std::string& text, Unit unit = Unit::inch) {
  const StatementReading reading = read_statement(text, names, unit, {});
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.statement);
  return *reading.statement;
}

inline NumberedText size(const std::string& text, Unit unit) {
  const SizeReading reading = read_size(text, unit);
  INFO(text << ": " << reading.trouble);
  REQUIRE(reading.size);
  return reading.numbered;
}

inline const char* word(NumberPart part) {
  constexpr std::array<const char*, 7> words{"exact", "least", "most", "one", "width", "height", "constant"};
  return words.at(static_cast<std::size_t>(part));
}

// `part:the text it takes` of each number, with bars between.
inline std::string shape(const NumberedText& numbered) {
  std::string out;
  for (const NumberIn& number : numbered.numbers) {
    if (!out.empty()) out += "|";
    out +=
        std::string(word(number.part)) + ":" + numbered.text.substr(number.begin, number.end - number.begin);
  }
  return out;
}

inline std::string changed(const NumberedText& numbered, std::size_t place, const Rational& value,
                           Unit unit = Unit::inch) {
  return with_numbers(numbered, {{place, value}}, unit);
}

inline bool same_wish(const Wish& a, const Wish& b) {
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
inline void put_part(Maker& maker) {
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
inline std::optional<Wish> asked(const std::vector<Put>& puts) {
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
inline bool says_nothing(const std::vector<Put>& puts, std::size_t which) {
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
inline bool differs_only_at(const std::string& old, const NumberIn& number, const std::string& now) {
  const std::string after = old.substr(number.end);
  return now.starts_with(old.substr(0, number.begin)) && now.ends_with(after) &&
         now.size() >= number.begin + after.size();
}

inline const std::array<Rational, 7> new_values{part(1, 16),      Rational(0), part(9, 4),  Rational(3),
                                                part(263, 20320), part(7, 3),  Rational(12)};

}  // namespace evenmat::testing
