// Planning a paper of which there is so much.
//
// If its sheets are all of one size, and of so many, the fewest of them say whether it is enough and what is
// missing. Else it is first asked how many further sheets are wanted at least, what there is counting
// nothing: none proves that it is enough, and a bound above none that it is not. If it is enough, or that is
// not known, it is planned at its costs, with further sheets of every size that is limited, each counting for
// more than all that there is: what comes out uses one only where the planner finds no way without, and what
// bounds it bounds every plan that does without. If it is not enough, the fewest further sheets of one size
// are asked for, size by size.
#include "solver/batch/plan_paper.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "model/words.h"
#include "solver/batch/missing.h"
#include "solver/batch/prices.h"
#include "solver/cutting/plan_sheets.h"

namespace evenmat::batch {
namespace {

// For what is missing or whether there is enough at all, which is asked often: about a second's worth.
constexpr std::int64_t few_looks = 10'000'000;

double seconds_until(Clock::time_point until) {
  const double left = std::chrono::duration<double>(until - Clock::now()).count();
  return std::max(left, 0.01);
}

// The instant when so much of the time that is left is over.
Clock::time_point after(double share, Clock::time_point until) {
  const auto left = std::chrono::duration<double>(seconds_until(until) * share);
  return Clock::now() + std::chrono::duration_cast<Clock::duration>(left);
}

bool costs_one_price(const PaperNeeds& needs) {
  const CutSheet* first = nullptr;
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut()) continue;
    if (first != nullptr && sheet.cost.value_or(Rational(0)) != first->cost.value_or(Rational(0)))
      return false;
    if (first == nullptr) first = &sheet;
  }
  return true;
}

class Planner {
 public:
  Planner(const PaperNeeds& needs, const BatchTrimmer& trimmer, const PaperEffort& effort)
      : needs_(needs), trimmer_(trimmer), effort_(effort) {}

  PlannedPaper run(const std::optional<cutting::SheetPlan>& known) {
    planned_.plan.paper = needs_.paper;
    planned_.plan.pieces = needs_.pieces;
    planned_.plan.stock = needs_.stock;
    planned_.paper = job_of(needs_, trimmer_);
    if (!planned_.paper) {
      planned_.plan.trouble = fmt::format(
          "The lengths of the sheets and pieces of {} have no measure in common that would do to plan with. "
          "Round those that were worked out to more places than a ruler has.",
          in_quotes(needs_.paper));
      return planned_;
    }
    planned_.plan.missing = too_large(needs_, *planned_.paper, trimmer_, effort_.unit);
    if (!planned_.enough()) {
      planned_.too_little = true;
      return planned_;
    }
    if (is_of_one_size(*planned_.paper) && costs_one_price(needs_)) {
      plan_one_size(known);
    } else {
      plan_with(known);
    }
    return planned_;
  }

 private:
  void plan_one_size(const std::optional<cutting::SheetPlan>& known) {
    const Prices prices = prices_of(needs_, *planned_.paper);
    cutting::Effort effort;
    effort.limit = seconds_until(effort_.until);
    effort.neat = effort_.neat;
    effort.looks = effort_.looks;
    effort.at_work = [&](std::int64_t sheets, std::int64_t at_least) { tell_sheets(sheets, at_least); };
    std::optional<Attempt> found = fewest_sheets(*planned_.paper, effort);
    if (!found && !known) return no_plan();
    const std::size_t size = limited_sizes(*planned_.paper).front();
    if (found) {
      at_least_ = found->sheets_at_least * prices.of[size];
      planned_.time_ran_out = found->plan.time_ran_out;
      planned_.too_little = found->plan.at_least > 0;
    }
    if (found && found->further_in_all() == 0) {
      take(found->plan, prices);
    } else if (known) {
      take(*known, prices);
    } else {
      add_missing(size, *found, found->further_in_all(), true);
      planned_.with_further = std::move(found->plan.layouts);
    }
  }

  void no_plan() {
    planned_.plan.trouble = fmt::format("No plan was found for {}.", in_quotes(needs_.paper));
  }

