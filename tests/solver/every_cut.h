// Oracles for jobs on a grid so small that every cut can be tried at every whole step of it: what one sheet
// can be worth, what sets of pieces it can give, and what all pieces cost at least. Nothing of a planner's
// ideas.
#pragma once

#include <algorithm>
#include <bitset>
#include <cstdint>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

#include "tests/solver/cut_jobs.h"

namespace evenmat::testing {

// What comes of every rectangle up to a sheet's size, in values that a way of counting knows: `none()` where
// there is no piece, `piece(kind)`, `either(into, value)`, and `both(into, one, other)` where they lie side
// by side. A trim may lie on one side of a cut only: what is cut off a trim would be one with it.
template <typename Counting>
class EveryCut {
 public:
  using Value = typename Counting::Value;

  EveryCut(const Job& job, std::size_t on, const Counting& counting)
      : job_(job), sheet_(job.sheets[on]), counting_(counting) {
    for (Measure width = 1; width <= sheet_.width; ++width) {
      for (Measure height = 1; height <= sheet_.height; ++height) known_.push_back(all_of(width, height));
    }
  }

  [[nodiscard]] Value of_sheet() const { return known_.back(); }

 private:
  [[nodiscard]] const Value& at(Measure width, Measure height) const {
    return known_[static_cast<std::size_t>((width - 1) * sheet_.height + height - 1)];
  }

  [[nodiscard]] Value all_of(Measure width, Measure height) const {
    Value all = counting_.none();
    for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
      if (is_piece(job_.kinds[k], width, height)) counting_.either(all, counting_.piece(k));
    }
    for (const bool across : {false, true}) {
      const Measure length = across ? height : width;
      if (job_.longest > 0 && (across ? width : height) > job_.longest) continue;
      const auto part = [&](Measure size) -> const Value& {
        return across ? at(width, size) : at(size, height);
      };
      for (Measure one = 1; one + job_.blade <= length; ++one) {
        const Measure other = length - one - job_.blade;
        if (may_be_trim(other, job_)) counting_.either(all, part(one));
        if (other > 0) counting_.both(all, part(one), part(other));
      }
    }
    return all;
  }

  [[nodiscard]] bool is_piece(const Kind& kind, Measure width, Measure height) const {
    if (sheet_.offcut && !kind.from_offcuts) return false;
    return (kind.upright && kind.width == width && kind.height == height) ||
           (kind.turned && kind.width == height && kind.height == width);
  }

  const Job& job_;
  const Sheet& sheet_;
  const Counting& counting_;
  std::vector<Value> known_;  // by width, then height
};

// The most that pieces are worth together, each as often as it is there.
class CountWorth {
 public:
  using Value = std::int32_t;
  explicit CountWorth(const std::vector<std::int32_t>& worths) : worths_(worths) {}

  [[nodiscard]] static Value none() { return -1; }
  [[nodiscard]] Value piece(std::size_t kind) const { return worths_[kind]; }
  static void either(Value& into, Value value) { into = std::max(into, value); }
  static void both(Value& into, Value one, Value other) {
    if (one >= 0 && other >= 0) into = std::max(into, one + other);
  }

 private:
  const std::vector<std::int32_t>& worths_;
};
inline std::int32_t most_worth(const Job& job, std::size_t on, const std::vector<std::int32_t>& worths) {
  return std::max(0, EveryCut(job, on, CountWorth(worths)).of_sheet());
}

// All sets of pieces within those that a job asks for. A set is a number: how many of each kind, as digits.
class CountSets {
 public:
  using Value = std::bitset<1024>;

  explicit CountSets(const Job& job) {
    int all = 1;
    for (const Kind& kind : job.kinds) {
      digits_.push_back(static_cast<std::size_t>(all));
      all *= kind.count + 1;
    }
    REQUIRE(all <= static_cast<int>(Value().size()));
    for (int set = 0; set < all; ++set) {
      sets_.emplace_back();
      int left = set;
      for (const Kind& kind : job.kinds) {
        sets_.back().push_back(left % (kind.count + 1));
        left /= kind.count + 1;
      }
    }
    for (std::size_t one = 0; one < sets_.size(); ++one) {
      for (std::size_t other = 0; other < sets_.size(); ++other) {
        const std::vector<int> sum = plus(sets_[one], sets_[other]);
        const bool within = std::equal(sum.begin(), sum.end(), job.kinds.begin(),
                                       [](int count, const Kind& kind) { return count <= kind.count; });
        sums_.push_back(within ? one + other : 0);
      }
    }
  }

  [[nodiscard]] static Value none() { return {}; }
  [[nodiscard]] Value piece(std::size_t kind) const { return Value().set(digits_[kind]); }
  static void either(Value& into, const Value& value) { into |= value; }
  void both(Value& into, const Value& one, const Value& other) const {
    for (std::size_t a = 1; a < sets_.size() && other.any(); ++a) {
      if (!one[a]) continue;
      for (std::size_t b = 1; b < sets_.size(); ++b) {
        if (const std::size_t sum = sums_[a * sets_.size() + b]; other[b] && sum > 0) into.set(sum);
      }
    }
  }

  // The counts of each set.
  [[nodiscard]] const std::vector<std::vector<int>>& sets() const { return sets_; }

 private:
  std::vector<std::size_t> digits_;
  std::vector<std::vector<int>> sets_;
  std::vector<std::size_t> sums_;  // of two sets that are not empty; 0: more than is asked for
};

// The least that all pieces of a job can cost, by every set of pieces that a sheet can give.
class EveryPlan {
 public:
  explicit EveryPlan(const Job& job) : job_(job), counting_(job) {
    for (std::size_t s = 0; s < job.sheets.size(); ++s)
      given_.push_back(EveryCut(job, s, counting_).of_sheet());
  }

  // What one sheet can give, within what is asked for, each as counts of the kinds; never nothing.
  [[nodiscard]] std::vector<std::vector<int>> given(std::size_t on) const {
    std::vector<std::vector<int>> all;
    for (std::size_t set = 0; set < counting_.sets().size(); ++set) {
      if (given_[on][set]) all.push_back(counting_.sets()[set]);
    }
    return all;
  }

  // Nothing where there is no plan.
  [[nodiscard]] std::optional<std::int64_t> least_cost() const {
    const auto counts = counts_of(job_);
    const int all = std::accumulate(counts.begin(), counts.end(), 0);
    // Of each set: what it costs, from the sheets seen so far.
    std::vector<std::optional<std::int64_t>> cost(counting_.sets().size());
    cost[0] = 0;
    for (std::size_t s = 0; s < job_.sheets.size(); ++s) {
      for (int i = 0; i < job_.sheets[s].have.value_or(all); ++i) {
        auto next = cost;
        for (std::size_t set = 0; set < cost.size(); ++set) {
          if (cost[set]) one_more(s, set, *cost[set], next);
        }
        if (next == cost) break;
        cost = std::move(next);
      }
    }
    return cost.back();
  }

 private:
  void one_more(std::size_t on, std::size_t set, std::int64_t cost,
                std::vector<std::optional<std::int64_t>>& out) const {
    CountSets::Value all = given_[on];
    if (set > 0) {
      all.reset();
      counting_.both(all, CountSets::Value().set(set), given_[on]);
    }
    for (std::size_t sum = 1; sum < out.size(); ++sum) {
      if (all[sum] && (!out[sum] || *out[sum] > cost + job_.sheets[on].cost))
        out[sum] = cost + job_.sheets[on].cost;
    }
  }

  const Job& job_;
  CountSets counting_;
  std::vector<CountSets::Value> given_;  // of each sheet
};

}  // namespace evenmat::testing
