// Which of many points of a space comes out of its paper best: what their paper comes to, looked at on every
// core, and what is proven by that. Chooses no places.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "solver/costs/paper_costs.h"
#include "solver/explore/space.h"
#include "solver/fit/price.h"

namespace evenmat::exploring {

// Cards of a space as far as cutting them goes.
class CutPoints {
 public:
  // All must outlive it.
  CutPoints(const Card& card, const Space& space, PaperCosts& papers,
            std::chrono::steady_clock::time_point until);

  [[nodiscard]] bool is_late() const { return std::chrono::steady_clock::now() >= until_; }

  // Whole, where it is cut from offcuts whose size depends on places. Nothing when time ran out.
  [[nodiscard]] std::optional<SizedCard> cut_of(const Amounts& point) const;

  // Nothing when time ran out.
  [[nodiscard]] std::optional<std::vector<PricedPaper>> priced(const Amounts& point) const;

  [[nodiscard]] std::chrono::steady_clock::time_point until() const { return until_; }
  [[nodiscard]] bool by_cost() const { return by_cost_; }
  [[nodiscard]] PaperCosts& papers() const { return papers_; }

 private:
  const Space& space_;
  PaperCosts& papers_;
  const std::chrono::steady_clock::time_point until_;
  bool by_cost_ = false;
  bool places_matter_ = false;
};

struct Cheapest {
  std::size_t point = 0;
  Price price;
  std::vector<std::optional<Price>> prices;  // of each point, or the least it could be where it was left
  Price at_least;                            // no point is had for less
  int sheets_at_least = 0;                   // likewise
  bool time_ran_out = false;
};

// Of equals the first. `bound`: none is had for less. The first point is always looked at. Pre: there is one.
// `so_far` is called from any thread, one at a time, with how many were looked at.
Cheapest cheapest_of(const std::vector<Amounts>& points, const CutPoints& cards, const Price& bound,
                     int sheets_bound, const std::function<void(std::size_t)>& so_far);

// The first that comes out of the paper there is; nothing when none does. `all_known` becomes false when time
// ran out before that was known, or where a plan was neither found nor ruled out.
std::optional<std::size_t> first_that_comes_out(const std::vector<Amounts>& points, const CutPoints& cards,
                                                bool& all_known);

}  // namespace evenmat::exploring
