// The nearest card of a card that cannot be built, looked into.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>

#include "solver/nearest_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

namespace evenmat::testing {

// The text of a card among the cases that cannot be built.
inline std::string unbuildable(const std::string& name) {
  std::ifstream file(std::filesystem::path(EVENMAT_SOURCE) / "cases" / "unbuildable" / (name + ".toml"));
  std::stringstream text;
  text << file.rdbuf();
  REQUIRE_FALSE(text.str().empty());
  return text.str();
}

struct NearText {
  explicit NearText(std::string_view text) : card(card_of(text)), near(nearest_card(card, 30)) {}
  NearText(const NearText&) = delete;
  NearText& operator=(const NearText&) = delete;

  [[nodiscard]] const PlacedPiece& piece(std::string_view name) const {
    REQUIRE(near);
    const auto found =
        std::find_if(near->sized.pieces.begin(), near->sized.pieces.end(),
                     [&](const PlacedPiece& placed) { return placed.piece->name.value == name; });
    REQUIRE(found != near->sized.pieces.end());
    return *found;
  }
  [[nodiscard]] const Miss& only_miss() const {
    REQUIRE(near);
    REQUIRE(near->misses.size() == 1);
    return near->misses.front();
  }

  Card card;
  std::optional<NearestCard> near;
};

}  // namespace evenmat::testing
