// A linear program over ways to cut a sheet, into which ways are put as they are found to help, and the bound
// that comes of it: with a worth for each kind such that no sheet can hold more worth than it costs, all
// pieces together cannot cost less than they are worth.
//
// Column generation: P. C. Gilmore, R. E. Gomory, Operations Research 13 (1965) 94-120. The bound before the
// end: A. A. Farley, Operations Research 38 (1990) 922-923. The program's own numbers are rounded and decide
// nothing: the bound is worked out from whole worths by the exact dynamic program of best_sheet.h.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

// A way to cut one sheet.
struct Column {
  std::size_t sheet = 0;
  Part tree;
  std::vector<int> gives;  // pieces of each kind
};

// So many sheets that are cut alike.
struct Cut {
  Column way;
  int times = 1;
};

// The same, by the way's place among others.
struct Times {
  std::size_t way = 0;
  int times = 1;
};

struct Columns {
  std::vector<Column> all;    // that may be used: every limit is kept
  std::vector<double> times;  // of each, in the best mix of them: a hint, no more
  std::int64_t at_least = 0;  // no plan costs less
};

struct ColumnEffort {
  int askings = 400;  // of the linear program
  std::optional<std::chrono::steady_clock::time_point> deadline = {};
};

// Begins from `start`, ways that together give all pieces with the sheets there are; `cost` is theirs. Ends
// once no plan can be cheaper than `cost`, or no way helps any more.
Columns generate_columns(const Job& job, const std::vector<Column>& start, std::int64_t cost,
                         const ColumnEffort& effort);

// Whole numbers of sheets, cut in these ways, that give all pieces at the least cost, as far as `looks` at
// parts of the search tell; the ways' times. Nothing where none was found that costs less than `below`.
std::optional<std::vector<int>> whole_times(const Job& job, const std::vector<Column>& columns,
                                            std::int64_t below, int looks);

}  // namespace evenmat::cutting
