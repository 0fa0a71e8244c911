// The file of leftovers that a job leaves for the next: the text for `--keep`, as `--also` reads it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "solver/cut_batch.h"

namespace evenmat {

// Leftovers worth keeping, offcuts of the work that nothing is cut from among them, and what the plan leaves
// of earlier leftovers (`more`), in the unit of the first card: read in place of the files of `more`, it says
// all that is left. Empty if nothing is. Pre: the batch is planned.
std::string leftover_file(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                          const CutBatch& batch);

// `text` as a TOML basic string, in its quotes.
std::string toml_string(std::string_view text);

}  // namespace evenmat
