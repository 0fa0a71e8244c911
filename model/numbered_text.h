// The numbers inside what a maker wrote, each with its place in the text, so that one can be changed and the
// rest kept as it was. Writing a changed value into a whole card file is in change_file.h.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

// What a number says in its text.
// thickness: of paper or foam, written as calipers show it.
enum class NumberPart { exact, at_least, at_most, one_of, width, height, constant, thickness };

struct NumberIn {
  NumberPart part = NumberPart::exact;
  Rational value;         // in the card's unit
  std::size_t begin = 0;  // bytes of `NumberedText::text`: the number with its unit, if it has one
  std::size_t end = 0;
};

// `text` is as the maker wrote it, but for a named size, which stands as width x height. Numbers that bind
// nothing (`about`, factors) are left out; so is what a stricter number of the same wish makes idle, and a
// bound said twice, which neither place alone can loosen.
struct NumberedText {
  std::string text;
  std::vector<NumberIn> numbers;  // in the order of the text
};

// The text with some of its numbers changed to lengths in the card's unit: pairs of a place in `numbers` and
// a value. Written by `stated_length`, with the unit where the number had one. A constant below 0 turns the
// sign before it: `a.left + 1/4` becomes `a.left - 1/8`.
std::string with_numbers(const NumberedText& numbered,
                         const std::vector<std::pair<std::size_t, Rational>>& changed, Unit unit);

// A length as a card file may state it: as the maker's ruler shows it, and where that would be rounded, as a
// plain fraction ("263/2032"). Reads back as the same length.
std::string stated_length(const Rational& value, Unit unit);

// `W x H`, with its two numbers.
NumberedText size_in_numbers(const Size& size, Unit unit);

}  // namespace evenmat
