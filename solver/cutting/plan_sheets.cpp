#include "solver/cutting/plan_sheets.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <numeric>
#include <utility>
#include <vector>

#include "solver/cutting/best_sheet.h"
#include "solver/cutting/columns.h"
#include "solver/cutting/dives.h"
#include "solver/cutting/few_pieces.h"
#include "solver/cutting/neat.h"
#include "solver/cutting/refill.h"
#include "solver/cutting/tree_shape.h"

namespace evenmat::cutting {
namespace {

constexpr std::int64_t quick_looks = 200'000;    // before the bound is known
constexpr std::int64_t first_looks = 2'000'000;  // at what a mix of ways leaves
constexpr int looks_at_whole_times = 60'000;     // times ways
constexpr std::size_t most_seen = 3000;
// What refilling and diving may use in turn; after the last twice as much each time. More that may be tried
// makes for more turns, so what is found with less is found again.
struct Turn {
  std::int64_t refill, dive;
};
constexpr Turn turns[] = {{10'000'000, 30'000'000}, {15'000'000, 15'000'000}, {15'000'000, 15'000'000}};
constexpr std::int64_t most_to_begin = 600;  // pieces one by one before the bound is known
constexpr std::int64_t most_to_fill = 5000;  // pieces one by one; more are only mixed
constexpr std::int64_t no_cost_yet = std::numeric_limits<std::int64_t>::max() / 4;

bool takes(const Sheet& sheet, Measure width, Measure height, const CutLimits& limits, Measure blade) {
  const Measure across = sheet.width - width;
  const Measure down = sheet.height - height;
  if (across < 0 || down < 0 || !limits.is_trim(across) || !limits.is_trim(down)) return false;
  if (across == 0 && down == 0) return true;
  const Measure longest = limits.longest;
  if (across == 0) return sheet.width + blade <= longest;
  if (down == 0) return sheet.height + blade <= longest;
  return (sheet.height + blade <= longest && width + blade <= longest) ||
         (sheet.width + blade <= longest && height + blade <= longest);
}

bool fits_with(const Kind& kind, const Sheet& sheet, const CutLimits& limits, Measure blade) {
  if (sheet.offcut && !kind.from_offcuts) return false;
  return (kind.upright && takes(sheet, kind.width, kind.height, limits, blade)) ||
         (kind.turned && takes(sheet, kind.height, kind.width, limits, blade));
}

__extension__ using Wide = __int128;  // areas times numbers or costs

// Of all paper, by area alone: the cheapest paper first.
std::int64_t bound_by_area(const Job& job) {
  Wide area = 0;
  for (const Kind& kind : job.kinds)
    area += Wide(kind.width + job.blade) * (kind.height + job.blade) * kind.count;
  std::vector<std::size_t> order(job.sheets.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto size = [&](std::size_t s) {
    return Wide(job.sheets[s].width + job.blade) * (job.sheets[s].height + job.blade);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return job.sheets[a].cost * size(b) < job.sheets[b].cost * size(a);
  });
  Wide cost = 0;
  for (const std::size_t s : order) {
    if (area <= 0) break;
    const Sheet& sheet = job.sheets[s];
    if (!sheet.have || *sheet.have * size(s) >= area) {
      cost += (area * sheet.cost + size(s) - 1) / size(s);
      break;
    }
    cost += Wide(*sheet.have) * sheet.cost;
    area -= *sheet.have * size(s);
  }
  return static_cast<std::int64_t>(cost);
}

// Without the sheets from which no piece can be cut: they are no help, and would only make bounds weaker.
Job with_useful_sheets(Job job) {
  for (std::size_t s = 0; s < job.sheets.size(); ++s) {
    bool useful = false;
    for (std::size_t k = 0; k < job.kinds.size() && !useful; ++k) useful = can_hold(job, k, s);
    if (!useful) job.sheets[s].have = 0;
  }
  return job;
}

class Planning {
 public:
  Planning(const Job& job, const Effort& effort)
      : job_(with_useful_sheets(job)),
        effort_(effort),
        deadline_(std::chrono::steady_clock::now() +
                  std::chrono::duration_cast<std::chrono::steady_clock::duration>(
                      std::chrono::duration<double>(effort.limit))) {}

