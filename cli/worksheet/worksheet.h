// What lies on the craft table: pages to print, work from and tick off. Figures are drawn elsewhere; here
// they are put in their order between lists.
#pragma once

#include <cstddef>

#include "cli/cut/telling.h"
#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// For the whole batch: each card with its pictures, the list to cut by paper, the plan, folding, places, the
// order of assembly, cautions.
Drawing worksheet(const CutTelling& telling, PageSize size);

// One card to teach from, in inches and millimetres: no papers are counted and nothing is planned. `version`:
// 0 the plain card, then the variants in order.
Drawing recipe(const Card& card, const SizedCard& sized, std::size_t version, PageSize size);

}  // namespace evenmat
