#include "solver/rules/bare.h"

#include <algorithm>

namespace evenmat::writing {
namespace {

bool is_bare(const Piece& piece) {
  return piece.kind == Piece::Kind::layer && !piece.artwork && !piece.border.any() && !piece.size &&
         !piece.width && !piece.height && !piece.ratio && !piece.align && !piece.from_left &&
         !piece.from_right && !piece.from_top && !piece.from_bottom && piece.beside.empty() &&
         piece.level_with.empty() && piece.clear_of.empty() && !piece.copies && !piece.tuck;
}

// What another piece says of its place to this one is said of both.
bool is_named_by_another(const Design& design, const Piece& piece) {
  const auto is_it = [&](const Name& name) { return name.value == piece.name.value; };
  return std::any_of(design.pieces.begin(), design.pieces.end(), [&](const Piece& other) {
    return std::any_of(other.clear_of.begin(), other.clear_of.end(), is_it) ||
           std::any_of(other.beside.begin(), other.beside.end(),
                       [&](const Beside& b) { return is_it(b.name); }) ||
           std::any_of(other.level_with.begin(), other.level_with.end(),
                       [&](const LevelWith& level) { return is_it(level.name); });
  });
}

}  // namespace

bool states_nothing(const Design& design, const Piece& piece) {
  return is_bare(piece) && !is_named_by_another(design, piece);
}

}  // namespace evenmat::writing
