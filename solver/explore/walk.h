// All points of a grid that satisfy relations of whole numbers, in order: one axis for each amount from which
// the others follow. Knows no card.
//
// Depth first. Of every relation it is known what the axes still open add to it at least, so a branch in
// which one cannot hold any more is left at once. Numbers are whole, in a unit fine enough for all of them.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "model/rational.h"
#include "solver/search/levels.h"

namespace evenmat::exploring {

using Place = std::vector<std::size_t>;  // on each axis: which of its values

struct Axis {
  std::vector<Rational> values;  // ascending
};

// A sum of factor * value over the axes, plus a constant.
struct AxisSum {
  std::vector<Rational> factors;  // by axis
  Rational constant;
};

class Walk {
 public:
  // Nothing when the numbers are too fine for 128 bits.
  static std::optional<Walk> over(std::vector<Axis> axes, const std::vector<AxisSum>& at_most_zero);

  // Asked once all axes up to `last` have a value: whether it may go on from here.
  struct Test {
    std::size_t last = 0;
    std::function<bool(const Place&)> passes;
  };
  void add(Test test) { tests_.push_back(std::move(test)); }

  // Only these values of each axis, ascending; else all.
  using Choice = std::vector<std::vector<std::size_t>>;
  [[nodiscard]] Choice all() const;  // those that no relation rules out by itself

  // Calls `visit` with each point, the first axis moving slowest, until it says no.
  void each(const Choice& choice, const std::function<bool(const Place&)>& visit) const;

  [[nodiscard]] const std::vector<Axis>& axes() const { return axes_; }

 private:
  struct Line {
    std::vector<std::vector<Wide>> adds;  // by axis, by value
    Wide constant = 0;
  };
  struct Step;

  std::vector<Axis> axes_;
  std::vector<Line> lines_;
  std::vector<Test> tests_;
};

}  // namespace evenmat::exploring
