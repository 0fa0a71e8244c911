// A paper is planned as it is when the batch is cut, but with less effort spent where a plan is not proven at
// once: there are thousands of cards to plan for. What is planned depends on the job alone, never on what was
// asked before.
//
// Why the bound of `at_least` holds: whoever can cut larger pieces can cut smaller ones from the same sheets,
// by cutting the larger ones and trimming each. That takes narrow trims and cuts as long as those pieces are,
// so the limits on both are left out of what is bounded; a bound without limits holds with them. A blade that
// takes paper takes it from what is trimmed off, and where that is less than the blade wants it takes all of
// it, as the planner allows where there is no limit on trims. Offcuts of the work are another matter: a
// larger cut-back makes more of them.
#include "solver/explore/paper_costs.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>

#include "solver/batch/gather.h"
#include "solver/batch/plan_paper.h"
#include "solver/batch/prices.h"
#include "solver/batch/trimmer.h"
#include "solver/explore/memo.h"

namespace evenmat::exploring {
namespace {

using batch::BatchTrimmer;
using batch::Counts;
using batch::PaperNeeds;
using batch::PlannedPaper;
using cutting::Layout;

// Looks at something better while a plan is not proven: about a tenth of a second's worth, then of how many
// cards one sheet gives.
constexpr std::int64_t looks_for_a_batch = 1'000'000;
constexpr std::int64_t looks_for_a_sheet = 300'000;

struct Planned {
  PaperCost cost;
  PaperBound bound;
};

Rational area_of(const Size& size) { return size.width * size.height; }

bool has_offcuts(const PaperNeeds& needs) {
  return std::any_of(needs.stock.begin(), needs.stock.end(),
                     [](const CutSheet& sheet) { return sheet.is_offcut(); });
}

// All that planning a paper depends on, beside the trimmer.
std::string key_of(const PaperNeeds& needs) {
  std::string key = needs.paper;
  for (const CutPiece& piece : needs.pieces) {
    key += fmt::format("|{}x{} {}{} {}", fraction_text(piece.size.width), fraction_text(piece.size.height),
                       piece.upright, piece.turned, piece.count);
  }
  for (std::size_t i = 0; i < needs.stock.size(); ++i) {
    const CutSheet& sheet = needs.stock[i];
    key +=
        fmt::format("|{}x{}-{} {} {} {}", fraction_text(sheet.size.width), fraction_text(sheet.size.height),
                    fraction_text(sheet.trim_first), sheet.have.value_or(-1),
                    sheet.cost ? fraction_text(*sheet.cost) : "", static_cast<int>(sheet.from));
    for (const auto& may : needs.may) key += may[i] ? '+' : '-';
  }
  return key;
}

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

  Planned run() {
    planned_ = batch::plan_paper(needs_, trimmer_, effort_);
    time_ran_out_ = planned_.time_ran_out;
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

  [[nodiscard]] bool time_ran_out() const { return time_ran_out_; }

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
      told_.cost.trouble = fmt::format("No plan was found for {}.", needs_.paper);
      return;
    }
    if (best->plan.time_ran_out) time_ran_out_ = true;
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
  Planned told_;
  bool time_ran_out_ = false;
};

// Where all sheets are alike and no offcuts of the work are among them, one of them.
std::optional<CutSheet> one_sheet_of(const PaperNeeds& needs) {
  const CutSheet& first = needs.stock.front();
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut() || sheet.size != first.size || sheet.trim_first != first.trim_first)
      return std::nullopt;
  }
  CutSheet one = first;
  one.have = 1;
  return one;
}

}  // namespace

struct PaperCosts::Inside {
  Inside(const Card& of, std::chrono::steady_clock::time_point deadline)
      : card(of), until(deadline), trimmer(batch::trimmer_of({{"", &of, nullptr}})) {}

  [[nodiscard]] std::vector<PaperNeeds> needs_of(const SizedCard& sized) const {
    const std::vector<BatchCard> cards{{"", &card, &sized}};
    return batch::gather(cards, {}, {}, batch::stated_counts(cards));
  }

  [[nodiscard]] batch::PaperEffort effort() const {
    batch::PaperEffort effort;
    effort.until = until;
    effort.unit = card.unit;
    effort.looks = looks_for_a_batch;
    effort.neat = false;
    return effort;
  }

