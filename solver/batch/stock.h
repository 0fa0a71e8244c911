// The sheets of one paper as they lie on the table: which entries of which files are one stack, and which way
// the grain runs. Offcuts are in offcuts.h.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "solver/cut_batch.h"

namespace evenmat::batch {

// An entry of a card's file that counts a stack.
struct StackEntry {
  std::size_t card = 0;
  const Paper* paper = nullptr;
};

// Equal sheets. Two files of one call that state sheets of one paper and size mean the same ones: the first
// in one and the first in the other, and so on. Within a file two entries are two stacks.
struct Stack {
  CutSheet sheet;                   // in the unit of the batch; what an entry leaves unsaid another may say
  std::vector<StackEntry> entries;  // none: left over from an earlier job
};

// The stacks of a paper, as stated and then those left over. Entries without a sheet are none.
std::vector<Stack> stacks_of(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                             const std::string& paper);

// Whether any entry of the paper says that it may not turn: then none of it may.
bool keeps_up(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
              const std::string& paper);

// Whether the grain runs from top to bottom as the sheet lies. Of a square one the height counts as the
// longer side. Pre: it states its grain.
bool grain_runs_down(const CutSheet& sheet);

// Turns sheets so that the grain runs the same way on all, if they may turn; one with an untrue edge to come
// off stays as it is. Gives that way: `true` from top to bottom. Absent when no grain is stated.
std::optional<bool> lay_along_grain(std::vector<Stack>& stacks, bool up);

}  // namespace evenmat::batch
