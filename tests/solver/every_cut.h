// Oracles for jobs on a grid so small that every cut can be tried at every whole step of it: what one sheet
// can be worth, what sets of pieces it can give, and what all pieces cost at least. Nothing of a planner's
// ideas.
#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

#include "tests/solver/cut_jobs.h"

namespace evenmat::testing {

// Every straight cut of a rectangle of this size, as the sizes on both sides of it; the mirrored one is left
// out. Calls `try_cut(one width, one height, other width, other height, whether the one may be a trim,
// whether the other may)`.
template <typename TryCut>
void each_cut(const Job& job, Measure width, Measure height, const TryCut& try_cut) {
  const auto is_trim = [&](Measure length) { return length >= least_trim(job); };
  for (Measure one = 1; (job.longest == 0 || height <= job.longest) && 2 * one + job.blade <= width; ++one) {
    const Measure other = width - job.blade - one;
    try_cut(one, height, other, height, is_trim(one), is_trim(other));
  }
  for (Measure one = 1; (job.longest == 0 || width <= job.longest) && 2 * one + job.blade <= height; ++one) {
    const Measure other = height - job.blade - one;
    try_cut(width, one, width, other, is_trim(one), is_trim(other));
  }
}

// Whether a piece of the kind is the whole of a rectangle of this size, on this sheet.
inline bool is_piece(const Kind& kind, const Sheet& on, Measure width, Measure height) {
  if (on.offcut && !kind.from_offcuts) return false;
  return (kind.upright && kind.width == width && kind.height == height) ||
         (kind.turned && kind.width == height && kind.height == width);
}

// The most that the pieces of one sheet can be worth, each as often as it is there.
class MostWorth {
 public:
  MostWorth(const Job& job, std::size_t on, std::vector<std::int32_t> worths)
      : job_(job), on_(job.sheets[on]), worths_(std::move(worths)) {
    for (Measure width = 1; width <= on_.width; ++width) {
      for (Measure height = 1; height <= on_.height; ++height) best_.push_back(best_of(width, height));
    }
  }

  [[nodiscard]] std::int32_t most() const { return std::max(0, best_.back()); }

 private:
  static constexpr std::int32_t nothing = -(1 << 29);

  [[nodiscard]] std::int32_t at(Measure width, Measure height) const {
    return best_[static_cast<std::size_t>((width - 1) * on_.height + height - 1)];
  }
  [[nodiscard]] std::int32_t best_of(Measure width, Measure height) const {
    std::int32_t best = nothing;
    for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
      if (is_piece(job_.kinds[k], on_, width, height)) best = std::max(best, worths_[k]);
    }
    each_cut(job_, width, height,
             [&](Measure w1, Measure h1, Measure w2, Measure h2, bool trim1, bool trim2) {
               const std::int32_t one = at(w1, h1);
               const std::int32_t other = at(w2, h2);
               if (one >= 0 && other >= 0) best = std::max(best, one + other);
               if (one >= 0 && trim2) best = std::max(best, one);
               if (other >= 0 && trim1) best = std::max(best, other);
             });
    return best;
  }

  const Job& job_;
  const Sheet& on_;
  std::vector<std::int32_t> worths_;
  std::vector<std::int32_t> best_;  // of each size that is at most the sheet's, by width, then height
};

// The least that all pieces of a job can cost, by every set of pieces that a sheet can give. Sets of pieces
// within those asked for are numbers: how many there are of each kind, as digits.
class EveryPlan {
 public:
  explicit EveryPlan(const Job& job) : job_(job) {
    int all = 1;
    for (const Kind& kind : job.kinds) all *= kind.count + 1;
    for (int set = 0; set < all; ++set) sets_.push_back(digits(set));
    for (std::size_t s = 0; s < job.sheets.size(); ++s) given_.push_back(given_by(job.sheets[s]));
  }

