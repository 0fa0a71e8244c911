// A template that is larger than a page: the parts it is printed in, which overlap, and the marks by which
// they are laid together.
#pragma once

#include <cstddef>
#include <vector>

#include "cli/draw/templates_pieces.h"
#include "cli/drawing/page.h"
#include "cli/drawing/text.h"

namespace evenmat {

struct Tile {
  Box part;  // of the piece
  std::size_t column = 1, row = 1;
};

inline constexpr double tile_overlap = 18;  // a quarter of an inch

// All of one size, row by row; one where the piece is no larger than the room. Pre: the room is larger than
// the overlap.
std::vector<Tile> tiles_of(double width, double height, const Extent& room);

// One of them, its top left corner at `corner`.
std::vector<Mark> tile_marks(const TemplatePiece& piece, const std::vector<Tile>& tiles, std::size_t which,
                             const At& corner);

}  // namespace evenmat
