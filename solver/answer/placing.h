// From the chosen values to what is told of each piece: its size, its place, its copies.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/rule.h"
#include "solver/size_card.h"

namespace evenmat {

// Where the faces and pieces of one version stand among the rectangles, by name. `body` is what has a place,
// `cell` what has the cut size: of copies the whole grid, and the first of them.
struct Places {
  std::map<std::string, std::size_t> face, cell, body, artwork;
};
Places places_of(const Rules& rules, std::size_t version);

// The rectangle of what a piece is on.
std::size_t under(const Places& places, const Piece& piece);

struct PlacedBox {
  Rational left, top, width, height;
};
// The box of a rectangle on its face.
PlacedBox box_of(const Rules& rules, const std::vector<Rational>& values, std::size_t rectangle);

// The piece as it is told; `shown` and what was stated are left open.
PlacedPiece placed_piece(const Rules& rules, const std::vector<Rational>& values, const Design& design,
                         const Places& places, const Piece& piece);

// Width and height of a piece, and its distances from the left, top, right and bottom of what it is on.
std::vector<Sum> measures_of(const Rules& rules, std::size_t cell, std::size_t body, std::size_t below);

// What a cut-back takes off the front, of a gate off each door.
Rational cut_back_of(const Base& base, const Places& places, const std::vector<Rational>& values);

}  // namespace evenmat
