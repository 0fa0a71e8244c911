#include "solver/explore/different.h"

#include <algorithm>
#include <cstdint>
#include <optional>

namespace evenmat::exploring {
namespace {

using boost::multiprecision::denominator;
using boost::multiprecision::numerator;

// Whole numbers of a unit fine enough for all of them. Totals of some hundred of them stay within 64 bits;
// absent when they might not.
std::optional<std::vector<std::vector<std::int64_t>>> in_whole_numbers(
    const std::vector<std::vector<Rational>>& all, const Integer& scale) {
  const Integer too_large = Integer(1) << 52;
  std::vector<std::vector<std::int64_t>> whole;
  for (const auto& one : all) {
    whole.emplace_back();
    for (const Rational& value : one) {
      const Integer scaled = numerator(Rational(value * scale));
      if (abs(scaled) >= too_large) return std::nullopt;
      whole.back().push_back(static_cast<std::int64_t>(scaled));
    }
  }
  return whole;
}

template <typename Number>
std::vector<std::size_t> farthest(const std::vector<std::vector<Number>>& all, std::size_t first,
                                  std::size_t count, const Number& least) {
  const auto apart = [&](std::size_t a, std::size_t b) {
    Number total = 0;
    for (std::size_t i = 0; i < all[a].size(); ++i) {
      const Number& one = all[a][i];
      const Number& other = all[b][i];
      total += one > other ? one - other : other - one;
    }
    return total;
  };
  std::vector<std::size_t> taken{first};
  std::vector<Number> nearest;
  for (std::size_t i = 0; i < all.size(); ++i) nearest.push_back(apart(i, first));
  while (taken.size() < std::min(count, all.size())) {
    const auto next = std::max_element(nearest.begin(), nearest.end());
    if (*next < least || *next == 0) break;
    const auto place = static_cast<std::size_t>(next - nearest.begin());
    taken.push_back(place);
    for (std::size_t i = 0; i < all.size(); ++i) nearest[i] = std::min(nearest[i], apart(i, place));
  }
  std::sort(taken.begin(), taken.end());
  return taken;
}

}  // namespace

std::vector<std::size_t> most_different(const std::vector<std::vector<Rational>>& all, std::size_t first,
                                        std::size_t count, const Rational& least) {
  Integer scale = denominator(least);
  for (const auto& one : all) {
    for (const Rational& value : one) scale = lcm(scale, denominator(value));
  }
  if (const auto whole = in_whole_numbers(all, scale))
    return farthest(*whole, first, count, static_cast<std::int64_t>(numerator(Rational(least * scale))));
  return farthest(all, first, count, least);
}

}  // namespace evenmat::exploring
