#include "solver/why/changes.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <tuple>

namespace evenmat {
namespace {

using Tokens = std::vector<Prover::Token>;

Rational distance(const Rational& a, const Rational& b) { return abs(a - b); }

const Rational& stated(Inquiry& inquiry, std::size_t number) {
  return inquiry.rules().numbers[number].number().value;
}

Relation no_less(Inquiry& inquiry, std::size_t number) {
  const auto& least = inquiry.rules().numbers[number].least;
  const Sum value = Sum::of(inquiry.value_of(number));
  return least ? at_least(value, *least) : at_most(Sum(), Sum());
}

// How far the marks lie from a value: below and above it, and then each a mark further.
struct Steps {
  Rational below, above, mark;

  Steps(const Rational& value, const Rational& marks)
      : below(value - round_down(value, marks)), above(round_up(value, marks) - value), mark(marks) {}

  // The farthest of these distances that is no more than `limit`; negative if none is.
  [[nodiscard]] Rational upto(const Rational& limit) const {
    Rational most = -1;
    for (const Rational& first : {below, above}) {
      if (first <= limit) most = std::max(most, Rational(first + round_down(limit - first, mark)));
    }
    return most;
  }
  [[nodiscard]] Rational less_than(const Rational& far) const {
    Rational most = upto(far);
    if (most < far) return most;
    Rational less = -1;
    for (const Rational& first : {below, above}) {
      if (first > far) continue;
      const Rational nearer = first + round_down(far - first, mark);
      less = std::max(less, nearer < far ? nearer : Rational(nearer - mark >= first ? nearer - mark : -1));
    }
    return less;
  }
};

// With all that is required so far, the value of a number let go that is nearest to the stated one. The
// prover must just have said yes.
Rational settle(Inquiry& inquiry, const Tokens& tokens, std::size_t number) {
  Prover& prover = inquiry.prover();
  const Rational from = stated(inquiry, number);
  const Variable variable = inquiry.value_of(number);
  const Sum value = Sum::of(variable);
  const Steps steps(from, inquiry.step_of(number));
  Rational best = prover.value(variable);
  Rational too_near = -1;  // no value so near will do
  const auto try_within = [&](const Rational& reach) {
    const Scope scope(prover);
    prover.require(at_least(value, from - reach));
    prover.require(at_most(value, from + reach));
    if (prover.possible(tokens)) {
      best = prover.value(variable);
      return true;
    }
    too_near = reach;
    return false;
  };
  for (Rational reach = steps.mark; reach < distance(best, from); reach *= 2) {
    if (try_within(reach)) break;
  }
  while (true) {
    const Rational next = steps.less_than(distance(best, from));
    if (next <= too_near) break;
    const Rational half = steps.upto((std::max(too_near, Rational(0)) + distance(best, from)) / 2);
    try_within(half > too_near && half < distance(best, from) ? half : next);
  }
  if (best > from) {
    const Scope scope(prover);
    prover.require(equals(value, from - distance(best, from)));
    if (prover.possible(tokens)) best = from - distance(best, from);
  }
  return best;
}

Rational common_step(const Rational& a, const Rational& b) {
  const Integer left = boost::multiprecision::numerator(a) * boost::multiprecision::denominator(b);
  const Integer right = boost::multiprecision::numerator(b) * boost::multiprecision::denominator(a);
  const Integer both = boost::multiprecision::denominator(a) * boost::multiprecision::denominator(b);
  return {boost::multiprecision::gcd(left, right), both};
}

// The fewest elements that take one out of every set.
std::size_t fewest_to_hit(const std::vector<std::vector<std::size_t>>& sets) {
  std::set<std::size_t> taken;
  const std::function<bool(std::size_t)> hit = [&](std::size_t left) {
    const auto spared = std::find_if(sets.begin(), sets.end(), [&](const auto& set) {
      return std::none_of(set.begin(), set.end(), [&](std::size_t e) { return taken.contains(e); });
    });
    if (spared == sets.end()) return true;
    if (left == 0) return false;
    return std::any_of(spared->begin(), spared->end(), [&](std::size_t element) {
      taken.insert(element);
      const bool done = hit(left - 1);
      taken.erase(element);
      return done;
    });
  };
  // At least one for each of some sets that share nothing.
  std::set<std::size_t> met;
  std::size_t count = 0;
  for (const auto& set : sets) {
    if (std::any_of(set.begin(), set.end(), [&](std::size_t e) { return met.contains(e); })) continue;
    met.insert(set.begin(), set.end());
    ++count;
  }
  while (!hit(count)) ++count;
  return count;
}

// What is to be mended together: parts, and the numbers that may change.
struct Task {
  std::vector<std::size_t> parts;
  std::vector<std::size_t> numbers;  // in file order
  std::size_t least = 0;             // so many have to change at least
};

// The fewest changes for one task, up to `most` of them; absent if those do not do.
std::optional<std::vector<NewValue>> mend(Inquiry& inquiry, const Task& task, std::size_t most) {
  WishIds all(inquiry.wishes());
  std::iota(all.begin(), all.end(), 0U);
  Prover& prover = inquiry.prover();
  std::vector<Variable> values;
  std::vector<Relation> on_marks;
  for (const std::size_t number : task.numbers) {
    values.push_back(inquiry.value_of(number));
    on_marks.push_back(inquiry.on_marks(number));
  }
  const Tokens tokens = inquiry.tokens(task.parts, all, {task.numbers.begin(), task.numbers.end()});

  const Scope scope(prover);
  std::vector<std::vector<Relation>> unchanged;
  std::vector<Sum> moved;
  Rational step = inquiry.rules().mark;
  for (std::size_t i = 0; i < task.numbers.size(); ++i) {
    const Rational& from = stated(inquiry, task.numbers[i]);
    unchanged.push_back({equals(Sum::of(values[i]), from)});
    prover.require(
        OpenChoice{{{unchanged.back(), 0}, {{on_marks[i], no_less(inquiry, task.numbers[i])}, 1}}, {}});
    moved.push_back(Sum::of(values[i]) - from);
    step = common_step(common_step(step, inquiry.step_of(task.numbers[i])), from);
  }
  std::size_t count = task.least;
  const auto with_count = [&] {
    prover.require_count(task.numbers.size() - std::min(count, task.numbers.size()), unchanged);
  };
  while (true) {
    {
      const Scope trial(prover);
      with_count();
      if (prover.possible(tokens)) break;
    }
    if (count >= std::min(most, task.numbers.size())) return std::nullopt;
    ++count;
  }
  with_count();
  const Sum total = inquiry.total_of(moved);
  if (!prover.possible(tokens)) throw OutOfTime{};
  const auto value_of = [&](std::size_t i) { return prover.value(values[i]); };
  const auto total_now = [&] {
    Rational sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i)
      sum += distance(value_of(i), stated(inquiry, task.numbers[i]));
    return sum;
  };
  Rational best = total_now();
  for (Rational low = 0; best - low > step;) {
    const Rational half = low + round_up((best - low) / 2, step);
    const Rational target = half < best ? half : Rational(best - step);
    const Scope trial(prover);
    prover.require(at_most(total, target));
    if (prover.possible(tokens)) {
      best = total_now();
    } else {
      low = target;
    }
  }
  prover.require(at_most(total, best));
  std::vector<std::size_t> changed;
  for (std::size_t i = 0; i < values.size(); ++i) {
    bool keeps = false;
    {
      const Scope trial(prover);
      prover.require(unchanged[i].front());
      keeps = prover.possible(tokens);
    }
    if (keeps) {
      prover.require(unchanged[i].front());
    } else {
      changed.push_back(i);
    }
  }
  std::vector<NewValue> result;
  for (const std::size_t i : changed) {
    if (!prover.possible(tokens)) throw OutOfTime{};
    const Rational value = settle(inquiry, tokens, task.numbers[i]);
    prover.require(equals(Sum::of(values[i]), value));
    result.push_back({task.numbers[i], value});
  }
  return result;
}

void sort_by_file(const Rules& rules, std::vector<std::size_t>& numbers) {
  std::sort(numbers.begin(), numbers.end(), [&](std::size_t a, std::size_t b) {
    const StatedNumber& x = rules.numbers[a];
    const StatedNumber& y = rules.numbers[b];
    return std::tie(x.spot, x.place, a) < std::tie(y.spot, y.place, b);
  });
}

// What shares no number that may change is mended apart.
std::vector<Task> tasks_of(const Inquiry& inquiry, const std::vector<Clash>& clashes) {
  std::vector<Task> tasks;
  std::vector<std::set<std::size_t>> parts;
  std::vector<std::set<std::size_t>> numbers;
  for (const Clash& clash : clashes) {
    std::set<std::size_t> own_parts(clash.parts.begin(), clash.parts.end());
    std::set<std::size_t> own_numbers;
    for (const std::size_t number : inquiry.numbers_of(clash.wishes)) {
      own_numbers.insert(number);
      own_parts.merge(inquiry.parts_of_number(number));
    }
    for (std::size_t i = 0; i < parts.size();) {
      const bool meets = std::any_of(own_parts.begin(), own_parts.end(),
                                     [&](std::size_t part) { return parts[i].contains(part); });
      if (!meets) {
        ++i;
        continue;
      }
      own_parts.merge(parts[i]);
      own_numbers.merge(numbers[i]);
      parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
      numbers.erase(numbers.begin() + static_cast<std::ptrdiff_t>(i));
      i = 0;
    }
    parts.push_back(std::move(own_parts));
    numbers.push_back(std::move(own_numbers));
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    Task task{{parts[i].begin(), parts[i].end()}, {numbers[i].begin(), numbers[i].end()}, 0};
    std::vector<std::vector<std::size_t>> sets;
    for (const Clash& clash : clashes) {
      if (parts[i].contains(clash.parts.front())) sets.push_back(inquiry.numbers_of(clash.wishes));
    }
    task.least = fewest_to_hit(sets);
    sort_by_file(inquiry.rules(), task.numbers);
    tasks.push_back(std::move(task));
  }
  return tasks;
}

}  // namespace