  void plan_with(std::optional<cutting::SheetPlan> known) {
    const Indices sizes = limited_sizes(*planned_.paper);
    std::optional<Attempt> lacking;
    if (!known && !sizes.empty()) {
      lacking = further_of(sizes, std::vector<std::int64_t>(sizes.size(), 1), after(0.4, effort_.until));
      if (lacking && lacking->further_in_all() == 0) known = std::move(lacking->plan);
    }
    if (!planned_.too_little && plan_with_prices(sizes, known)) return;
    if (!lacking) {
      no_plan();
    } else if (sizes.size() == 1) {
      add_missing(sizes.front(), *lacking, lacking->further_in_all(), true);
    } else if (const auto enough = look_for_one_size(sizes, *lacking)) {
      take(*enough, prices_of(needs_, *planned_.paper));
    }
  }

  // False when no plan was found that does with what there is.
  bool plan_with_prices(const Indices& sizes, const std::optional<cutting::SheetPlan>& known) {
    const Prices prices = prices_of(needs_, *planned_.paper);
    cutting::Effort effort;
    effort.limit = seconds_until(known || sizes.empty() ? effort_.until : after(0.5, effort_.until));
    effort.neat = effort_.neat;
    effort.looks = effort_.looks;
    effort.at_work = [&](std::int64_t cost, std::int64_t at_least) { tell(prices, cost, at_least); };
    const auto found = attempt(*planned_.paper, prices.of, sizes,
                               std::vector<std::int64_t>(sizes.size(), prices.further), effort);
    if (found) at_least_ = found->plan.at_least;
    if (found && found->plan.time_ran_out) planned_.time_ran_out = true;
    if (found && found->further_in_all() == 0) {
      take(found->plan, prices);
    } else if (known) {
      take(*known, prices);
    } else {
      return false;
    }
    return true;
  }

  void take(const cutting::SheetPlan& plan, const Prices& prices) {
    planned_.layouts = plan.layouts;
    PaperPlan& told = planned_.plan;
    Rational cost = 0;
    for (const cutting::Layout& layout : plan.layouts) {
      const CutSheet& sheet = needs_.stock[planned_.paper->stock[layout.sheet]];
      if (sheet.is_offcut()) continue;
      told.sheets += layout.times;
      cost += sheet.cost.value_or(Rational(0)) * layout.times;
    }
    const int by_area = sheets_by_area(*planned_.paper).value_or(0);
    told.at_least = std::min(told.sheets, std::max(by_area, prices.sheets(at_least_, cost)));
    told.proven = told.at_least == told.sheets;
    if (prices.cost_stated) {
      told.cost = cost;
      told.cost_at_least = std::min(cost, prices.money(at_least_));
      told.proven = told.cost == told.cost_at_least;
    }
    if (told.proven) planned_.time_ran_out = false;
  }

  // What is missing goes into the plan; a plan comes back if nothing is.
  std::optional<cutting::SheetPlan> look_for_one_size(const Indices& sizes, const Attempt& of_any_size) {
    Indices stated;
    for (const std::size_t size : sizes) {
      if (stock_of(size).from == CutSheet::From::stated) stated.push_back(size);
    }
    std::optional<Attempt> best;
    std::size_t best_size = 0;
    for (std::size_t i = 0; i < stated.size(); ++i) {
      const auto until = after(1 / static_cast<double>(stated.size() - i + 1), effort_.until);
      auto found = further_of({stated[i]}, {1}, until);
      if (!found) continue;
      if (found->further_in_all() == 0) return std::move(found->plan);
      if (best && found->further_in_all() >= best->further_in_all()) continue;
      best = std::move(found);
      best_size = stated[i];
    }
    if (best) {
      add_missing(best_size, *best, best->further_in_all(), true);
    } else {
      add_missing_of_several(sizes, of_any_size);
    }
    return std::nullopt;
  }

