#include "solver/search/session.h"

#include <algorithm>
#include <stdexcept>

namespace evenmat {

Session::Session(System& system, Prover& prover, Block block)
    : system_(system), prover_(prover), scope_(prover), block_(std::move(block)) {
  for (const Relation& relation : block_.relations) prover_.require(relation);
  for (const OpenChoice& choice : block_.choices) prover_.require(choice);
  for (const Sum& sum : block_.whole) prover_.require_whole(sum);
}

void Session::require(const Relation& relation) {
  prover_.require(relation);
  known_ = false;
  block_.relations.push_back(relation);
  for (const Term& term : relation.sum.terms()) {
    const auto place = std::lower_bound(block_.variables.begin(), block_.variables.end(), term.variable);
    if (place == block_.variables.end() || *place != term.variable) {
      block_.variables.insert(place, term.variable);
    }
  }
}

void Session::require_count(std::size_t count, const std::vector<std::vector<Relation>>& lists) {
  prover_.require_count(count, lists);
  known_ = false;
  counts_.push_back({count, lists});
}

void Session::take_values() {
  known_ = true;
  values_.assign(system_.variables(), 0);
  for (const Variable variable : block_.variables) values_[variable] = prover_.value(variable);
}

bool Session::are_on_marks(const std::vector<Sum>& sums) const {
  return std::all_of(sums.begin(), sums.end(), [&](const Sum& sum) {
    return system_.on_grid(sum) && is_multiple(sum.constant(), system_.mark());
  });
}

Interval Session::bound(const Sum& sum) const { return system_.range(sum); }

// With the choices and whole sizes of the values in hand, how far can the sum go?
Rational Session::polish(const Sum& sum) {
  const auto held = [&](const std::vector<Relation>& relations) {
    return std::all_of(relations.begin(), relations.end(),
                       [&](const Relation& relation) { return holds(relation, values_); });
  };
  const auto is_real = [&](Variable v) { return !system_.is_whole(v); };
  const bool moves =
      std::any_of(block_.variables.begin(), block_.variables.end(), is_real) && !system_.on_grid(sum);
  if (!moves) return sum.at(values_);

  std::vector<Relation> kept;
  const auto keep = [&](const std::vector<Relation>& relations) {
    kept.insert(kept.end(), relations.begin(), relations.end());
  };
  keep(block_.relations);
  for (const OpenChoice& choice : block_.choices) {
    for (const Option& option : choice.options) {
      if (!held(option.relations)) continue;
      keep(option.relations);
      break;
    }
  }
  for (const Count& count : counts_) {
    for (const auto& list : count.lists) {
      if (held(list)) keep(list);
    }
  }
  for (const Sum& whole : block_.whole) kept.push_back(equals(whole, whole.at(values_)));
  for (const Variable v : block_.variables) {
    if (system_.is_whole(v)) kept.push_back(equals(Sum::of(v), values_[v]));
  }
  System rest(system_.mark(), system_.variables());
  for (const Relation& relation : kept) rest.add(relation);
  if (!rest.settle()) return sum.at(values_);
  const Sum goal = rest.reduce(sum);
  if (goal.is_constant()) return goal.constant();
  for (const Block& part : rest.split({goal})) {
    if (part.aims.empty()) continue;
    const auto peak = prover_.peak(part.variables, part.relations, goal);
    if (!peak) break;
    std::vector<Rational> open = values_;
    for (std::size_t i = 0; i < part.variables.size(); ++i) open[part.variables[i]] = peak->values[i];
    std::vector<Rational> proposed = values_;
    for (const Variable v : block_.variables) proposed[v] = rest.reduce(Sum::of(v)).at(open);
    // What was held above holds in it, or it is no answer.
    const bool is_answer = std::all_of(kept.begin(), kept.end(),
                                       [&](const Relation& relation) { return holds(relation, proposed); });
    if (is_answer && sum.at(proposed) > sum.at(values_)) values_ = std::move(proposed);
    return sum.at(values_);
  }
  return sum.at(values_);
}

bool Session::better(const Sum& sum, const Rational& target, bool strictly) {
  const Scope scope(prover_);
  if (strictly) {
    prover_.require_above(sum - target);
  } else {
    prover_.require(at_least(sum, target));
  }
  if (!prover_.possible()) return false;
  take_values();
  return true;
}

Rational Session::greatest(const Sum& sum) {
  prover_.check_time();
  const Rational& mark = system_.mark();
  const bool on_marks = system_.on_grid(sum);
  std::optional<Rational> most = bound(sum).high;  // nothing is above it
  if (most && on_marks) most = sum.constant() + round_down(*most - sum.constant(), mark);
  if (most && better(sum, *most, false)) return *most;
  if (most && on_marks) *most -= mark;
  if (values_.empty() || !known_) {
    if (!prover_.possible()) throw std::logic_error("a block that was possible is not");
    take_values();
  }
  Rational best = polish(sum);
  Rational step = mark;
  while (!most || best < *most) {
    prover_.check_time();
    if (most && !on_marks && *most - best <= mark) {  // close: ask for anything better at all
      if (!better(sum, best, true)) break;
      best = polish(sum);
      continue;
    }
    Rational target = most ? (best + *most) / 2 : best + step;
    if (on_marks) target = sum.constant() + round_up(target - sum.constant(), mark);
    step *= 2;
    if (better(sum, target, false)) {
      best = polish(sum);
    } else {
      most = on_marks ? target - mark : target;
    }
  }
  return best;
}

bool Session::can_all_be_zero(const std::vector<Sum>& sums) {
  const Scope scope(prover_);
  for (const Sum& sum : sums) prover_.require(equals(sum, Sum(0)));
  if (!prover_.possible()) return false;
  take_values();
  return true;
}

bool Session::settled(const std::vector<Sum>& sums) {
  if (sums.empty()) return true;
  std::vector<Sum> apart;
  apart.reserve(sums.size());
  for (const Sum& sum : sums) apart.push_back(sum - sum.at(values_));
  const Scope scope(prover_);
  prover_.require_any_other(apart);
  return !prover_.possible();
}

void Session::raise_in_order(const std::vector<Sum>& sums) {
  std::vector<Sum> open = sums;
  while (!open.empty()) {
    if (values_.empty()) {
      if (!prover_.possible()) throw OutOfTime{};
      take_values();
    }
    if (settled(open)) {
      for (const Sum& sum : open) require(equals(sum, sum.at(values_)));
      return;
    }
    const Sum first = open.front();
    open.erase(open.begin());
    require(equals(first, greatest(first)));
  }
}

// How many of the sums can be above `reached` at once.
std::size_t Session::most_above(const std::vector<Sum>& sums, const Rational& reached) {
  const auto count_above = [&] {
    return static_cast<std::size_t>(
        std::count_if(sums.begin(), sums.end(), [&](const Sum& sum) { return sum.at(values_) > reached; }));
  };
  // An amount beyond `reached`, as large as one likes to make it small: strictness as a variable.
  const Variable excess = system_.fresh();
  std::vector<std::vector<Relation>> lists;
  for (const Sum& sum : sums) lists.push_back({at_least(sum, Sum(reached) + Sum::of(excess))});
  std::size_t best = count_above();
  while (best < sums.size()) {
    const Scope scope(prover_);
    prover_.require_above(Sum::of(excess));
    prover_.require_count(best + 1, lists);
    if (!prover_.possible()) break;
    take_values();
    best = count_above();
  }
  return best;
}

// Where which sums stay behind is itself a choice: levels by how many reach them.
void Session::raise_by_count(const std::vector<Sum>& sums, const Rational& reached) {
  Rational level = reached;
  const bool on_marks = are_on_marks(sums);
  for (std::size_t count = most_above(sums, level); count > 0; count = most_above(sums, level)) {
    const Variable next = system_.fresh();
    if (on_marks) system_.set_whole(next);
    std::vector<std::vector<Relation>> lists;
    for (const Sum& sum : sums) lists.push_back({at_least(sum, Sum::of(next))});
    require(at_least(Sum::of(next), Sum(level)));
    require_count(count, lists);
    level = greatest(Sum::of(next));
    require(equals(Sum::of(next), level));
  }
}

void Session::raise_smallest(std::vector<Sum> sums) {
  while (!sums.empty()) {
    const bool on_marks = are_on_marks(sums);
    const Variable smallest = system_.fresh();
    if (on_marks) system_.set_whole(smallest);
    const Sum level_sum = Sum::of(smallest);
    for (const Sum& sum : sums) require(at_least(sum, level_sum));
    // The least of the sums is at most each sum's bound, and at most half of two that add up to a constant.
    std::optional<Rational> most;
    const auto cap = [&](const std::optional<Rational>& value) {
      if (value && (!most || *value < *most)) most = value;
    };
    for (std::size_t i = 0; i < sums.size(); ++i) {
      cap(bound(sums[i]).high);
      for (std::size_t j = i + 1; j < sums.size(); ++j) {
        const Sum both = sums[i] + sums[j];
        if (both.is_constant()) cap(both.constant() / 2);
      }
    }
    if (most) system_.limit_fresh(smallest, *most);
    const Rational level = greatest(level_sum);
    require(equals(level_sum, level));

    std::vector<Sum> stuck;
    for (const Sum& sum : sums) {
      if (sum.at(values_) == level) stuck.push_back(sum);
    }
    while (!stuck.empty()) {
      std::vector<Sum> excess;
      for (const Sum& sum : stuck) excess.push_back(sum - level);
      const Scope scope(prover_);
      prover_.require_any_above(excess);
      if (!prover_.possible()) break;
      take_values();
      std::erase_if(stuck, [&](const Sum& sum) { return sum.at(values_) > level; });
    }
    if (stuck.empty()) return raise_by_count(sums, level);
    for (const Sum& sum : stuck) require(equals(sum, level));
    std::erase_if(sums, [&](const Sum& sum) {
      return std::any_of(stuck.begin(), stuck.end(),
                         [&](const Sum& s) { return (s - sum).is_constant() && (s - sum).constant() == 0; });
    });
  }
}

}  // namespace evenmat
