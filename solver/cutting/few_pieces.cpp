#include "solver/cutting/few_pieces.h"

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

namespace evenmat::cutting {
namespace {

constexpr std::int64_t most_lots = 1200;
constexpr std::int64_t most_steps = 3'000'000;
constexpr std::int64_t never = std::numeric_limits<std::int64_t>::max() / 4;

using Box = std::pair<Measure, Measure>;  // width and height, with the blade's loss

// Lots are numbered by how many of each kind they hold, as digits: two lots that share no piece too many are
// added by adding their numbers.
class Lots {
 public:
  explicit Lots(const Job& job) : job_(job) {
    for (const Kind& kind : job.kinds) {
      places_.push_back(count_);
      count_ *= kind.count + 1;
      if (count_ > most_lots) return;
    }
  }
  [[nodiscard]] bool is_too_many() const { return count_ > most_lots; }

  // Of every lot the rectangles that hold it and into which no other that does would fit.
  bool build(bool offcuts) {
    Measure widest = 0;
    Measure highest = 0;
    for (const Sheet& sheet : job_.sheets) {
      if (sheet.offcut != offcuts) continue;
      widest = std::max(widest, sheet.width + job_.blade);
      highest = std::max(highest, sheet.height + job_.blade);
    }
    boxes_.assign(static_cast<std::size_t>(count_), {});
    for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
      const Kind& kind = job_.kinds[k];
      if (offcuts && !kind.from_offcuts) continue;
      auto& boxes = boxes_[static_cast<std::size_t>(places_[k])];
      const Measure width = kind.width + job_.blade;
      const Measure height = kind.height + job_.blade;
      if (kind.upright && width <= widest && height <= highest) boxes.emplace_back(width, height);
      if (kind.turned && height <= widest && width <= highest) boxes.emplace_back(height, width);
    }
    std::int64_t steps = 0;
    for (std::int64_t lot = 1; lot < count_; ++lot) {
      auto& boxes = boxes_[static_cast<std::size_t>(lot)];
      for_parts(lot, [&](std::int64_t part) {
        const std::int64_t other = lot - part;
        if (part == 0 || part > other) return;
        const auto& some = boxes_[static_cast<std::size_t>(part)];
        const auto& rest = boxes_[static_cast<std::size_t>(other)];
        steps += static_cast<std::int64_t>(some.size() * rest.size()) + 1;
        if (steps > most_steps) return;
        for (const Box& a : some) {
          for (const Box& b : rest) {
            const Box beside{a.first + b.first, std::max(a.second, b.second)};
            const Box below{std::max(a.first, b.first), a.second + b.second};
            if (beside.first <= widest && beside.second <= highest) boxes.push_back(beside);
            if (below.first <= widest && below.second <= highest) boxes.push_back(below);
          }
        }
      });
      if (steps > most_steps) return false;
      keep_smallest(boxes);
    }
    return true;
  }

  // Whether one such sheet can give the lot.
  [[nodiscard]] bool fits(std::int64_t lot, const Sheet& sheet) const {
    const auto& boxes = boxes_[static_cast<std::size_t>(lot)];
    return std::any_of(boxes.begin(), boxes.end(), [&](const Box& box) {
      return box.first <= sheet.width + job_.blade && box.second <= sheet.height + job_.blade;
    });
  }

  // Calls `take` with every lot that is part of `lot`, none and all of it among them.
  template <typename Take>
  void for_parts(std::int64_t lot, const Take& take) const {
    std::vector<std::int64_t> digits(places_.size(), 0);
    std::int64_t part = 0;
    while (true) {
      take(part);
      std::size_t k = 0;
      for (; k < places_.size(); ++k) {
        if (digits[k] < lot / places_[k] % (job_.kinds[k].count + 1)) {
          ++digits[k];
          part += places_[k];
          break;
        }
        part -= digits[k] * places_[k];
        digits[k] = 0;
      }
      if (k == places_.size()) return;
    }
  }

  [[nodiscard]] std::int64_t count() const { return count_; }

 private:
  static void keep_smallest(std::vector<Box>& boxes) {
    std::sort(boxes.begin(), boxes.end());
    std::vector<Box> kept;
    for (const Box& box : boxes) {
      if (kept.empty() || box.second < kept.back().second) kept.push_back(box);
    }
    boxes = std::move(kept);
  }

  const Job& job_;
  std::vector<std::int64_t> places_;
  std::int64_t count_ = 1;
  std::vector<std::vector<Box>> boxes_;
};

}  // namespace

std::optional<std::int64_t> least_cost_of_few(const Job& job) {
  Lots lots(job);
  if (lots.is_too_many()) return {};
  std::int64_t steps = 0;
  std::int64_t pieces = 0;
  for (const Kind& kind : job.kinds) pieces += kind.count;
  // The least cost of what is left of all pieces, sheet after sheet.
  std::vector<std::int64_t> least(static_cast<std::size_t>(lots.count()), never);
  least.back() = 0;
  for (const bool offcuts : {true, false}) {
    if (std::none_of(job.sheets.begin(), job.sheets.end(),
                     [&](const Sheet& one) { return one.offcut == offcuts; }))
      continue;
    if (!lots.build(offcuts)) return {};
    for (const Sheet& sheet : job.sheets) {
      if (sheet.offcut != offcuts) continue;
      std::vector<bool> given(least.size(), false);
      for (std::int64_t lot = 1; lot < lots.count(); ++lot)
        given[static_cast<std::size_t>(lot)] = lots.fits(lot, sheet);
      const std::int64_t times = sheet.have ? std::min<std::int64_t>(*sheet.have, pieces) : pieces;
      for (std::int64_t i = 0; i < times; ++i) {
        // Before this sheet; a lot is only made smaller by it, so it is never counted twice.
        bool better = false;
        for (std::int64_t lot = 1; lot < lots.count(); ++lot) {
          const std::int64_t now = least[static_cast<std::size_t>(lot)];
          if (now >= never) continue;
          lots.for_parts(lot, [&](std::int64_t part) {
            ++steps;
            if (!given[static_cast<std::size_t>(part)]) return;
            std::int64_t& then = least[static_cast<std::size_t>(lot - part)];
            if (now + sheet.cost >= then) return;
            then = now + sheet.cost;
            better = true;
          });
          if (steps > most_steps) return {};
        }
        if (!better) break;
      }
    }
  }
  return least.front();
}

}  // namespace evenmat::cutting
