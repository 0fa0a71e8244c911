// The card files of a batch and files of leftovers, read, sized and planned: from the words of a call to a
// plan that reports and drawings tell alike, or to the answer that says why there is none.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/opened_card.h"
#include "solver/cut_batch.h"

namespace evenmat {

struct BatchFiles {
  std::vector<std::string> files;  // one or more; "-": standard input
  std::vector<std::string> also;   // files of leftovers
  bool most = false;               // as many cards as the paper gives
  bool grain_along_fold = false;
  bool json = false;  // how what is refused is told
  double limit = 30;  // seconds
};

// Its parts point at one another: good while it stands where it is.
struct PlannedBatch {
  std::vector<OpenedCard> opened;
  std::vector<MorePaper> more;
  std::vector<SizedCard> sized;
  std::vector<BatchCard> cards;
  CutBatch batch;
  std::vector<std::size_t> no_spare_stated;  // these cards say nothing of spares
};

struct BatchPlanning {
  std::unique_ptr<PlannedBatch> planned;
  Answer refused;  // without a plan: the whole answer
};

// Files that cannot be read, hold mistakes or cannot be built are told all in one. `out` and `err`: how each
// stream may be dressed.
BatchPlanning plan_batch(const BatchFiles& files, const Style& out, const Style& err,
                         const Meanwhile& meanwhile);

// The status that a plan ends with.
Status status_of(const CutBatch& batch);

// What the limit left open, for standard error; empty where it was not reached.
std::string limit_words(const CutBatch& batch, double limit);

// Papers among the leftovers that no card is cut from, for standard error.
std::string unused_leftovers(const PlannedBatch& planned);

}  // namespace evenmat
