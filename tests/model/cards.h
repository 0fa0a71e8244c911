// What tests of the reading share: reading a card that has to be well, and looking into it.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "model/read_card.h"
#include "tests/catch.h"

namespace evenmat::testing {

// Three lines, so that what follows begins on line 4.
inline const std::string side_fold = "[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n";

inline Rational part(long long over, long long under) { return Rational(over) / Rational(under); }

inline Card card_of(std::string_view text) {
  CardReading reading = read_card(text);
  for (const Remark& mistake : reading.mistakes) {
    UNSCOPED_INFO(mistake.spot.line << ":" << mistake.spot.column << " " << mistake.says);
  }
  REQUIRE(reading.card);
  CHECK(reading.mistakes.empty());
  return std::move(*reading.card);
}

inline const Piece* find_piece(const Design& design, std::string_view name) {
  const auto found = std::find_if(design.pieces.begin(), design.pieces.end(),
                                  [&](const Piece& piece) { return piece.name.value == name; });
  return found == design.pieces.end() ? nullptr : &*found;
}

inline const Piece& piece(const Design& design, std::string_view name) {
  const Piece* found = find_piece(design, name);
  INFO(name);
  REQUIRE(found != nullptr);
  return *found;
}

// A card of one layer "it" on the front with these keys, after a layer "other" of its size.
inline Piece layer_with(const std::string& keys) {
  return piece(
      card_of(side_fold +
              "[[layer]]\nname = \"other\"\non = \"front\"\n[[layer]]\nname = \"it\"\non = \"front\"\n" +
              keys)
          .design,
      "it");
}

}  // namespace evenmat::testing
