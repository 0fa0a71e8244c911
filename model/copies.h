// How the copies of a layer stand: a grid of equal ones, filled row by row from the top left.
#pragma once

#include "model/card.h"

namespace evenmat {

struct Grid {
  int columns = 1;
  int rows = 1;
};

// One row unless `columns` is stated; 1 by 1 without `copies`.
Grid grid_of(const Piece& piece);

}  // namespace evenmat
