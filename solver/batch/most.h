// How many cards the paper gives, and which. Where all of a call are of one version: so many as there is
// enough paper for. Where there are several: the greatest number in all of which no version is made more
// often than is stated; of equals the one with most of the first version, then of the second, and so on.
// Spares are made once all cards that are asked for can be.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "solver/batch/gather.h"
#include "solver/batch/plan_paper.h"

namespace evenmat::batch {

struct MostCards {
  Counts counts;
  bool proven = false;  // that there is not enough paper for more
  // Of each paper there is little of, a plan for so many that does with what there is.
  std::map<std::string, cutting::SheetPlan> plans;
};

int cards_in(const Counts& counts);

// `stated`: of each version. `beyond`: more than that, if there is one version in all. Nothing when they
// could be as many as one likes, or when all that are stated are allowed and no paper sets a limit.
std::optional<MostCards> most_cards(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                                    const CutOptions& options, const Counts& stated, bool beyond,
                                    Clock::time_point until);

}  // namespace evenmat::batch
