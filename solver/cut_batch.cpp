// The whole of it: what is needed, a plan for every paper, and where one is short the most cards instead.
#include "solver/cut_batch.h"

#include <algorithm>

#include "solver/batch/gather.h"
#include "solver/batch/lay_out.h"
#include "solver/batch/most.h"
#include "solver/batch/narrower.h"
#include "solver/batch/plan_paper.h"

namespace evenmat {
namespace {

using batch::Clock;
using batch::Counts;
using batch::PlannedPaper;

// Of the time that is left, so that some remains should it come out that paper is short.
constexpr double share_for_batch = 0.6;

class BatchCutter {
 public:
  BatchCutter(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
              const CutOptions& options)
      : cards_(cards),
        more_(more),
        options_(options),
        trimmer_(batch::trimmer_of(cards)),
        stated_(batch::stated_counts(cards)),
        until_(Clock::now() + seconds(options.limit)) {}

  CutBatch run() {
    answer_.no_paper = batch::not_cut(cards_);
    answer_.made = stated_;
    if (!options_.most || !make_the_most_asked_for()) cut_what_is_stated();
    answer_.totals = batch::totals(cards_, answer_.made);
    return std::move(answer_);
  }

 private:
  static Clock::duration seconds(double count) {
    return std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(count));
  }

  [[nodiscard]] Clock::time_point after(double share) const {
    const Clock::time_point now = Clock::now();
    return now + seconds(std::chrono::duration<double>(std::max(until_, now) - now).count() * share);
  }

  using Known = std::map<std::string, cutting::SheetPlan>;

  // First every paper gets a part of a quarter of the time, which is enough for most; those that it was not
  // enough for are then planned again with all that is left.
  std::vector<PlannedPaper> plan(const Counts& counts, const Known& known, double share) {
    const Clock::time_point until = after(share);
    const std::vector<batch::PaperNeeds> papers = batch::gather(cards_, more_, options_, counts);
    std::vector<PlannedPaper> planned;
    for (std::size_t i = 0; i < papers.size(); ++i)
      planned.push_back(plan(papers[i], known, until, 0.25 / static_cast<double>(papers.size() - i)));
    plan_again(papers, known, until, planned);
    const bool short_of_one = any(planned, [](const PlannedPaper& paper) { return !paper.enough(); });
    if (share < 1 && !short_of_one) plan_again(papers, known, until_, planned);
    answer_.time_ran_out = any(planned, [](const PlannedPaper& paper) { return paper.time_ran_out; });
    return planned;
  }

  void plan_again(const std::vector<batch::PaperNeeds>& papers, const Known& known, Clock::time_point until,
                  std::vector<PlannedPaper>& planned) const {
    auto unfinished = std::count_if(planned.begin(), planned.end(),
                                    [](const PlannedPaper& paper) { return paper.time_ran_out; });
    for (std::size_t i = 0; i < papers.size(); ++i) {
      if (planned[i].time_ran_out)
        planned[i] = plan(papers[i], known, until, 1 / static_cast<double>(unfinished--));
    }
  }

  [[nodiscard]] PlannedPaper plan(const batch::PaperNeeds& needs, const Known& known, Clock::time_point until,
                                  double share) const {
    const Clock::time_point now = Clock::now();
    batch::PaperEffort effort;
    effort.until = now + seconds(std::chrono::duration<double>(std::max(until, now) - now).count() * share);
    effort.unit = cards_.front().card->unit;
    effort.at_work = options_.at_work;
    const auto plan = known.find(needs.paper);
    return batch::plan_paper(needs, trimmer_, effort,
                             plan == known.end() ? std::nullopt : std::optional(plan->second));
  }

  // False when there is no limit to them, or none can be made.
  bool make_the_most_asked_for() {
    const auto most = batch::most_cards(cards_, more_, options_, stated_, true, after(share_for_batch));
    if (!most || batch::cards_in(most->counts) == 0) return false;
    take_most(*most);
    tell(plan(answer_.made, most->plans, 1), {});
    return true;
  }

