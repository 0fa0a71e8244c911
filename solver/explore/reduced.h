// A card's rules once everything that follows from the open amounts is put in terms of them: what is left are
// relations between amounts, and blocks in which places are open too.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/exact/system.h"
#include "solver/explore/amounts.h"

namespace evenmat::exploring {

struct Reduced {
  System system;                    // settled, with one more variable for each amount
  Equations known;                  // what it leaves open, in terms of the amounts
  std::vector<Variable> amounts;    // by place
  std::vector<std::size_t> free;    // places of the amounts from which the others follow
  std::vector<Relation> relations;  // of amounts alone; none an equation
  std::vector<OpenChoice> choices;  // likewise
  std::vector<Sum> whole;           // likewise: multiples of the mark
  std::vector<Block> rest;          // with places in them

  // In terms of the amounts, and of places that do not follow from them.
  [[nodiscard]] Sum of(const Sum& sum) const { return known.reduce(system.reduce(sum)); }
  [[nodiscard]] bool is_amount(Variable variable) const {
    return !amounts.empty() && variable >= amounts.front();
  }
  [[nodiscard]] bool follows(const Sum& reduced) const;  // from the amounts alone
};

// `settled`: the rules' system, in which every amount's sums are taken to be equal from here on. Nothing when
// that cannot be.
//
// A place that no choice speaks of and that need not fall on marks is taken out by comparing all that bounds
// it from below with all that bounds it from above (Fourier and Motzkin's elimination), where that does not
// make many relations of few.
std::optional<Reduced> reduced_to(System settled, const std::vector<Amount>& amounts);

}  // namespace evenmat::exploring
