// Which leaves and layers may lie over one another at one place of the closed card. Plain counting over a
// card as stated; the rules that follow are written in thickness.cpp.
#pragma once

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat::writing {

// Something that has a thickness: a leaf of the base, or a layer.
struct Solid {
  std::optional<std::size_t> leaf;   // in folding_of(base).leaves
  std::optional<std::size_t> piece;  // in design.pieces
  Rational paper;                    // its thickness
  Rational foam, adhesive;           // as stated
};

// One of a pile that may find its place in a window of another, where there is no paper of that.
struct InWindow {
  std::size_t solid = 0;   // in `Piles::solids`
  std::size_t window = 0;  // in design.pieces
};

struct Pile {
  std::vector<std::size_t> solids;  // in `Piles::solids`, rising
  // Pairs of these that the rules leave free to lie apart; all others lie over one another wherever they are,
  // but for windows.
  std::vector<std::pair<std::size_t, std::size_t>> may_part;
  std::vector<InWindow> may_be_in;
  // False where more ways of parting may be had than are told: of tilted layers, copies, and of layers that
  // cross over a window.
  bool certain = true;
};

struct Piles {
  std::vector<Solid> solids;  // leaves first, then layers in file order
  std::vector<Pile> piles;    // thicker than the limit
};

// Every pile that is thicker than the limit. Absent when there are more than `most_piles`. Boxes that all
// overlap in pairs share a place (Helly's theorem for boxes), so a pile lies at one place unless some pair of
// it lies apart, or one lies inside a window of another. Copies count as the block that they stand in, tilted
// layers as their box, and windows that are turned or repeated not at all, which is never too little.
inline constexpr std::size_t most_piles = 2000;
std::optional<Piles> piles_over(const Card& card, const Design& design, const Rational& limit);

// Those that the rules are to be about.
std::vector<Pile> chosen_piles(const Piles& piles, PileSet set);

}  // namespace evenmat::writing
