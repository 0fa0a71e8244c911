// What each sheet of a paper counts for in the planner's whole numbers, and what its figures say of money and
// of sheets.
//
// Where no sheet states a cost each counts 1. Where some do (the others cost nothing), a sheet counts its
// cost, in whole steps of the widest amount that all costs are multiples of, times one more than there are
// pieces, plus 1: so the least of the sum is the least cost, and among plans of that cost the fewest sheets,
// as no plan worth having uses more sheets than there are pieces. Where that makes numbers too large, sheets
// do not count; where costs alone do, they are told in wider steps, rounded down, so that what is a bound
// from below stays one.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "solver/batch/paper_job.h"
#include "solver/cutting/plan_sheets.h"

namespace evenmat::batch {

struct Prices {
  std::vector<std::int64_t> of;  // each of the job's sheets; offcuts 0
  std::int64_t further = 0;      // of any sheet more than there are: more than all there are, if it can be
  bool cost_stated = false;
  bool sheets_count = true;   // as well as money
  std::int64_t per_step = 1;  // what a step of money counts
  Rational step = 0;          // of money

  // No plan costs less money, if none counts less than this.
  [[nodiscard]] Rational money(std::int64_t at_least) const;
  // No plan that costs no more than `cost` uses fewer sheets, if none counts less than this.
  [[nodiscard]] int sheets(std::int64_t at_least, const Rational& cost) const;
};

Prices prices_of(const PaperNeeds& needs, const PaperJob& paper);

// No plan uses fewer sheets: the area of the pieces, less that of all offcuts that any may be cut from, over
// that of the largest sheets there are. Nothing where all there is is not enough.
std::optional<int> sheets_by_area(const PaperJob& paper);
// Whether all there is can be enough for the pieces of one kind by themselves, by area.
bool may_be_enough(const PaperJob& paper, std::size_t kind);

}  // namespace evenmat::batch
