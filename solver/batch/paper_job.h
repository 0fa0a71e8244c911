// What a paper has to give as a job on a grid: its kinds of pieces, and its sheets as they are once an untrue
// edge is off. No prices, no planning.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/batch/gather.h"
#include "solver/batch/grid.h"
#include "solver/batch/trimmer.h"
#include "solver/cutting/part.h"

namespace evenmat::batch {

struct PaperJob {
  Grid grid;
  // Kinds as the paper's pieces. A sheet that some piece may not be cut from is an `offcut` of the job.
  cutting::Job job;
  std::vector<std::size_t> stock;  // of each of the job's sheets: which of the paper's stock it is
  std::vector<bool> is_sheet;      // of each of them: it is counted and paid for, and no offcut of the work
  // Of each kind and each of the job's sheets: whether it can be cut from it, and may be.
  std::vector<std::vector<bool>> takes;
  cutting::Measure hold = 0;  // what is narrower is hard to hold
  // Whether the job lets pieces be cut from all that they may be cut from: it knows of each kind only whether
  // all offcuts will do. What it forbids for that leaves its plans good, but not its bounds.
  bool exact = true;
};

// Whether a sheet can be trimmed at all, where an untrue edge is to come off first.
bool can_be_trimmed(const CutSheet& sheet, const BatchTrimmer& trimmer);

// Sheets that cannot be trimmed are left out. Nothing where the lengths are too many steps of their grid.
std::optional<PaperJob> job_of(const PaperNeeds& needs, const BatchTrimmer& trimmer);

// Whether it could be cut from it, whatever it may be cut from.
bool fits_by_size(const cutting::Job& job, std::size_t kind, std::size_t sheet);

// A tree of one of the job's sheets as one of the whole sheet: with the cut by which its untrue edge came off
// first, where it has one.
cutting::Part with_trimmed_edge(const cutting::Part& root, const CutSheet& sheet, const PaperJob& paper);

}  // namespace evenmat::batch
