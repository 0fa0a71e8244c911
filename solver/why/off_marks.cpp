#include "solver/why/off_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "solver/search/session.h"
#include "solver/why/sums.h"
#include "solver/why/tell_sum.h"

namespace evenmat {
namespace {

System reals_of(const Rules& rules, const std::vector<std::size_t>& indices) {
  System system(rules.mark, rules.variables());
  for (const std::size_t index : indices) {
    const Rule& rule = rules.rules[index];
    if (rule.choices.size() == 1) {
      for (const Relation& relation : rule.choices.front()) system.add(relation);
    } else {
      OpenChoice choice;
      for (std::size_t i = 0; i < rule.choices.size(); ++i) choice.options.push_back({rule.choices[i], i});
      system.add(std::move(choice));
    }
  }
  return system;
}

struct Span {
  Rational least, most;
};

// The least and greatest value of a sum; absent where it has no end.
std::optional<Span> span_of(System& system, const Sum& sum, Prover& prover) {
  const Sum reduced = system.reduce(sum);
  if (reduced.is_constant()) return Span{reduced.constant(), reduced.constant()};
  const Interval range = system.range(reduced);
  if (!range.low || !range.high) return std::nullopt;
  for (const Block& block : system.split({reduced})) {
    if (block.aims.empty()) continue;
    prover.describe(system);
    Session session(system, prover, block);
    if (!session.possible()) return std::nullopt;
    const Rational least = session.least(reduced);
    return Span{least, session.greatest(reduced)};
  }
  return std::nullopt;
}

// The sizes among the rules' variables that fall on marks.
std::vector<Variable> sizes_in(const Rules& rules, const std::vector<std::size_t>& indices) {
  std::set<Variable> sizes;
  for (const std::size_t index : indices) {
    for (const auto& choice : rules.rules[index].choices) {
      for (const Relation& relation : choice) {
        for (const Term& term : relation.sum.terms()) {
          const Rectangle& rectangle = rules.rectangles[term.variable / 4];
          const bool width = term.variable % 4 == static_cast<std::size_t>(Measure::width);
          const bool height = term.variable % 4 == static_cast<std::size_t>(Measure::height);
          if ((width && rectangle.width_on_marks) || (height && rectangle.height_on_marks)) {
            sizes.insert(term.variable);
          }
        }
      }
    }
  }
  return {sizes.begin(), sizes.end()};
}

std::string size_name(const Rules& rules, Variable variable) {
  const bool width = variable % 4 == static_cast<std::size_t>(Measure::width);
  return fmt::format("the {} of {}", width ? "width" : "height", rules.rectangles[variable / 4].name);
}

// Two sizes whose difference or sum is settled, and is not on the marks.
void tell_difference(const Rules& rules, const std::vector<std::size_t>& indices,
                     const std::vector<Variable>& sizes, const System& system, Unit unit, Prover& prover,
                     std::vector<StoryStep>& steps) {
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    for (std::size_t j = i + 1; j < sizes.size(); ++j) {
      for (const int sign : {-1, 1}) {
        Sum sum = Sum::of(sizes[i]) + Sum::of(sizes[j], sign);
        const Sum reduced = system.reduce(sum);
        if (!reduced.is_constant() || is_multiple(reduced.constant(), rules.mark)) continue;
        Rational value = reduced.constant();
        const bool turned = value < 0;
        if (turned) {
          sum *= Rational(-1);
          value = -value;
        }
        const Rational below = round_down(value, rules.mark);
        const auto nearest = nearest_sum(rules, indices, at_most(sum, Sum(below)), prover);
        if (!nearest) continue;
        const std::string what =
            fmt::format("{} {} {}", size_name(rules, sizes[turned ? j : i]), sign < 0 ? "less" : "and",
                        size_name(rules, sizes[turned ? i : j]));
        tell_derivation(rules, nearest->ways[0].sums[0], what, value, unit, steps);
        steps.push_back(
            {fmt::format("That is no whole number of {} marks, as it is between sizes on the marks.",
                         length_with_unit(rules.mark, unit)),
             {},
             std::nullopt,
             std::nullopt});
        return;
      }
    }
  }
}

// How far from the marks the sizes have to be, the farthest of them as near as can be.
std::optional<Rational> least_distance(const Rules& rules, const std::vector<std::size_t>& indices,
                                       const std::vector<Variable>& sizes, Prover& prover) {
  System system = reals_of(rules, indices);
  const Variable far = system.fresh();
  for (const Variable size : sizes) {
    const Variable whole = system.fresh();
    system.set_whole(whole);
    const Sum apart = Sum::of(size) - Sum::of(whole);
    system.add(at_most(apart, Sum::of(far)));
    system.add(at_most(apart * Rational(-1), Sum::of(far)));
  }
  if (!system.settle()) return std::nullopt;
  const Sum distance = system.reduce(Sum::of(far));
  if (distance.is_constant()) return distance.constant();
  for (const Block& block : system.split({distance})) {
    if (block.aims.empty()) continue;
    prover.describe(system);
    Session session(system, prover, block);
    if (!session.possible()) return std::nullopt;
    return session.least(distance);
  }
  return std::nullopt;
}

}  // namespace

OffMarks off_marks(const Rules& rules, const std::vector<std::size_t>& indices, Unit unit, Prover& prover) {
  OffMarks off;
  const std::vector<Variable> sizes = sizes_in(rules, indices);
  System system = reals_of(rules, indices);
  if (!system.settle()) return off;
  const std::string marks = length_with_unit(rules.mark, unit);
  for (const Variable size : sizes) {
    const auto span = span_of(system, Sum::of(size), prover);
    if (!span) continue;
    const Rational below = round_down(span->least, rules.mark);
    const Rational above = below + rules.mark;
    if (below == span->least || span->most >= above) continue;
    const Rational by = std::min(Rational(span->least - below), Rational(above - span->most));
    off.by = std::max(off.by, by);
    const std::string what = size_name(rules, size);
    if (span->least == span->most) {
      // It can be no less: that is the sum that makes it what it is.
      const Relation less = at_most(Sum::of(size), Sum(below));
      if (const auto nearest = nearest_sum(rules, indices, less, prover)) {
        tell_derivation(rules, nearest->ways[0].sums[0], what, span->least, unit, off.steps);
      }
    } else {
      off.steps.push_back({sentence(fmt::format("{} can be {} to {}", what, length_text(span->least, unit),
                                                length_text(span->most, unit))),
                           {},
                           std::nullopt,
                           std::nullopt});
    }
    off.steps.push_back(
        {fmt::format("The trimmer has marks at {} and {}: this is {} off the nearer.",
                     length_text(below, unit), length_text(above, unit), length_with_unit(by, unit)),
         {},
         by,
         std::nullopt});
  }
  if (!off.steps.empty()) return off;
  tell_difference(rules, indices, sizes, system, unit, prover, off.steps);
  const bool told = !off.steps.empty();
  off.by = least_distance(rules, indices, sizes, prover).value_or(0);
  off.steps.push_back(
      {fmt::format("{} sizes cannot all fall on the {} marks: the nearest they come is {} off.",
                   told ? "So the" : "The", marks, length_with_unit(off.by, unit)),
       {},
       off.by,
       std::nullopt});
  return off;
}

}  // namespace evenmat
