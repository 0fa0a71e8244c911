// What a piece of a plan is called in its pictures: names, sizes and looks, and the letters that stand for
// them where there is no room. Places nothing.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/cut/telling.h"
#include "cli/figure/look.h"

namespace evenmat {

// Pieces that are told alike: on a sheet as they lie, the same for every run of it.
struct PlanName {
  std::string name;      // "indigo mat", "fern mat or moss mat"
  std::string size;      // as it is cut, as it lies on the sheet
  std::string letter;    // "a", ..., "z", "aa", ...
  std::size_t rank = 0;  // of the letter: 0 for "a"
  Look look;
  bool base = false;
  Role role = Role::none;     // of a layer
  std::vector<double> folds;  // of a base's blank: from its left or top edge, in the plan's unit
  bool folds_down = false;    // as it stands they run from top to bottom
  bool turned = false;        // it stands turned by a quarter against its kind
};

// All of a paper, each once, in the order in which they lie.
struct PlanNames {
  std::vector<PlanName> names;
  std::vector<std::vector<std::size_t>> of_pieces;  // by letter of the plan and piece: which of them
};

PlanNames plan_names(const CutTelling& telling, const PaperPlan& paper);

// Letters from "a" on for these, in this order; the others have those that follow.
void give_letters(PlanNames& names, const std::vector<std::size_t>& order);

// What role a layer of the batch has; none of a base.
Role role_of(const CutTelling& telling, const PieceUse& use);

}  // namespace evenmat
