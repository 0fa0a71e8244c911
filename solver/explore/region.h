// The points of a space in which every way of an entry of `rules` is taken: which values each amount may have
// by itself, and which of them go together. Chooses no places, makes no cards.
#pragma once

#include <chrono>
#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "solver/explore/amounts.h"
#include "solver/explore/reduced.h"
#include "solver/explore/walk.h"

namespace evenmat::exploring {

using Clock = std::chrono::steady_clock;

// The values of the open amounts, by place.
using Amounts = std::vector<Rational>;

// Which way is taken, by place of the amount.
using Taken = std::vector<std::pair<std::size_t, Rational>>;

class Region {
 public:
  // `system`: of the rules and the ways taken, settled. `farthest`: no amount is larger. Both must outlive
  // it, `amounts` too. Nothing when there are none.
  static std::unique_ptr<Region> of(const System& system, const std::vector<Amount>& amounts, Taken taken,
                                    const Rational& farthest, Clock::time_point until);
  ~Region();
  Region(const Region&) = delete;
  Region& operator=(const Region&) = delete;

  [[nodiscard]] const Taken& taken() const { return taken_; }
  [[nodiscard]] bool has(const Amounts& amounts) const;  // by the ways taken

  // A sum over the card's lengths, and what it comes to at a point; places that do not follow from the
  // amounts count as 0.
  [[nodiscard]] Sum reduced(const Sum& sum) const { return reduced_.of(sum); }
  [[nodiscard]] bool follows(const Sum& reduced) const { return reduced_.follows(reduced); }
  [[nodiscard]] std::vector<Rational> values_at(const Amounts& amounts) const;
  // No point has less; nothing where there are no points.
  [[nodiscard]] std::optional<Rational> least(const Sum& sum) const;

  // Adds up to `most` of them to `found`, ascending. False when it left any out, or may have: where finding
  // places for each takes long, no more are asked about than `most_asked`.
  bool list(std::size_t most, std::vector<Amounts>& found);
  // Adds up to `most` of those whose amounts lie between these two, ends included, ascending.
  void between(const Amounts& a, const Amounts& b, std::size_t most, std::vector<Amounts>& found);
  // Adds points that are spread evenly over all, about as many as `most` at best, with the ends of every
  // amount.
  void spread(std::size_t most, std::vector<Amounts>& found);

  static constexpr std::size_t most_asked = 4000;

 private:
  class Rest;
  Region(Reduced reduced, const std::vector<Amount>& amounts, Taken taken, Rational mark,
         Clock::time_point until);
  void lay_axes(const Rational& farthest);
  void add_tests();
  void add_choice(const OpenChoice& choice);
  void add_rest(const Block& block);
  Axis axis_of(const Amount& amount, const Interval& range, const Rational& farthest);
  [[nodiscard]] std::size_t last_axis(const Sum& sum) const;
  [[nodiscard]] Rational value(const Sum& sum, const Place& place) const;
  [[nodiscard]] Amounts amounts_at(const Place& place) const;
  std::size_t collect(const Walk::Choice& choice, std::size_t most, std::vector<Amounts>* found);
  [[nodiscard]] bool may_go_on() const { return asked_ < most_asked && Clock::now() < until_; }

  Reduced reduced_;
  const std::vector<Amount>& amounts_;
  Taken taken_;
  Rational mark_;
  Clock::time_point until_;
  std::vector<Sum> in_free_;       // each amount, in terms of those that others follow from
  std::vector<std::size_t> axis_;  // by place among the amounts; of those that follow from others none
  std::optional<Walk> walk_;       // nothing where the numbers are too fine
  std::vector<std::unique_ptr<Rest>> rest_;
  std::size_t asked_ = 0;
  bool all_values_ = true;  // false where an axis would have more than can be listed
};

}  // namespace evenmat::exploring