std::optional<Rational> nearest_value(Inquiry& inquiry, const std::vector<std::size_t>& parts,
                                      const WishIds& held, std::size_t number) {
  const Relation on_marks = inquiry.on_marks(number);
  const Tokens tokens = inquiry.tokens(parts, held, {number});
  Prover& prover = inquiry.prover();
  const Scope scope(prover);
  prover.require(on_marks);
  prover.require(no_less(inquiry, number));
  if (!prover.possible(tokens)) return std::nullopt;
  return settle(inquiry, tokens, number);
}

std::vector<NewValue> fewest_changes(Inquiry& inquiry, const std::vector<Clash>& clashes, bool all) {
  const bool hopeless = std::any_of(clashes.begin(), clashes.end(), [&](const Clash& clash) {
    return inquiry.numbers_of(clash.wishes).empty();
  });
  if (hopeless || clashes.empty()) return {};
  const std::vector<Task> tasks = tasks_of(inquiry, clashes);
  std::size_t least = 0;
  for (const Task& task : tasks) least += task.least;
  if (all) {
    // As few as take one number out of every clash can only be numbers of clashes.
    std::vector<NewValue> changes;
    for (const Task& task : tasks) {
      const auto some = mend(inquiry, task, task.least);
      if (!some) break;
      changes.insert(changes.end(), some->begin(), some->end());
      if (&task == &tasks.back()) return changes;
    }
  }
  // More have to change, or what else there is to mend is not known: any number may.
  WishIds wishes(inquiry.wishes());
  std::iota(wishes.begin(), wishes.end(), 0U);
  Task whole{{}, inquiry.numbers_of(wishes), least};
  whole.parts.resize(inquiry.parts().size());
  std::iota(whole.parts.begin(), whole.parts.end(), 0U);
  sort_by_file(inquiry.rules(), whole.numbers);
  Task any = whole;
  any.least = whole.numbers.size();
  if (!mend(inquiry, any, any.least)) return {};
  const auto changes = mend(inquiry, whole, whole.numbers.size());
  return changes ? *changes : std::vector<NewValue>{};
}

}  // namespace evenmat
