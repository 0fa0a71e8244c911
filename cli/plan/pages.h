// The plan of a batch as it is cut: each sheet to scale, its pieces with their names, its cuts numbered by
// their steps, what is left, folds and the way a print runs. What the steps say in words is in cli/cut.
#pragma once

#include "cli/cut/telling.h"
#include "cli/drawing/flow.h"

namespace evenmat {

// Every sheet of every paper, in the order of the plan. Nothing where nothing is cut.
void add_plan(Flow& flow, const CutTelling& telling);

Drawing plan_drawing(const CutTelling& telling, PageSize size);

}  // namespace evenmat
