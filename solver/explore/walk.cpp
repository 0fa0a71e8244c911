#include "solver/explore/walk.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <utility>

namespace evenmat::exploring {
namespace {

using boost::multiprecision::denominator;
using boost::multiprecision::numerator;

// Sums of as many numbers as there may be axes stay within 128 bits.
const Integer too_large = Integer(1) << 100;
constexpr Wide most_wide = std::numeric_limits<std::int64_t>::max() * (Wide(1) << 60);

}  // namespace

std::optional<Walk> Walk::over(std::vector<Axis> axes, const std::vector<AxisSum>& at_most_zero) {
  Walk walk;
  walk.axes_ = std::move(axes);
  for (const AxisSum& sum : at_most_zero) {
    Integer scale = denominator(sum.constant);
    for (std::size_t axis = 0; axis < walk.axes_.size(); ++axis) {
      if (sum.factors[axis] == 0) continue;
      for (const Rational& value : walk.axes_[axis].values)
        scale = lcm(scale, denominator(Rational(sum.factors[axis] * value)));
    }
    const auto whole = [&](const Rational& value) -> std::optional<Wide> {
      const Integer scaled = numerator(Rational(value * scale));
      if (abs(scaled) >= too_large) return std::nullopt;
      return wide_of(value, scale);
    };
    Line line;
    const auto constant = whole(sum.constant);
    if (!constant) return std::nullopt;
    line.constant = *constant;
    line.adds.resize(walk.axes_.size());
    for (std::size_t axis = 0; axis < walk.axes_.size(); ++axis) {
      for (const Rational& value : walk.axes_[axis].values) {
        const auto adds = whole(sum.factors[axis] * value);
        if (!adds) return std::nullopt;
        line.adds[axis].push_back(*adds);
      }
    }
    walk.lines_.push_back(std::move(line));
  }
  return walk;
}

Walk::Choice Walk::all() const {
  Choice choice;
  for (const Axis& axis : axes_) {
    std::vector<std::size_t> every(axis.values.size());
    for (std::size_t i = 0; i < every.size(); ++i) every[i] = i;
    choice.push_back(std::move(every));
  }
  const auto least = [&](const Line& line, std::size_t axis) {
    Wide found = most_wide;
    for (const std::size_t i : choice[axis]) found = std::min(found, line.adds[axis][i]);
    return found;
  };
  for (bool changed = true; changed;) {
    changed = false;
    for (const Line& line : lines_) {
      Wide all_least = line.constant;
      for (std::size_t axis = 0; axis < axes_.size(); ++axis) {
        if (choice[axis].empty()) return choice;
        all_least += least(line, axis);
      }
      for (std::size_t axis = 0; axis < axes_.size(); ++axis) {
        const Wide others = all_least - least(line, axis);
        changed =
            std::erase_if(choice[axis], [&](std::size_t i) { return others + line.adds[axis][i] > 0; }) > 0 ||
            changed;
        if (choice[axis].empty()) return choice;
      }
    }
  }
  return choice;
}

// One walk with its choice: what is known at each depth.
struct Walk::Step {
  const Walk& walk;
  const Choice& choice;
  const std::function<bool(const Place&)>& visit;
  std::vector<std::vector<Wide>> rest;          // by line, by depth: what the axes from there on add at least
  std::vector<std::vector<std::size_t>> tests;  // by axis
  Place place;

  // False once `visit` said no.
  bool go(std::size_t depth, const std::vector<Wide>& sums) {  // NOLINT(misc-no-recursion)
    if (depth == walk.axes_.size()) return visit(place);
    std::vector<Wide> next(sums.size());
    for (const std::size_t value : choice[depth]) {
      bool possible = true;
      for (std::size_t line = 0; possible && line < sums.size(); ++line) {
        next[line] = sums[line] + walk.lines_[line].adds[depth][value];
        possible = next[line] + rest[line][depth + 1] <= 0;
      }
      if (!possible) continue;
      place[depth] = value;
      possible = std::all_of(tests[depth].begin(), tests[depth].end(),
                             [&](std::size_t test) { return walk.tests_[test].passes(place); });
      if (possible && !go(depth + 1, next)) return false;
    }
    return true;
  }
};

void Walk::each(const Choice& choice, const std::function<bool(const Place&)>& visit) const {
  if (std::any_of(choice.begin(), choice.end(), [](const auto& axis) { return axis.empty(); })) return;
  Step step{*this, choice, visit, {}, {}, Place(axes_.size(), 0)};
  std::vector<Wide> sums;
  for (const Line& line : lines_) {
    std::vector<Wide> rest(axes_.size() + 1, 0);
    for (std::size_t axis = axes_.size(); axis-- > 0;) {
      Wide least = most_wide;
      for (const std::size_t i : choice[axis]) least = std::min(least, line.adds[axis][i]);
      rest[axis] = rest[axis + 1] + least;
    }
    if (line.constant + rest[0] > 0) return;
    step.rest.push_back(std::move(rest));
    sums.push_back(line.constant);
  }
  step.tests.resize(axes_.size());
  for (std::size_t test = 0; test < tests_.size(); ++test) {
    if (!axes_.empty()) step.tests[std::min(tests_[test].last, axes_.size() - 1)].push_back(test);
  }
  if (axes_.empty() &&
      !std::all_of(tests_.begin(), tests_.end(), [&](const Test& test) { return test.passes(step.place); }))
    return;
  step.go(0, sums);
}

}  // namespace evenmat::exploring