  // Where no one size will do.
  void add_missing_of_several(const Indices& sizes, const Attempt& found) {
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (found.further[i] == 0) continue;
      // However many there were of the others.
      std::vector<std::int64_t> prices(sizes.size(), 0);
      prices[i] = 1;
      const auto bound = further_of(sizes, prices, after(0.5, effort_.until));
      add_missing(sizes[i], bound.value_or(Attempt{}), found.further[i], false);
    }
  }

  // What there is counts nothing.
  std::optional<Attempt> further_of(const Indices& sizes, const std::vector<std::int64_t>& further,
                                    Clock::time_point until) {
    cutting::Effort effort;
    effort.limit = seconds_until(until);
    effort.looks = std::min(few_looks, effort_.looks);
    effort.neat = false;
    effort.at_work = [&](std::int64_t cost, std::int64_t at_least) {
      say(fmt::format("{} more than there are, no plan can do with fewer than {}", sheets_text(cost),
                      at_least));
    };
    auto found = fewest_further(*planned_.paper, sizes, further, effort);
    if (!found) return found;
    if (found->plan.time_ran_out) planned_.time_ran_out = true;
    if (found->plan.at_least > 0) planned_.too_little = true;
    return found;
  }

  void add_missing(std::size_t size, const Attempt& bound, int sheets, bool alone) {
    const auto at_least = static_cast<int>(std::min<std::int64_t>(bound.plan.at_least, sheets));
    planned_.plan.missing.push_back(
        missing_sheets(needs_, stock_of(size).size, sheets, at_least, alone, effort_.unit));
  }

  [[nodiscard]] const CutSheet& stock_of(std::size_t sheet) const {
    return needs_.stock[planned_.paper->stock[sheet]];
  }

  void tell(const Prices& prices, std::int64_t cost, std::int64_t at_least) const {
    if (cost >= prices.further) {
      say("more sheets than there are, so far");
    } else if (prices.cost_stated) {
      say(fmt::format("a cost of {}, no plan can cost less than {}", fraction_text(prices.money(cost)),
                      fraction_text(prices.money(at_least))));
    } else {
      tell_sheets(cost, at_least);
    }
  }

  void tell_sheets(std::int64_t sheets, std::int64_t at_least) const {
    say(fmt::format("{}, no plan can use fewer than {}", sheets_text(sheets), at_least));
  }

  static std::string sheets_text(std::int64_t count) {
    return fmt::format("{} {}", count, count == 1 ? "sheet" : "sheets");
  }

  void say(const std::string& what) const {
    if (effort_.at_work) effort_.at_work(fmt::format("{}: {}", needs_.paper, what));
  }

  const PaperNeeds& needs_;
  const BatchTrimmer& trimmer_;
  const PaperEffort& effort_;
  PlannedPaper planned_;
  std::int64_t at_least_ = 0;  // what every plan counts, at its prices
};

bool may_be_enough_for_each(const PaperJob& paper) {
  for (std::size_t kind = 0; kind < paper.job.kinds.size(); ++kind) {
    if (!may_be_enough(paper, kind)) return false;
  }
  return true;
}

}  // namespace

PlannedPaper plan_paper(const PaperNeeds& needs, const BatchTrimmer& trimmer, const PaperEffort& effort,
                        const std::optional<cutting::SheetPlan>& known) {
  return Planner(needs, trimmer, effort).run(known);
}

Enough is_enough(const PaperNeeds& needs, const BatchTrimmer& trimmer, const PaperEffort& effort) {
  const std::optional<PaperJob> paper = job_of(needs, trimmer);
  if (!paper) return {};
  if (!may_be_enough_for_each(*paper) || !sheets_by_area(*paper)) return {false, std::nullopt};
  const Indices sizes = limited_sizes(*paper);
  if (sizes.empty()) return {true, std::nullopt};
  cutting::Effort planning;
  planning.limit = seconds_until(effort.until);
  planning.looks = few_looks;
  planning.neat = false;
  const std::vector<std::int64_t> ones(sizes.size(), 1);
  auto found = is_of_one_size(*paper) ? fewest_sheets(*paper, planning)
                                      : fewest_further(*paper, sizes, ones, planning);
  if (!found) return {};
  if (found->further_in_all() == 0) return {true, std::move(found->plan)};
  if (found->plan.at_least > 0) return {false, std::nullopt};
  return {};
}

bool sets_a_limit(const PaperNeeds& needs, const BatchTrimmer& trimmer) {
  const std::optional<PaperJob> paper = job_of(needs, trimmer);
  if (!paper) return false;
  return std::any_of(paper->takes.begin(), paper->takes.end(), [&](const std::vector<bool>& takes) {
    for (std::size_t i = 0; i < takes.size(); ++i) {
      if (takes[i] && paper->is_sheet[i] && !paper->job.sheets[i].have) return false;
    }
    return true;
  });
}

}  // namespace evenmat::batch
