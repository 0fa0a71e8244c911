// A card with one of its wishes let go: the numbers of a wish about one amount, and the same card in which
// that amount may lie outside them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"

namespace evenmat::exploring {

// A wish that binds one amount by numbers.
struct Bound {
  std::string name, key, part;  // as in OpenAmount; of a size with its key "size"
  Spot spot;
  NumberedText numbered;  // as the maker wrote it
  Wish wish;              // of one of the two numbers of a size: that it is exact
  bool is_size = false;
  bool across = true;  // of a size: its width

  // What the amount is called once it is let go.
  [[nodiscard]] std::string amount_key() const;
  // No value below is one at all.
  [[nodiscard]] Rational floor(const Rational& mark) const;
};

// In the order of the file, each wish once however many versions share it.
std::vector<Bound> bounds_of(const Card& card);

// So far a value lies outside what is wished; 0 within.
Rational outside(const Bound& bound, const Rational& value);

// The wish as the maker would write it so that it allows the value. Nothing where no number in it does.
std::optional<std::string> written_for(const Bound& bound, const Rational& value, Unit unit);

// The same card in which the amount has no bound but its floor, or no more than `by` outside what is wished;
// `about`: near which value it is chosen, where the wish does not say.
Card with_bound_let_go(const Card& card, const Bound& bound, const std::optional<Rational>& by,
                       const std::optional<Rational>& about);

}  // namespace evenmat::exploring
