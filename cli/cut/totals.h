// What is told of a batch beside its paper: layers that are cut from none, foam, adhesive and supplies; and
// what a hand minds at the trimmer.
#pragma once

#include <string>
#include <vector>

#include "cli/cut/telling.h"

namespace evenmat {

// Foam, adhesive or a supply of the whole batch.
struct TotalRow {
  std::string name, amount, note;
};
std::vector<TotalRow> total_rows(const CutTelling& telling);

// What a hand minds at the trimmer, a sentence each.
std::vector<std::string> care_sentences(const CutTelling& telling);

// Each behind an empty line; empty if there is nothing to tell.
std::string not_cut_text(const CutTelling& telling);
std::string totals_text(const CutTelling& telling);
std::string care_text(const CutTelling& telling);

// How many sheets of a paper go under the blade at once, if its weight is stated; else empty.
std::string pass_words(const CutTelling& telling, const std::string& paper);

}  // namespace evenmat