  void take_most(const batch::MostCards& most) {
    answer_.made = most.counts;
    answer_.most = batch::cards_in(most.counts);
    answer_.most_proven = most.proven;
  }

  void cut_what_is_stated() {
    std::vector<PlannedPaper> batch = plan(stated_, {}, share_for_batch);
    const bool trouble = any(batch, [](const PlannedPaper& paper) { return !paper.plan.trouble.empty(); });
    if (!trouble) look_for_narrower_trims(batch);
    if (trouble ||
        std::all_of(batch.begin(), batch.end(), [](const auto& paper) { return paper.enough(); })) {
      answer_.verdict = trouble ? CutVerdict::undecided : CutVerdict::planned;
      tell(std::move(batch), {});
      return;
    }
    const bool proven = any(batch, [](const PlannedPaper& paper) { return paper.too_little; });
    answer_.verdict = proven ? CutVerdict::short_of_paper : CutVerdict::undecided;
    make_the_most_instead(std::move(batch));
  }

  void look_for_narrower_trims(std::vector<PlannedPaper>& planned) const {
    for (const batch::PaperNeeds& needs : batch::gather(cards_, more_, options_, stated_)) {
      const auto paper = std::find_if(planned.begin(), planned.end(),
                                      [&](const PlannedPaper& one) { return one.plan.paper == needs.paper; });
      if (paper == planned.end()) continue;
      batch::PaperEffort effort;
      effort.until = after(0.1);
      effort.unit = cards_.front().card->unit;
      paper->plan.with_narrower_trims = batch::with_narrower_trims(needs, trimmer_, *paper, effort);
    }
  }

  void make_the_most_instead(std::vector<PlannedPaper> batch) {
    const auto most = batch::most_cards(cards_, more_, options_, stated_, false, after(0.5));
    if (most) take_most(*most);
    if (answer_.most.value_or(0) == 0) {
      answer_.most = 0;
      tell({}, std::move(batch));
    } else if (answer_.made == stated_) {
      answer_.verdict = CutVerdict::planned;
      tell(plan(stated_, most->plans, 1), {});
    } else {
      tell(plan(answer_.made, most->plans, 1), std::move(batch));
    }
  }

  // Papers in the order of the batch's, each with what the batch lacks of it.
  void tell(std::vector<PlannedPaper> made, std::vector<PlannedPaper> batch) {
    for (PlannedPaper& paper : batch) {
      const auto instead = std::find_if(made.begin(), made.end(), [&](const PlannedPaper& other) {
        return other.plan.paper == paper.plan.paper;
      });
      if (instead != made.end()) {
        instead->plan.missing = std::move(paper.plan.missing);
        instead->plan.with_narrower_trims = paper.plan.with_narrower_trims;
        add(*instead);
        made.erase(instead);
      } else if (made.empty() || !paper.plan.missing.empty()) {
        add(without_plan(paper));
      }
    }
    for (PlannedPaper& paper : made) add(paper);
  }

  static PlannedPaper without_plan(const PlannedPaper& paper) {
    PlannedPaper bare;
    bare.plan.paper = paper.plan.paper;
    bare.plan.pieces = paper.plan.pieces;
    bare.plan.stock = paper.plan.stock;
    bare.plan.missing = paper.plan.missing;
    bare.plan.with_narrower_trims = paper.plan.with_narrower_trims;
    return bare;
  }

  void add(PlannedPaper paper) {
    batch::lay_out(paper, trimmer_);
    answer_.papers.push_back(std::move(paper.plan));
  }

  template <typename Test>
  static bool any(const std::vector<PlannedPaper>& papers, const Test& test) {
    return std::any_of(papers.begin(), papers.end(), test);
  }

  const std::vector<BatchCard>& cards_;
  const std::vector<MorePaper>& more_;
  const CutOptions& options_;
  const batch::BatchTrimmer trimmer_;
  const Counts stated_;
  const Clock::time_point until_;
  CutBatch answer_;
};

}  // namespace

CutBatch cut_batch(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                   const CutOptions& options) {
  return BatchCutter(cards, more, options).run();
}

}  // namespace evenmat