  Planned plan(const PaperNeeds& needs, const BatchTrimmer& by) {
    PaperPlanner planner(needs, by, effort());
    Planned planned = planner.run();
    if (planner.time_ran_out()) late = true;
    return planned;
  }

  Planned planned(const PaperNeeds& needs) {
    return batches.get(key_of(needs), [&] { return plan(needs, trimmer); });
  }

  // So many whole cards, by what one card wants of the paper.
  bool gives(const PaperNeeds& one_card, int cards) {
    PaperNeeds needs = one_card;
    for (CutPiece& piece : needs.pieces) piece.count *= cards;
    const std::optional<batch::PaperJob> paper = batch::job_of(needs, trimmer);
    if (!paper || paper->job.sheets.empty() || !batch::sheets_by_area(*paper)) return false;
    for (const std::vector<bool>& takes : paper->takes) {
      if (!takes.front()) return false;
    }
    cutting::Effort planning;
    const std::chrono::duration<double> left = until - batch::Clock::now();
    planning.limit = std::max(left.count(), 0.01);
    planning.looks = looks_for_a_sheet;
    planning.neat = false;
    const auto found = batch::fewest_sheets(*paper, planning);
    if (found && found->plan.time_ran_out) late = true;
    return found && found->further_in_all() == 0;
  }

  // What is enough for some cards is enough for fewer.
  int most_of(const PaperNeeds& one_card) {
    if (!gives(one_card, 1)) return 0;
    int possible = 1;
    while (gives(one_card, 2 * possible)) possible *= 2;
    int too_many = 2 * possible;
    while (possible + 1 < too_many) {
      const int middle = possible + (too_many - possible) / 2;
      (gives(one_card, middle) ? possible : too_many) = middle;
    }
    return possible;
  }

  std::optional<int> cards_a_sheet(const SizedCard& sized, const std::string& paper) {
    const std::vector<BatchCard> cards{{"", &card, &sized}};
    Counts counts = batch::stated_counts(cards);
    if (std::count_if(counts[0].begin(), counts[0].end(), [](int count) { return count > 0; }) != 1)
      return std::nullopt;
    for (int& count : counts[0]) count = std::min(count, 1);
    for (PaperNeeds& needs : batch::gather(cards, {}, {}, counts)) {
      if (needs.paper != paper) continue;
      const std::optional<CutSheet> sheet = one_sheet_of(needs);
      if (!sheet) return std::nullopt;
      needs.stock = {*sheet};
      for (auto& may : needs.may) may = {may.front()};
      return sheets.get(key_of(needs), [&] { return most_of(needs); });
    }
    return std::nullopt;
  }

  const Card& card;
  const std::chrono::steady_clock::time_point until;
  const BatchTrimmer trimmer;
  Memo<Planned> batches;
  Memo<int> sheets;
  std::atomic<bool> late = false;
};

PaperCosts::PaperCosts(const Card& card, std::chrono::steady_clock::time_point until)
    : inside_(std::make_unique<Inside>(card, until)) {}
PaperCosts::~PaperCosts() = default;

std::vector<PaperCost> PaperCosts::of(const SizedCard& sized, bool cards_a_sheet) {
  std::vector<PaperCost> costs;
  for (const PaperNeeds& needs : inside_->needs_of(sized)) {
    costs.push_back(inside_->planned(needs).cost);
    if (cards_a_sheet) costs.back().cards_a_sheet = inside_->cards_a_sheet(sized, needs.paper);
  }
  return costs;
}

std::vector<PaperBound> PaperCosts::bounds(const SizedCard& sized) {
  std::vector<PaperBound> bounds;
  for (const PaperNeeds& needs : inside_->needs_of(sized)) bounds.push_back(inside_->planned(needs).bound);
  return bounds;
}

std::vector<PaperBound> PaperCosts::at_least(const SizedCard& smallest) {
  std::vector<PaperBound> bounds;
  for (const PaperNeeds& needs : inside_->needs_of(smallest)) {
    BatchTrimmer any = inside_->trimmer;
    any.sliver = 0;
    for (const CutSheet& sheet : needs.stock) any.longest += sheet.size.width + sheet.size.height;
    bounds.push_back(has_offcuts(needs) ? PaperBound{needs.paper, false, 0, 0, 0}
                                        : inside_->plan(needs, any).bound);
  }
  return bounds;
}

bool PaperCosts::time_ran_out() const { return inside_->late; }

}  // namespace evenmat::exploring
