// Where paper is short the plan is one with as many more sheets as that takes, so that its figures are those
// of the whole batch.
#include "solver/costs/price_paper.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "model/words.h"
#include "solver/batch/prices.h"

namespace evenmat::exploring {
namespace {

using batch::BatchTrimmer;
using batch::PaperNeeds;
using batch::PlannedPaper;
using cutting::Layout;

Rational area_of(const Size& size) { return size.width * size.height; }

// What a plan takes. Its layouts are of the job's sheets; those that are numbered after them are further
// ones.
class Taken {
 public:
  Taken(const PaperNeeds& needs, const batch::PaperJob& paper) : needs_(needs), paper_(paper) {}

  // `further`: which of the job's sheets each further one is like.
  void add(const std::vector<Layout>& layouts, const batch::Indices& further) {
    for (const Layout& layout : layouts) {
      const bool more = layout.sheet >= paper_.stock.size();
      const CutSheet& sheet =
          needs_.stock[paper_.stock[more ? further[layout.sheet - paper_.stock.size()] : layout.sheet]];
      if (sheet.is_offcut()) continue;
      sheets += layout.times;
      if (more) missing += layout.times;
      cost += sheet.cost.value_or(Rational(0)) * layout.times;
      sheet_area += area_of(sheet.size) * layout.times;
      const std::vector<int> gives = cutting::pieces_in(layout.root, needs_.pieces.size());
      for (std::size_t kind = 0; kind < gives.size(); ++kind)
        piece_area += area_of(needs_.pieces[kind].size) * (gives[kind] * layout.times);
    }
  }

  int sheets = 0, missing = 0;
  Rational cost, sheet_area, piece_area;

 private:
  const PaperNeeds& needs_;
  const batch::PaperJob& paper_;
};

class PaperPlanner {
 public:
  PaperPlanner(const PaperNeeds& needs, const BatchTrimmer& trimmer, batch::PaperEffort effort)
      : needs_(needs), trimmer_(trimmer), effort_(std::move(effort)) {
    told_.cost.paper = told_.bound.paper = needs.paper;
  }

  PricedPaper run() {
    planned_ = batch::plan_paper(needs_, trimmer_, effort_);
    told_.time_ran_out = planned_.time_ran_out;
    told_.cost.trouble = planned_.plan.trouble;
    if (!planned_.plan.trouble.empty()) return std::move(told_);
    const std::vector<Shortage>& missing = planned_.plan.missing;
    if (std::any_of(missing.begin(), missing.end(), [](const auto& one) { return one.too_large; })) {
      told_.cost.never = told_.bound.never = true;
    } else if (missing.empty()) {
      tell_enough();
    } else if (batch::is_of_one_size(*planned_.paper) && !planned_.with_further.empty()) {
      tell_short_of_one_size();
    } else {
      tell_short_of_many_sizes();
    }
    return std::move(told_);
  }

 private:
  [[nodiscard]] bool cost_stated() const {
    return std::any_of(needs_.stock.begin(), needs_.stock.end(),
                       [](const CutSheet& sheet) { return !sheet.is_offcut() && sheet.cost; });
  }

  void tell(const Taken& taken) {
    told_.cost.sheets = taken.sheets;
    told_.cost.sheet_area = taken.sheet_area;
    told_.cost.piece_area = taken.piece_area;
    if (cost_stated()) told_.cost.cost = taken.cost;
  }

  void tell_enough() {
    Taken taken(needs_, *planned_.paper);
    taken.add(planned_.layouts, {});
    tell(taken);
    told_.cost.at_least = planned_.plan.at_least;
    told_.cost.proven = planned_.plan.proven;
    told_.bound.sheets = planned_.plan.at_least;
    if (planned_.plan.cost_at_least) {
      told_.bound.cost = *planned_.plan.cost_at_least;
      // So many sheets are the fewest at that cost alone.
      told_.bound.sheets = sheets_by_area();
    }
  }