  // What one sheet can give, within what is asked for, each as counts of the kinds; never nothing.
  [[nodiscard]] std::vector<std::vector<int>> given(std::size_t on) const {
    std::vector<std::vector<int>> all;
    for (const int set : given_[on]) all.push_back(sets_[static_cast<std::size_t>(set)]);
    return all;
  }

  // Nothing where there is no plan.
  [[nodiscard]] std::optional<std::int64_t> least_cost() const {
    constexpr std::int64_t none = std::int64_t{1} << 40;
    std::vector<std::int64_t> cost(sets_.size(), none);
    cost[0] = 0;
    for (std::size_t s = 0; s < job_.sheets.size(); ++s) {
      const int have = job_.sheets[s].have.value_or(
          std::accumulate(job_.kinds.begin(), job_.kinds.end(), 0,
                          [](int sum, const Kind& kind) { return sum + kind.count; }));
      for (int i = 0; i < have; ++i) {
        std::vector<std::int64_t> next = cost;
        for (std::size_t set = 0; set < sets_.size(); ++set) {
          if (cost[set] == none) continue;
          for (const int more : given_[s]) {
            if (const auto sum = added(static_cast<int>(set), more)) {
              std::int64_t& there = next[static_cast<std::size_t>(*sum)];
              there = std::min(there, cost[set] + job_.sheets[s].cost);
            }
          }
        }
        if (next == cost) break;
        cost = std::move(next);
      }
    }
    return cost.back() == none ? std::nullopt : std::optional(cost.back());
  }

 private:
  using Sets = std::vector<int>;

  [[nodiscard]] std::vector<int> digits(int set) const {
    std::vector<int> counts;
    for (const Kind& kind : job_.kinds) {
      counts.push_back(set % (kind.count + 1));
      set /= kind.count + 1;
    }
    return counts;
  }
  [[nodiscard]] std::optional<int> added(int one, int other) const {
    const std::vector<int>& a = sets_[static_cast<std::size_t>(one)];
    const std::vector<int>& b = sets_[static_cast<std::size_t>(other)];
    for (std::size_t k = 0; k < a.size(); ++k) {
      if (a[k] + b[k] > job_.kinds[k].count) return {};
    }
    return one + other;
  }

  [[nodiscard]] Sets given_by(const Sheet& on) const {
    std::vector<Sets> by_size;
    const auto at = [&](Measure width, Measure height) -> const Sets& {
      return by_size[static_cast<std::size_t>((width - 1) * on.height + height - 1)];
    };
    for (Measure width = 1; width <= on.width; ++width) {
      for (Measure height = 1; height <= on.height; ++height) {
        std::vector<bool> known(sets_.size(), false);
        int digit = 1;
        for (const Kind& kind : job_.kinds) {
          if (is_piece(kind, on, width, height)) known[static_cast<std::size_t>(digit)] = true;
          digit *= kind.count + 1;
        }
        const auto mark = [&](const Sets& sets) {
          for (const int set : sets) known[static_cast<std::size_t>(set)] = true;
        };
        each_cut(job_, width, height,
                 [&](Measure w1, Measure h1, Measure w2, Measure h2, bool trim1, bool trim2) {
                   const Sets& one = at(w1, h1);
                   const Sets& other = at(w2, h2);
                   if (trim2) mark(one);
                   if (trim1) mark(other);
                   for (const int a : one) {
                     for (const int b : other) {
                       if (const auto sum = added(a, b)) known[static_cast<std::size_t>(*sum)] = true;
                     }
                   }
                 });
        Sets sets;
        for (std::size_t set = 1; set < known.size(); ++set) {
          if (known[set]) sets.push_back(static_cast<int>(set));
        }
        by_size.push_back(std::move(sets));
      }
    }
    return by_size.back();
  }

  const Job& job_;
  std::vector<std::vector<int>> sets_;
  std::vector<Sets> given_;  // of each sheet
};

}  // namespace evenmat::testing
