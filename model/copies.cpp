#include "model/copies.h"

#include <algorithm>

namespace evenmat {

Grid grid_of(const Piece& piece) {
  const int copies = piece.copies ? piece.copies->value : 1;
  const int columns = piece.columns ? std::min(piece.columns->value, copies) : copies;
  return {columns, (copies + columns - 1) / columns};
}

}  // namespace evenmat
