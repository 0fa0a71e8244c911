// What the signs of a plan mean, and the parts that its pages are put together from.
#pragma once

#include "cli/cut/telling.h"
#include "cli/drawing/flow.h"
#include "cli/drawing/page.h"
#include "cli/figure/look.h"

namespace evenmat {

// Of the signs that are in the plan.
void add_plan_legend(Flow& flow, const CutTelling& telling);

inline constexpr double swatch_width = 13, swatch_height = 8;
Shape swatch(const At& at, const Look& look);

Type note_type();

void move_by(Mark& mark, const At& by);

}  // namespace evenmat
