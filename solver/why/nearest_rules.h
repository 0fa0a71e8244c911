// The rules of a version that cannot be built, with what cannot hold let go by as little as can be. Which
// rules are let go, and by how much; nothing of how that is told.
#pragma once

#include <cstddef>
#include <optional>

#include "model/card.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// The rules without those that no place on the card can be told for: shares and thicknesses.
Rules rules_of_places(Rules rules, const Card& card);

struct LetGo {
  Rules rules;             // hold together; their rectangles are those of the rules that were given
  bool off_marks = false;  // some sizes do not have to fall on the marks
};

// `rules`: of one version, as `rules_of_places` gives them; they cannot hold. Absent when nothing that may be
// let go is to blame. Throws OutOfTime.
//
// Only what belongs to a clash is let go, of what is given only that things lie inside and apart. The total
// of what is missed is least: a length counts as it is, on the left and at the top a little more, so that
// what is missing shows in one place and not in halves; what is given counts for less than what is stated,
// since paper that sticks out or covers other paper shows best what does not fit; a size counts so much that
// it is kept wherever anything else can give. Where totals are the same, what stands later in the file is
// missed. Where only marks stand in the way, the sizes concerned are let off them.
std::optional<LetGo> least_let_go(Rules rules, const Design& design, Prover& prover);

}  // namespace evenmat
