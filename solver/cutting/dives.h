// Whole numbers of sheets out of mixes of ways to cut them ("diving"): the way most used in the best mix is
// taken, what is wanted beside it is mixed anew, with new ways that help there, and so on. All ways give no
// more than is wanted, which mixes for proofs need not heed (columns.h), so these mixes are nearer to whole
// plans. Decides nothing: what it gives is a plan or a part of one.
//
// Tried and dropped: ways for proofs alone, of which most give too much of some kind (four times as many jobs
// stayed one sheet above their bound); more tries at ways after each step (dearer, no better); three fillings
// of each rectangle from the first try on (slower to the same end); whole numbers by branch and bound over
// all full sheets seen while refilling (dives over the same ways find more in less).
//
// Price-and-branch by diving: F. Vanderbeck, in Column Generation, Springer 2005, 331-358; R. Sadykov et al.,
// INFORMS Journal on Computing 31 (2019) 251-267.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "solver/cutting/columns.h"
#include "solver/cutting/job.h"

namespace evenmat::cutting {

struct Dive {
  std::vector<Cut> cuts;  // that give no more than is wanted
  std::vector<int> left;  // of each kind, that they do not give
};

class Dives {
 public:
  using Deadline = std::chrono::steady_clock::time_point;

  // The job must outlive this.
  Dives(const Job& job, std::optional<Deadline> deadline);
  ~Dives();
  Dives(const Dives&) = delete;
  Dives& operator=(const Dives&) = delete;

  // One more way to be mixed; what it gives beyond what is wanted is given up. Before the first dive those of
  // a whole plan are wanted.
  void add(const Column& way);
  // One more dive, which differs from those before, towards a plan that costs less than `cost`; it ends early
  // where the mix shows that it leads to none. Nothing where no mix of all ways costs less, or it is too
  // late, or `looks` are used up before.
  std::optional<Dive> next(std::int64_t cost, std::int64_t looks);
  // What it took so far, in what Effort::looks counts.
  [[nodiscard]] std::int64_t looks() const;

 private:
  class Mixing;
  std::unique_ptr<Mixing> mixing_;
};

}  // namespace evenmat::cutting
