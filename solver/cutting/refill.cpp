#include "solver/cutting/refill.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

#include "solver/cutting/dice.h"

namespace evenmat::cutting {
namespace {

constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max();
constexpr std::size_t memory_of_values = 500;  // how long ago a value is still good enough
constexpr std::uint64_t blinks_in = 30;        // one in so many spots is overlooked
constexpr std::int64_t looks_an_attempt = 50;  // what it takes beside looking
constexpr std::int64_t rounds_between_looks_at_the_clock = 64;

class Search {
 public:
  Search(const Job& job, const RefillOptions& options)
      : job_(job),
        options_(options),
        limits_(limits_of(job)),
        dice_(options.seed),
        used_(job.sheets.size(), 0) {
    for (const Kind& kind : job.kinds) area_.push_back((kind.width + job.blade) * (kind.height + job.blade));
  }

  std::optional<Filling> run(const std::vector<int>& counts, const std::optional<Filling>& start) {
    if (start) {
      sheets_ = start->sheets;
      for (const FilledSheet& sheet : sheets_) open(sheet.sheet());
    } else {
      for (std::size_t k = 0; k < counts.size(); ++k) {
        for (int i = 0; i < counts[k]; ++i) leave_out(k);
      }
      put_back(0);
    }
    std::optional<Filling> best;
    if (left_out_.empty()) {
      if (is_of_use()) best = keep();
      lower_goal();
    } else {
      goal_ = options_.below ? std::min(cost_, *options_.below - 1) : cost_;
    }
    history_.assign(memory_of_values, value());
    looks_ = 0;
    for (std::int64_t round = 0; looks_ < options_.looks; ++round) {
      if (best && best->cost <= options_.at_least) break;
      if (options_.deadline && round % rounds_between_looks_at_the_clock == 0 &&
          std::chrono::steady_clock::now() >= *options_.deadline) {
        break;
      }
      attempt(round);
      if (left_out_.empty() && (!best || cost_ < best->cost)) {
        best = keep();
        if (options_.better) options_.better(best->cost);
        lower_goal();
        history_.assign(memory_of_values, value());
      }
    }
    return best;
  }

 private:
  void leave_out(std::size_t kind) {
    left_out_.push_back(kind);
    left_area_ += area_[kind];
  }
  void open(std::size_t sheet) {
    cost_ += job_.sheets[sheet].cost;
    ++used_[sheet];
  }
  void close(std::size_t sheet) {
    cost_ -= job_.sheets[sheet].cost;
    --used_[sheet];
  }

  [[nodiscard]] bool is_of_use() const { return !options_.below || cost_ < *options_.below; }

  [[nodiscard]] std::int64_t value() const { return left_area_; }

  [[nodiscard]] Filling keep() const {
    Filling filling{{}, cost_};
    for (const FilledSheet& sheet : sheets_) {
      if (!sheet.is_empty()) filling.sheets.push_back(sheet);
    }
    return filling;
  }

  // One cheaper than now: sheets are emptied, the emptiest first, until it is reached.
  void lower_goal() {
    goal_ = is_of_use() ? cost_ - 1 : *options_.below - 1;
    while (cost_ > goal_) {
      std::size_t emptiest = sheets_.size();
      for (std::size_t i = 0; i < sheets_.size(); ++i) {
        if (sheets_[i].is_empty() || job_.sheets[sheets_[i].sheet()].cost == 0) continue;
        if (emptiest == sheets_.size() || sheets_[i].filled() < sheets_[emptiest].filled()) emptiest = i;
      }
      if (emptiest == sheets_.size()) return;
      empty(emptiest, 0);
    }
  }

  void empty(std::size_t index, int node) {
    FilledSheet& sheet = sheets_[index];
    taken_.clear();
    sheet.take(node, limits_, taken_);
    for (const std::size_t kind : taken_) leave_out(kind);
    if (sheet.is_empty()) close(sheet.sheet());
  }

  // Before a sheet is changed.
  void remember(std::size_t index) {
    for (std::size_t i = 0; i < remembered_; ++i) {
      if (before_[i].first == index) return;
    }
    if (remembered_ == before_.size()) before_.emplace_back();
    before_[remembered_].first = index;
    before_[remembered_].second = sheets_[index];
    ++remembered_;
  }

  void attempt(std::int64_t round) {
    looks_ += looks_an_attempt;
    remembered_ = 0;
    left_before_ = left_out_;
    const std::int64_t area_before = left_area_;
    const std::int64_t cost_before = cost_;
    used_before_ = used_;
    const std::size_t sheets_before = sheets_.size();
    const std::int64_t value_before = value();

    ruin();
    put_back(goal_);

    std::int64_t& long_ago = history_[static_cast<std::size_t>(round) % history_.size()];
    const std::int64_t now = value();
    if (now <= value_before || now <= long_ago) {
      long_ago = now;
      for (std::size_t i = 0; options_.seen && i < remembered_; ++i) {
        const FilledSheet& sheet = sheets_[before_[i].first];
        if (!sheet.is_empty()) options_.seen(sheet);
      }
      return;
    }
    for (std::size_t i = 0; i < remembered_; ++i) std::swap(sheets_[before_[i].first], before_[i].second);
    sheets_.resize(sheets_before);
    left_out_ = left_before_;
    left_area_ = area_before;
    cost_ = cost_before;
    used_ = used_before_;
    if (value_before < long_ago) long_ago = value_before;
  }

  void ruin() {
    full_.clear();
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      if (!sheets_[i].is_empty()) full_.push_back(i);
    }
    if (full_.empty()) return;
    const std::uint64_t times = 1 + dice_.roll(3);
    for (std::uint64_t i = 0; i < times; ++i) {
      const std::size_t index = full_[dice_.roll(full_.size())];
      if (sheets_[index].is_empty()) continue;
      remember(index);
      const int nodes = sheets_[index].node_count();
      const int node =
          dice_.roll(8) == 0 ? 0 : static_cast<int>(dice_.roll(static_cast<std::uint64_t>(nodes)));
      empty(index, node);
    }
  }

