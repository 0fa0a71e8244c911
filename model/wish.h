// What a maker asks of one length: a value, a range, something near a value, one of a few.
// Reading a wish from text is here; what it is a wish about (border, width, ...) is in card.h.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/length.h"
#include "model/numbered_text.h"
#include "model/rational.h"
#include "model/spot.h"

namespace evenmat {

// Every part holds; absent parts ask nothing. Lengths are in the card's unit.
struct Wish {
  std::optional<Rational> at_least;  // an exact wish has at_least == at_most
  std::optional<Rational> at_most;
  std::optional<Rational> about;       // as near as can be
  std::vector<Rational> one_of;        // empty: any value; else sorted, without doubles
  std::optional<std::string> same_as;  // that layer's like dimension
  bool even = false;                   // borders and gaps: one amount on all sides, whatever it is
  std::string text;                    // as the maker wrote it
  Spot spot;                           // of the value in the card file
  NumberedText numbered;               // the numbers above but `about`; `one_of` may be in another order

  // The one value it leaves, if it leaves one.
  [[nodiscard]] std::optional<Rational> exact() const;
};

// Reads `1/8`, `1/16 to 1/4`, `at least 1/8`, `at most 3`, `about 1/8`, `one of 2 1/4, 2 5/8, 3`,
// `same as NAME`, `even`, or two of these joined by a comma. A bare number is in `unit`; the result
// is in `unit`. On failure `wish` is absent and `trouble` is a sentence for the maker (also when the
// wish contradicts itself, such as "at least 3, at most 2").
struct WishReading {
  std::optional<Wish> wish;
  std::string trouble;
};
WishReading read_wish(std::string_view text, Unit unit, Spot spot);

}  // namespace evenmat
