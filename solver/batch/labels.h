// Which layer of which version each piece of a plan is for. Pieces of one kind are alike; who cuts wants
// whole stacks of a layout for one use, so that few piles need telling apart.
#pragma once

#include <vector>

#include "solver/cut_batch.h"

namespace evenmat::batch {

// Sets `runs` of all. In every layout, place by place, a use that still wants as many pieces as there are
// sheets of it gets that place on all of them, the first such use; what is left over goes round in order. As
// few runs as that gives. Pre: they hold exactly the pieces that the uses count.
void label(std::vector<LaidSheet>& laid, const std::vector<CutPiece>& kinds);

}  // namespace evenmat::batch
