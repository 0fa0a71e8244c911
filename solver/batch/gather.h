// What a batch of cards needs from each paper, and what there is of it: kinds of pieces with their uses, and
// sheets, offcuts of the work itself among them. No planning.
#pragma once

#include <string>
#include <vector>

#include "solver/cut_batch.h"

namespace evenmat::batch {

// How many of each version of each card are to be cut.
using Counts = std::vector<std::vector<int>>;

// As the cards state it, spares among them: they go to the plain card, or, where variants have claimed all of
// it, to the first variant.
Counts stated_counts(const std::vector<BatchCard>& cards);

struct PaperNeeds {
  std::string paper;
  std::vector<CutPiece> pieces;
  // Sheets first, as stated and then the papers left over; then offcuts, as many as `counts` make of them.
  // Where bases are to fold with the grain, sheets are turned so that it runs the same way on all.
  std::vector<CutSheet> stock;
  // Of each piece, each of `stock`: whether it may be cut from it at all. Bases never from offcuts, nor
  // against the grain.
  std::vector<std::vector<bool>> may;
};

// Papers in the order in which the cards first name them, without those from which nothing is cut.
std::vector<PaperNeeds> gather(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                               const CutOptions& options, const Counts& counts);

// Each layer once that is paper and is not cut from any.
std::vector<NotCut> not_cut(const std::vector<BatchCard>& cards);

BatchTotals totals(const std::vector<BatchCard>& cards, const Counts& counts);

}  // namespace evenmat::batch