  std::optional<SheetPlan> run() {
    at_least_ = bound_by_area(job_);
    std::vector<int> counts;
    for (const Kind& kind : job_.kinds) counts.push_back(kind.count);
    std::optional<Filling> first;
    if (number_of(counts) <= most_to_begin) first = refill(job_, counts, options(quick_looks, at_least_));
    if (first) {
      take(cuts_of(*first));
    } else {
      take_kind_by_kind();
    }
    if (!is_settled()) add_columns();
    if (!is_settled()) round_down();
    if (!is_settled()) whole_columns();
    if (!is_settled()) try_in_turn(counts, first);
    if (best_.empty()) return {};
    SheetPlan plan{effort_.neat ? made_neat(layouts(), job_) : layouts(), 0, at_least_,
                   cost_ > at_least_ && is_late()};
    for (const Layout& layout : plan.layouts) plan.cost += job_.sheets[layout.sheet].cost * layout.times;
    return plan;
  }

 private:
  [[nodiscard]] bool is_late() const { return std::chrono::steady_clock::now() >= deadline_; }
  [[nodiscard]] bool is_settled() const { return !best_.empty() && cost_ <= at_least_; }

  [[nodiscard]] RefillOptions options(std::int64_t looks, std::int64_t at_least) const {
    RefillOptions options;
    options.looks = looks;
    options.at_least = at_least;
    options.deadline = deadline_;
    return options;
  }

  [[nodiscard]] static std::int64_t number_of(const std::vector<int>& counts) {
    return std::accumulate(counts.begin(), counts.end(), std::int64_t{0});
  }

  void try_in_turn(const std::vector<int>& counts, const std::optional<Filling>& first) {
    std::int64_t left = effort_.looks;
    Turn turn{};
    for (std::size_t n = 0; left > 0 && !is_settled() && !is_late(); ++n) {
      turn = n < std::size(turns) ? turns[n] : Turn{2 * turn.refill, 2 * turn.dive};
      const std::int64_t for_refill = std::min(left, turn.refill);
      if (number_of(counts) <= most_to_fill) refill_all(counts, first, for_refill, n + 1);
      left -= for_refill;
      if (!is_settled() && left > 0) left -= std::max(turn.dive, dive(turn.dive, left));
    }
  }

  // Fills anew, or goes on from `start`. Sheets fuller than all need be become ways to be mixed.
  void refill_all(const std::vector<int>& counts, const std::optional<Filling>& start, std::int64_t looks,
                  std::uint64_t seed) {
    std::int64_t area = 0;
    for (const Kind& kind : job_.kinds)
      area += (kind.width + job_.blade) * (kind.height + job_.blade) * kind.count;
    std::map<std::vector<std::size_t>, FilledSheet> pool;
    RefillOptions how = options(looks, at_least_);
    how.seed = seed;
    if (!best_.empty()) how.below = cost_;
    how.better = [this](std::int64_t cost) {
      if (effort_.at_work) effort_.at_work(cost, at_least_);
    };
    how.seen = [&](const FilledSheet& sheet) {
      if (pool.size() >= most_seen || sheet.filled() * at_least_ < area * job_.sheets[sheet.sheet()].cost)
        return;
      std::vector<std::size_t> kinds;
      sheet.pieces(kinds);
      std::sort(kinds.begin(), kinds.end());
      kinds.push_back(sheet.sheet());
      pool.emplace(std::move(kinds), sheet);
    };
    if (const auto filling = refill(job_, counts, how, start)) take(cuts_of(*filling));
    if (is_settled()) return;
    for (const auto& [kinds, sheet] : pool) columns_.all.push_back(column_of(sheet));
  }

  [[nodiscard]] std::vector<Cut> cuts_of(const Filling& filling) const {
    std::vector<Cut> cuts;
    for (const FilledSheet& sheet : filling.sheets) cuts.push_back({column_of(sheet)});
    return cuts;
  }

  // To begin mixing with: sheets full of one kind.
  [[nodiscard]] std::vector<Column> ways_of_one_kind() const {
    std::vector<Column> ways;
    const CutLimits limits = limits_of(job_);
    for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
      const Kind& kind = job_.kinds[k];
      const Measure width = kind.width + job_.blade;
      const Measure height = kind.height + job_.blade;
      for (std::size_t s = 0; s < job_.sheets.size(); ++s) {
        const Sheet& sheet = job_.sheets[s];
        if (!fits(kind, sheet, job_)) continue;
        FilledSheet filled(s, sheet.width + job_.blade, sheet.height + job_.blade);
        for (int i = 0; i < kind.count; ++i) {
          Spot best;
          const auto offer = [&](const Spot& spot) {
            if (best.node < 0 || spot.loss < best.loss) best = spot;
          };
          if (kind.upright) filled.spots(width, height, false, limits, offer);
          if (kind.turned) filled.spots(height, width, true, limits, offer);
          if (best.node < 0) break;
          filled.put(best, k);
        }
        if (!filled.is_empty()) ways.push_back(column_of(filled));
      }
    }
    return ways;
  }