  // The order in which pieces are put back: mostly the large ones first.
  void order_left_out() {
    keys_.clear();
    const std::uint64_t way = dice_.roll(8);
    for (const std::size_t kind : left_out_) {
      const Kind& one = job_.kinds[kind];
      const std::int64_t size = way < 4   ? area_[kind]
                                : way < 6 ? std::max(one.width, one.height)
                                : way < 7 ? one.width + one.height
                                          : 64;
      keys_.emplace_back(size * static_cast<std::int64_t>(52 + dice_.roll(way == 7 ? 64 : 13)), kind);
    }
    std::sort(keys_.begin(), keys_.end(), [](const auto& a, const auto& b) {
      return a.first > b.first || (a.first == b.first && a.second < b.second);
    });
  }

  // `goal` 0: at any cost.
  void put_back(std::int64_t goal) {
    if (goal == 0) goal = no_limit;
    order_left_out();
    left_out_.clear();
    left_area_ = 0;
    for (const auto& [key, kind] : keys_) {
      if (!put_in(kind) && !put_in_new(kind, goal)) leave_out(kind);
    }
  }

  template <typename Offer>
  void spots_in(const FilledSheet& sheet, const Kind& kind, const Offer& offer) {
    looks_ += sheet.room_count();
    if (job_.sheets[sheet.sheet()].offcut && !kind.from_offcuts) return;
    const Measure width = kind.width + job_.blade;
    const Measure height = kind.height + job_.blade;
    if (kind.upright) sheet.spots(width, height, false, limits_, offer);
    if (kind.turned && (width != height || !kind.upright)) sheet.spots(height, width, true, limits_, offer);
  }

  bool put_in(std::size_t kind) {
    Spot best;
    std::size_t where = sheets_.size();
    best.loss = no_limit;
    const Measure shorter = std::min(job_.kinds[kind].width, job_.kinds[kind].height) + job_.blade;
    const Measure longer = std::max(job_.kinds[kind].width, job_.kinds[kind].height) + job_.blade;
    looks_ += static_cast<std::int64_t>(sheets_.size());
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      if (!sheets_[i].has_room(shorter, longer) || sheets_[i].is_empty()) continue;
      spots_in(sheets_[i], job_.kinds[kind], [&](const Spot& spot) {
        if (spot.loss < best.loss && dice_.roll(blinks_in) != 0) {
          best = spot;
          where = i;
        }
      });
    }
    if (where == sheets_.size()) return false;
    remember(where);
    sheets_[where].put(best, kind);
    return true;
  }

  // Opens a sheet for it: one that costs nothing if there is one, else any.
  bool put_in_new(std::size_t kind, std::int64_t goal) {
    Spot best;
    std::size_t size = job_.sheets.size();
    std::uint64_t among = 0;
    for (std::size_t s = 0; s < job_.sheets.size(); ++s) {
      const Sheet& sheet = job_.sheets[s];
      if (cost_ + sheet.cost > goal || (sheet.have && used_[s] >= *sheet.have)) continue;
      const FilledSheet fresh(s, sheet.width + job_.blade, sheet.height + job_.blade);
      Spot spot;
      spot.loss = no_limit;
      spots_in(fresh, job_.kinds[kind], [&](const Spot& one) {
        // At times the worse of two: there are sheets that cannot be begun otherwise.
        const bool at_times = goal != no_limit && dice_.roll(blinks_in) == 0;
        if (one.loss < spot.loss || (one.loss == spot.loss && dice_.roll(2) == 0) || at_times) spot = one;
      });
      if (spot.node < 0) continue;
      if (size < job_.sheets.size() && job_.sheets[size].cost == 0 && sheet.cost > 0) continue;
      if (dice_.roll(++among) == 0) {
        best = spot;
        size = s;
      }
    }
    if (size == job_.sheets.size()) return false;
    auto slot = static_cast<std::size_t>(
        std::find_if(sheets_.begin(), sheets_.end(), [](const FilledSheet& one) { return one.is_empty(); }) -
        sheets_.begin());
    if (slot == sheets_.size()) {
      sheets_.emplace_back();
    } else {
      remember(slot);
    }
    sheets_[slot] =
        FilledSheet(size, job_.sheets[size].width + job_.blade, job_.sheets[size].height + job_.blade);
    sheets_[slot].put(best, kind);
    open(size);
    return true;
  }

  const Job& job_;
  const RefillOptions& options_;
  CutLimits limits_;
  Dice dice_;
  std::vector<std::int64_t> area_;

  std::vector<FilledSheet> sheets_;
  std::vector<int> used_;
  std::int64_t cost_ = 0;
  std::int64_t goal_ = 0;
  std::int64_t looks_ = 0;
  std::vector<std::size_t> left_out_;
  std::int64_t left_area_ = 0;

  std::vector<std::int64_t> history_;
  // Of the attempt under way: the sheets that it has changed, as they were, and what else it changes.
  std::vector<std::pair<std::size_t, FilledSheet>> before_;
  std::size_t remembered_ = 0;
  std::vector<std::size_t> left_before_;
  std::vector<int> used_before_;
  std::vector<std::size_t> taken_, full_;
  std::vector<std::pair<std::int64_t, std::size_t>> keys_;
};

}  // namespace

std::optional<Filling> refill(const Job& job, const std::vector<int>& counts, const RefillOptions& options,
                              const std::optional<Filling>& start) {
  return Search(job, options).run(counts, start);
}

}  // namespace evenmat::cutting
