#include "solver/answer/seen.h"

#include <algorithm>

namespace evenmat {

const Rational& share_seen(const SizedVersion& version, const PlacedPiece& placed) {
  const auto piece_named = [&](const std::string& name) {
    return std::find_if(version.pieces.begin(), version.pieces.end(),
                        [&](const PlacedPiece& other) { return other.piece->name.value == name; });
  };
  // Through an opening in a layer it is seen when that is looked at.
  const auto below = piece_named(placed.piece->on.value);
  const bool through = placed.piece->on.value == "reveal" ||
                       (below != version.pieces.end() && below->piece->kind == Piece::Kind::window &&
                        piece_named(below->piece->on.value) == version.pieces.end());
  return through ? placed.shown.closed : placed.shown.open;
}

}  // namespace evenmat