  void tell_short_of_one_size() {
    Taken taken(needs_, *planned_.paper);
    const batch::Indices sizes = batch::limited_sizes(*planned_.paper);
    taken.add(planned_.with_further, {sizes.front()});
    tell(taken);
    const Shortage& lacking = planned_.plan.missing.front();
    told_.cost.missing = lacking.sheets;
    told_.bound.missing = lacking.at_least;
    const int there = taken.sheets - lacking.sheets;
    const int at_least = std::max(sheets_by_area(), lacking.at_least > 0 ? there + lacking.at_least : 0);
    told_.cost.at_least = told_.bound.sheets = at_least;
    told_.cost.proven = at_least == taken.sheets;
    if (cost_stated())
      told_.bound.cost = needs_.stock[planned_.paper->stock[sizes.front()]].cost.value_or(0) * at_least;
  }

  // As many more of what one size lacks, or of several; of what there is as little as it may cost.
  void tell_short_of_many_sizes() {
    batch::Indices sizes;
    for (const std::size_t size : batch::limited_sizes(*planned_.paper)) {
      const Size& own = needs_.stock[planned_.paper->stock[size]].size;
      const auto& missing = planned_.plan.missing;
      if (std::any_of(missing.begin(), missing.end(), [&](const auto& one) { return one.sheet == own; }))
        sizes.push_back(size);
    }
    cutting::Effort effort;
    const std::chrono::duration<double> left = effort_.until - batch::Clock::now();
    effort.limit = std::max(left.count(), 0.01);
    effort.looks = effort_.looks;
    effort.neat = false;
    const batch::Prices prices = batch::prices_of(needs_, *planned_.paper);
    const std::vector<std::int64_t> dear(sizes.size(), prices.further);
    const std::vector<std::int64_t> ones(sizes.size(), 1);
    const auto cheapest = batch::attempt(*planned_.paper, prices.of, sizes, dear, effort);
    const auto fewest = batch::fewest_further(*planned_.paper, sizes, ones, effort);
    const bool first = cheapest && (!fewest || cheapest->further_in_all() <= fewest->further_in_all());
    const auto& best = first ? cheapest : fewest;
    if (!best) {
      told_.cost.trouble = fmt::format("No plan was found for {}.", in_quotes(needs_.paper));
      return;
    }
    if (best->plan.time_ran_out) told_.time_ran_out = true;
    Taken taken(needs_, *planned_.paper);
    taken.add(best->plan.layouts, sizes);
    tell(taken);
    told_.cost.missing = taken.missing;
    told_.bound.missing = planned_.too_little ? 1 : 0;
    told_.cost.at_least = told_.bound.sheets = sheets_by_area();
    told_.cost.proven = !cost_stated() && told_.cost.at_least == taken.sheets;
  }

  // No plan takes fewer, whatever there is: none of the largest sheet can give more than its area.
  [[nodiscard]] int sheets_by_area() const {
    Rational largest = 0;
    for (const CutSheet& sheet : needs_.stock) largest = std::max(largest, area_of(sheet.size));
    if (has_offcuts(needs_) || largest == 0) return 0;
    Rational area = 0;
    for (const CutPiece& piece : needs_.pieces) area += area_of(piece.size) * piece.count;
    return floor(round_up(area / largest, 1)).convert_to<int>();
  }

  const PaperNeeds& needs_;
  const BatchTrimmer& trimmer_;
  const batch::PaperEffort effort_;
  PlannedPaper planned_;
  PricedPaper told_;
};

}  // namespace

bool has_offcuts(const PaperNeeds& needs) {
  return std::any_of(needs.stock.begin(), needs.stock.end(),
                     [](const CutSheet& sheet) { return sheet.is_offcut(); });
}

PricedPaper price_paper(const PaperNeeds& needs, const BatchTrimmer& trimmer,
                        const batch::PaperEffort& effort) {
  return PaperPlanner(needs, trimmer, effort).run();
}

}  // namespace evenmat::exploring
