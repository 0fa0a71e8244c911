// Why the points tried are enough: each sum is a line over the interval. Total distance from 0 is convex
// and bends only where a line is 0. "The smallest raised, then the next" prefers x to y for every x between
// two equally good points and better ones, and where no two lines cross the lowest one that is not level
// can still be raised by moving; so the best point over the reals is a crossing or an end, and the best
// one on the marks is beside it.
#include "solver/search/one_variable.h"

#include <algorithm>

namespace evenmat {
namespace {

struct Line {
  Rational slope;
  Rational offset;
  [[nodiscard]] Rational at(const Rational& x) const { return slope * x + offset; }
};

std::vector<Line> lines_of(const std::vector<Sum>& sums) {
  std::vector<Line> lines;
  for (const Sum& sum : sums) {
    lines.push_back({sum.terms().empty() ? Rational(0) : sum.terms().front().factor, sum.constant()});
  }
  return lines;
}

// The points themselves, clipped to the interval, or the marks beside them, sorted.
std::vector<Rational> within(const System& system, const Block& block, const std::vector<Rational>& points) {
  const Variable variable = block.variables.front();
  const Interval& bound = system.bound(variable);
  std::vector<Rational> tried;
  const auto add = [&](Rational x) {
    if (bound.low && x < *bound.low) x = *bound.low;
    if (bound.high && x > *bound.high) x = *bound.high;
    tried.push_back(std::move(x));
  };
  for (const Rational& point : points) {
    if (system.is_whole(variable)) {
      add(round_down(point, system.mark()));
      add(round_up(point, system.mark()));
    } else {
      add(point);
    }
  }
  if (bound.low) add(*bound.low);
  if (bound.high) add(*bound.high);
  std::sort(tried.begin(), tried.end());
  tried.erase(std::unique(tried.begin(), tried.end()), tried.end());
  return tried;
}

}  // namespace

bool is_interval(const Block& block) {
  return block.variables.size() == 1 && block.choices.empty() && block.whole.empty();
}

Interval nearest_zero(const System& system, const Block& block, const std::vector<Sum>& sums) {
  const std::vector<Line> lines = lines_of(sums);
  std::vector<Rational> points;
  for (const Line& line : lines) {
    if (line.slope != 0) points.push_back(-line.offset / line.slope);
  }
  const auto total = [&](const Rational& x) {
    Rational distance = 0;
    for (const Line& line : lines) distance += abs(line.at(x));
    return distance;
  };
  Interval best;
  std::optional<Rational> least;
  for (const Rational& x : within(system, block, points)) {
    const Rational here = total(x);
    if (!least || here < *least) {
      least = here;
      best = {x, x};
    } else if (here == *least) {
      best.high = x;
    }
  }
  return best;
}

std::optional<Rational> raised_highest(const System& system, const Block& block,
                                       const std::vector<Sum>& raised, const std::vector<Sum>& in_order) {
  const Interval& bound = system.bound(block.variables.front());
  if (!bound.low || !bound.high) return std::nullopt;
  const std::vector<Line> lines = lines_of(raised);
  const std::vector<Line> ordered = lines_of(in_order);
  std::vector<Rational> points;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (std::size_t j = i + 1; j < lines.size(); ++j) {
      const Rational turn = lines[i].slope - lines[j].slope;
      if (turn != 0) points.push_back((lines[j].offset - lines[i].offset) / turn);
    }
  }
  std::optional<Rational> best;
  std::vector<Rational> best_rank;
  for (const Rational& x : within(system, block, points)) {
    std::vector<Rational> rank;
    for (const Line& line : lines) rank.push_back(line.at(x));
    std::sort(rank.begin(), rank.end());
    for (const Line& line : ordered) rank.push_back(line.at(x));
    if (!best || rank > best_rank) {
      best = x;
      best_rank = std::move(rank);
    }
  }
  return best;
}

}  // namespace evenmat
