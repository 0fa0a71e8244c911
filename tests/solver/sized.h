// What tests of whole cards share: sizing a card from its text, and looking into the answer.
#pragma once

#include <algorithm>
#include <ostream>
#include <string>
#include <string_view>

#include "solver/size_card.h"
#include "tests/model/cards.h"

namespace evenmat {

// For messages of failed checks.
inline std::ostream& operator<<(std::ostream& out, const Size& size) {
  return out << fraction_text(size.width) << " x " << fraction_text(size.height);
}

}  // namespace evenmat

namespace evenmat::testing {

// A card with its answer, which looks into it.
struct SizedText {
  explicit SizedText(std::string_view text, const SizeOptions& options = {})
      : card(card_of(text)), sized(size_card(card, options)) {}
  SizedText(const SizedText&) = delete;
  SizedText& operator=(const SizedText&) = delete;

  [[nodiscard]] const SizedVersion& plain() const { return sized.versions.front(); }
  [[nodiscard]] const PlacedPiece& piece(std::string_view name, std::size_t version = 0) const {
    const auto& pieces = sized.versions.at(version).pieces;
    const auto found = std::find_if(pieces.begin(), pieces.end(), [&](const PlacedPiece& placed) {
      return placed.piece->name.value == name;
    });
    INFO(name);
    REQUIRE(found != pieces.end());
    return *found;
  }
  [[nodiscard]] Size size(std::string_view name, std::size_t version = 0) const {
    return {piece(name, version).width, piece(name, version).height};
  }

  Card card;
  SizedCard sized;
};

// A layer of this name with these keys, each on a line.
inline std::string layer(const std::string& name, const std::string& on, const std::string& keys = "") {
  return "[[layer]]\nname = \"" + name + "\"\non = \"" + on + "\"\n" + keys;
}

}  // namespace evenmat::testing
