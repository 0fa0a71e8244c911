// The linear program over ways to cut a sheet, for GLPK: a row for each kind, at least as many as are wanted,
// then one for each size of sheet, at most as many as there are; a column for each way, from 0. Its prices
// are made whole here. No search.
#pragma once

#include <glpk.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "solver/cutting/columns.h"
#include "solver/cutting/job.h"

namespace evenmat::cutting {

struct DeleteProgram {
  void operator()(glp_prob* program) const { glp_delete_prob(program); }
};
using Program = std::unique_ptr<glp_prob, DeleteProgram>;

Program program_of(const Job& job);

// Sets the rows anew.
void set_wanted(glp_prob* program, const std::vector<int>& wanted,
                const std::vector<std::optional<int>>& have);

// `whole`: only whole times count where whole times are asked for.
void add_column(glp_prob* program, const Job& job, const Column& column, bool whole);

// Whether there is a best mix; it stays in the program.
bool solve(glp_prob* program);

// What a piece of each kind is worth in the best mix, in whole steps, rounded down.
struct Worths {
  std::vector<std::int32_t> of_kinds;
  double scale = 0;  // steps to a cost of 1

  // A sheet's way helps the mix if it is worth more than this.
  [[nodiscard]] std::int32_t needed(glp_prob* program, const Job& job, std::size_t sheet) const;
};
// Nothing where nothing is worth anything.
std::optional<Worths> whole_worths(glp_prob* program, const Job& job);

}  // namespace evenmat::cutting