  [[nodiscard]] Column column_of(const FilledSheet& sheet) const {
    Part tree = sheet.tree(job_.blade);
    std::vector<int> gives = pieces_in(tree, job_.kinds.size());
    return {sheet.sheet(), std::move(tree), std::move(gives)};
  }

  // Whether they give all that is wanted and no more, from sheets that there are, by cuts that can be made.
  [[nodiscard]] bool is_plan(const std::vector<Cut>& cuts) const {
    std::vector<std::int64_t> given(job_.kinds.size(), 0);
    std::vector<std::int64_t> used(job_.sheets.size(), 0);
    for (const Cut& cut : cuts) {
      if (!keeps_limits(cut.way.tree, job_)) return false;
      used[cut.way.sheet] += cut.times;
      for (std::size_t k = 0; k < given.size(); ++k) given[k] += std::int64_t{cut.way.gives[k]} * cut.times;
    }
    for (std::size_t k = 0; k < given.size(); ++k) {
      if (given[k] != job_.kinds[k].count) return false;
    }
    for (std::size_t s = 0; s < used.size(); ++s) {
      if (job_.sheets[s].have && used[s] > *job_.sheets[s].have) return false;
    }
    return true;
  }

  void take(std::vector<Cut> cuts) {
    if (!is_plan(cuts)) return;
    std::int64_t cost = 0;
    for (const Cut& cut : cuts) cost += job_.sheets[cut.way.sheet].cost * cut.times;
    if (!best_.empty() && cost >= cost_) return;
    best_ = std::move(cuts);
    cost_ = cost;
    if (effort_.at_work) effort_.at_work(cost_, at_least_);
  }

  // A plan to begin with where there are too many pieces to fill sheets with one by one.
  void take_kind_by_kind() {
    columns_.all = ways_of_one_kind();
    std::vector<std::int64_t> left;
    for (const Sheet& sheet : job_.sheets)
      left.push_back(sheet.have ? *sheet.have : std::numeric_limits<std::int32_t>::max());
    std::vector<Times> ways;
    for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
      std::int64_t wanted = job_.kinds[k].count;
      // What costs least a piece first.
      std::vector<std::pair<double, std::size_t>> order;
      for (std::size_t i = 0; i < columns_.all.size(); ++i) {
        const Column& way = columns_.all[i];
        if (way.gives[k] == 0) continue;
        order.emplace_back(static_cast<double>(job_.sheets[way.sheet].cost) / way.gives[k], i);
      }
      std::sort(order.begin(), order.end());
      for (const auto& [cost, i] : order) {
        const Column& way = columns_.all[i];
        const std::int64_t times = std::min(left[way.sheet], (wanted + way.gives[k] - 1) / way.gives[k]);
        left[way.sheet] -= times;
        wanted -= std::min<std::int64_t>(wanted, times * way.gives[k]);
        if (times > 0) ways.push_back({i, static_cast<int>(times)});
      }
    }
    take_ways(ways, first_looks);
  }

  void add_columns() {
    ColumnEffort effort;
    effort.deadline = deadline_;
    std::vector<Column> start;
    for (const Cut& cut : best_) start.push_back(cut.way);
    if (best_.empty()) start = ways_of_one_kind();
    columns_ = generate_columns(job_, start, best_.empty() ? no_cost_yet : cost_, effort);
    at_least_ = std::max(at_least_, columns_.at_least);
    if (best_.empty()) return;
    if (cost_ > at_least_)
      at_least_ = std::max(at_least_, std::min(cost_, least_cost_of_few(job_).value_or(0)));
    if (effort_.at_work) effort_.at_work(cost_, at_least_);
  }

