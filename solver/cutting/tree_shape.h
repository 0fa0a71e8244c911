// Mending and judging cut trees: waste drawn together, pieces given up, limits on trims and cuts looked
// after.
#pragma once

#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

// Makes one of all waste that a part that is cut leaves, behind its other parts. Places are not set.
void join_waste(Part& part, Measure blade);

// Turns pieces into waste until no more than `counts` of each kind are left, and takes those it keeps off
// `counts`. Places are set.
void give_up_pieces(Part& root, std::vector<int>& counts, Measure blade);

// Whether every trim is wide enough and every cut short enough for the job, and nothing is empty.
bool keeps_limits(const Part& root, const Job& job);

// The same cuts, whatever the order of parts: a text that is alike for two trees then, and only then.
std::vector<Measure> signature(const Part& root);

}  // namespace evenmat::cutting