  // Sheets cut in these ways; pieces beyond those wanted are given up, and what is still wanted is filled in.
  void take_ways(const std::vector<Times>& ways, std::int64_t looks) {
    std::vector<int> wanted;
    for (const Kind& kind : job_.kinds) wanted.push_back(kind.count);
    std::vector<Cut> plan;
    for (const Times& one : ways) {
      const Column& way = columns_.all[one.way];
      // As long as all that it gives is wanted.
      int whole = one.times;
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        if (way.gives[k] > 0) whole = std::min(whole, wanted[k] / way.gives[k]);
      }
      for (std::size_t k = 0; k < wanted.size(); ++k) wanted[k] -= whole * way.gives[k];
      if (whole > 0) plan.push_back({way, whole});
      for (int i = whole; i < one.times; ++i) {
        Column part = way;
        give_up_pieces(part.tree, wanted, job_.blade);
        if (part.tree.what == Part::What::waste) break;
        part.gives = pieces_in(part.tree, job_.kinds.size());
        plan.push_back({std::move(part)});
      }
    }
    fill_up(std::move(plan), wanted, looks);
  }

  // These sheets, and what is still wanted on others.
  void fill_up(std::vector<Cut> plan, const std::vector<int>& wanted, std::int64_t looks) {
    const std::int64_t left = number_of(wanted);
    if (left > most_to_fill) return;
    if (left > 0) {
      Job rest = job_;
      std::int64_t cost = 0;
      for (const Cut& cut : plan) {
        cost += job_.sheets[cut.way.sheet].cost * cut.times;
        if (auto& have = rest.sheets[cut.way.sheet].have) *have -= cut.times;
      }
      const auto filled = refill(rest, wanted, options(looks, at_least_ - cost));
      if (!filled) return;
      for (Cut& cut : cuts_of(*filled)) plan.push_back(std::move(cut));
    }
    take(std::move(plan));
  }

  void round_down() {
    std::vector<Times> ways;
    for (std::size_t i = 0; i < columns_.times.size(); ++i)
      ways.push_back({i, static_cast<int>(columns_.times[i] + 1e-6)});
    take_ways(ways, first_looks);
  }

  // Dives until they lead to nothing better, or have used so much; a dive that has begun may use more, but
  // not more than `most` in all. What they used.
  std::int64_t dive(std::int64_t looks, std::int64_t most) {
    if (!dives_) dives_.emplace(job_, deadline_);
    for (const Cut& cut : best_) dives_->add(cut.way);
    for (; dived_ < columns_.all.size(); ++dived_) dives_->add(columns_.all[dived_]);
    const std::int64_t before = dives_->looks();
    const auto used = [&] { return dives_->looks() - before; };
    while (!is_settled() && used() < std::min(looks, most)) {
      auto dive =
          dives_->next(best_.empty() ? no_cost_yet : cost_, std::min(2 * (looks - used()), most - used()));
      if (!dive) break;
      fill_up(std::move(dive->cuts), dive->left, first_looks);
    }
    return used();
  }

  void whole_columns() {
    const auto times =
        whole_times(job_, columns_.all, best_.empty() ? no_cost_yet : cost_,
                    std::max(10, looks_at_whole_times / static_cast<int>(columns_.all.size() + 1)));
    if (!times) return;
    std::vector<Times> ways;
    for (std::size_t i = 0; i < times->size(); ++i) ways.push_back({i, (*times)[i]});
    take_ways(ways, first_looks);
  }

  // Sheets cut alike together.
  [[nodiscard]] std::vector<Layout> layouts() const {
    std::vector<Layout> layouts;
    std::map<std::pair<std::size_t, std::vector<Measure>>, std::size_t> known;
    for (const Cut& cut : best_) {
      const auto [at, is_new] =
          known.emplace(std::pair(cut.way.sheet, signature(cut.way.tree)), layouts.size());
      if (is_new) {
        layouts.push_back({cut.way.sheet, cut.times, cut.way.tree});
      } else {
        layouts[at->second].times += cut.times;
      }
    }
    return layouts;
  }

  Job job_;
  const Effort& effort_;
  std::chrono::steady_clock::time_point deadline_;
  std::vector<Cut> best_;
  std::int64_t cost_ = 0;
  std::int64_t at_least_ = 0;
  Columns columns_;
  std::optional<Dives> dives_;
  std::size_t dived_ = 0;  // of columns_.all: known to the dives
};

}  // namespace

bool fits(const Kind& kind, const Sheet& sheet, const Job& job) {
  return fits_with(kind, sheet, limits_of(job), job.blade);
}

bool can_hold(const Job& job, std::size_t kind, std::size_t sheet) {
  CutLimits limits = limits_of(job);
  if (fits_with(job.kinds[kind], job.sheets[sheet], limits, job.blade)) return true;
  limits.least_trim = 0;
  if (!fits_with(job.kinds[kind], job.sheets[sheet], limits, job.blade)) return false;
  BestSheet best(job, sheet);
  if (!best.is_possible() || !best.is_strict()) return true;
  std::vector<std::int32_t> worths(job.kinds.size(), 0);
  worths[kind] = 1;
  return best.most(worths) > 0;
}

std::optional<SheetPlan> plan_sheets(const Job& job, const Effort& effort) {
  return Planning(job, effort).run();
}

}  // namespace evenmat::cutting
