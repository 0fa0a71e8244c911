#include "solver/explore/region.h"

#include <algorithm>
#include <limits>
#include <map>

#include "solver/search/prover.h"

namespace evenmat::exploring {
namespace {

constexpr std::size_t most_of_an_axis = 20'000;  // values
constexpr std::size_t no_axis = std::numeric_limits<std::size_t>::max();

// Of each axis `per` values spread evenly, its ends among them.
Walk::Choice spread_of(const Walk::Choice& all, std::size_t per) {
  Walk::Choice some;
  for (const auto& axis : all) {
    std::vector<std::size_t> values;
    const std::size_t steps = std::min(per, axis.size()) - 1;
    for (std::size_t i = 0; i <= steps; ++i)
      values.push_back(axis[steps == 0 ? 0 : i * (axis.size() - 1) / steps]);
    some.push_back(std::move(values));
  }
  return some;
}

bool some_empty(const Walk::Choice& choice) {
  return std::any_of(choice.begin(), choice.end(), [](const auto& axis) { return axis.empty(); });
}

}  // namespace

// Whether the places of a block can be found for given amounts; asked once for each.
class Region::Rest {
 public:
  Rest(const System& system, const Block& block, double seconds) : prover_(seconds, 0) {
    prover_.describe(system);
    for (const Relation& relation : block.relations) prover_.require(relation);
    for (const OpenChoice& choice : block.choices) prover_.require(choice);
    for (const Sum& sum : block.whole) prover_.require_whole(sum);
  }

  bool possible(const std::vector<std::pair<Variable, Rational>>& amounts, std::size_t& asked) {
    std::vector<Rational> key;
    for (const auto& [variable, value] : amounts) key.push_back(value);
    const auto known = known_.find(key);
    if (known != known_.end()) return known->second;
    ++asked;
    const Scope scope(prover_);
    for (const auto& [variable, value] : amounts) prover_.require(equals(Sum::of(variable), Sum(value)));
    const bool possible = prover_.possible();
    known_.emplace(std::move(key), possible);
    return possible;
  }

 private:
  Prover prover_;
  std::map<std::vector<Rational>, bool> known_;
};

std::unique_ptr<Region> Region::of(const System& system, const std::vector<Amount>& amounts, Taken taken,
                                   const Rational& farthest, Clock::time_point until) {
  auto reduced = reduced_to(system, amounts);
  if (!reduced) return nullptr;
  const Rational& mark = system.mark();
  std::unique_ptr<Region> region(new Region(std::move(*reduced), amounts, std::move(taken), mark, until));
  region->lay_axes(farthest);
  return region;
}

Region::Region(Reduced reduced, const std::vector<Amount>& amounts, Taken taken, Rational mark,
               Clock::time_point until)
    : reduced_(std::move(reduced)),
      amounts_(amounts),
      taken_(std::move(taken)),
      mark_(std::move(mark)),
      until_(until) {
  for (const Variable amount : reduced_.amounts) in_free_.push_back(reduced_.known.reduce(Sum::of(amount)));
}

Region::~Region() = default;

bool Region::has(const Amounts& amounts) const {
  return std::all_of(taken_.begin(), taken_.end(),
                     [&](const auto& taken) { return amounts[taken.first] == taken.second; });
}

std::vector<Rational> Region::values_at(const Amounts& amounts) const {
  std::vector<Rational> values(reduced_.system.variables(), 0);
  for (const std::size_t i : reduced_.free) values[reduced_.amounts[i]] = amounts[i];
  return values;
}

// The values that an amount may have by itself.
Axis Region::axis_of(const Amount& amount, const Interval& range, const Rational& farthest) {
  const auto within = [&](const Rational& value) {
    return !(range.low && value < *range.low) && !(range.high && value > *range.high);
  };
  Axis axis;
  if (!amount.one_of.empty()) {
    std::copy_if(amount.one_of.begin(), amount.one_of.end(), std::back_inserter(axis.values), within);
    return axis;
  }
  const Rational high = range.high.value_or(farthest);
  const Rational& from = amount.through;
  for (Rational value = from + round_up(range.low.value_or(-farthest) - from, mark_);
       value <= high && axis.values.size() < most_of_an_axis; value += mark_) {
    axis.values.push_back(value);
  }
  if (axis.values.size() == most_of_an_axis) all_values_ = false;
  const Rational& as_sized = amount.open.as_sized;
  const auto at = std::lower_bound(axis.values.begin(), axis.values.end(), as_sized);
  if (within(as_sized) && (at == axis.values.end() || *at != as_sized)) axis.values.insert(at, as_sized);
  return axis;
}

void Region::lay_axes(const Rational& farthest) {
  std::vector<Axis> axes;
  axis_.assign(amounts_.size(), no_axis);
  for (const std::size_t place : reduced_.free) {
    axis_[place] = axes.size();
    const Sum sum = reduced_.system.reduce(amounts_[place].sums.front());
    axes.push_back(axis_of(amounts_[place], reduced_.system.range(sum), farthest));
  }
  std::vector<AxisSum> lines;
  for (const Relation& relation : reduced_.relations) {
    AxisSum line{std::vector<Rational>(axes.size(), 0), relation.sum.constant()};
    for (const Term& term : relation.sum.terms())
      line.factors[axis_[term.variable - reduced_.amounts.front()]] = term.factor;
    lines.push_back(std::move(line));
  }
  walk_ = Walk::over(std::move(axes), lines);
  if (walk_) add_tests();
}

std::size_t Region::last_axis(const Sum& sum) const {
  std::size_t last = 0;
  for (const Term& term : sum.terms()) {
    if (reduced_.is_amount(term.variable))
      last = std::max(last, axis_[term.variable - reduced_.amounts.front()]);
  }
  return last;
}

Rational Region::value(const Sum& sum, const Place& place) const {
  Rational value = sum.constant();
  for (const Term& term : sum.terms()) {
    const std::size_t axis = axis_[term.variable - reduced_.amounts.front()];
    value += term.factor * walk_->axes()[axis].values[place[axis]];
  }
  return value;
}

void Region::add_tests() {
  for (std::size_t axis = 0; axis < walk_->axes().size(); ++axis)
    walk_->add({axis, [this](const Place&) { return may_go_on(); }});
  const auto on_marks = [&](const Sum& sum) {
    walk_->add(
        {last_axis(sum), [this, sum](const Place& place) { return is_multiple(value(sum, place), mark_); }});
  };
  for (const Sum& sum : reduced_.whole) on_marks(sum);
  for (std::size_t i = 0; i < amounts_.size(); ++i) {
    const Sum* follows = reduced_.known.solved(reduced_.amounts[i]);
    if (follows == nullptr || amounts_[i].sums.empty()) continue;
    if (amounts_[i].one_of.empty()) {
      walk_->add({last_axis(*follows), [this, sum = *follows, i](const Place& place) {
                    const Rational found = value(sum, place);
                    return found == amounts_[i].open.as_sized ||
                           is_multiple(found - amounts_[i].through, mark_);
                  }});
      continue;
    }
    walk_->add({last_axis(*follows), [this, sum = *follows, list = amounts_[i].one_of](const Place& place) {
                  return std::find(list.begin(), list.end(), value(sum, place)) != list.end();
                }});
  }
  for (const OpenChoice& choice : reduced_.choices) add_choice(choice);
  for (const Block& block : reduced_.rest) add_rest(block);
}

void Region::add_choice(const OpenChoice& choice) {
  std::size_t last = 0;
  for (const Option& option : choice.options) {
    for (const Relation& relation : option.relations) last = std::max(last, last_axis(relation.sum));
  }
  const auto holds_at = [this](const Relation& relation, const Place& place) {
    const Rational sum = value(relation.sum, place);
    return relation.equal ? sum == 0 : sum <= 0;
  };
  walk_->add({last, [choice, holds_at](const Place& place) {
                return std::any_of(choice.options.begin(), choice.options.end(), [&](const Option& option) {
                  return std::all_of(option.relations.begin(), option.relations.end(),
                                     [&](const Relation& relation) { return holds_at(relation, place); });
                });
              }});
}

void Region::add_rest(const Block& block) {
  const std::chrono::duration<double> left = until_ - Clock::now();
  rest_.push_back(std::make_unique<Rest>(reduced_.system, block, std::max(left.count(), 0.001)));
  std::vector<std::pair<Variable, std::size_t>> amounts;
  std::size_t last = 0;
  for (const Variable variable : block.variables) {
    if (!reduced_.is_amount(variable)) continue;
    const std::size_t axis = axis_[variable - reduced_.amounts.front()];
    amounts.emplace_back(variable, axis);
    last = std::max(last, axis);
  }
  walk_->add({last, [this, rest = rest_.back().get(), amounts](const Place& place) {
                std::vector<std::pair<Variable, Rational>> values;
                for (const auto& [variable, axis] : amounts)
                  values.emplace_back(variable, walk_->axes()[axis].values[place[axis]]);
                return rest->possible(values, asked_);
              }});
}

Amounts Region::amounts_at(const Place& place) const {
  std::vector<Rational> values(reduced_.system.variables(), 0);
  for (const std::size_t i : reduced_.free)
    values[reduced_.amounts[i]] = walk_->axes()[axis_[i]].values[place[axis_[i]]];
  Amounts found;
  for (const Sum& amount : in_free_) found.push_back(amount.at(values));
  for (const auto& [amount, way] : taken_) found[amount] = way;
  return found;
}

// How many there are, up to `most`.
std::size_t Region::collect(const Walk::Choice& choice, std::size_t most, std::vector<Amounts>* found) {
  std::size_t count = 0;
  walk_->each(choice, [&](const Place& place) {
    if (found != nullptr) found->push_back(amounts_at(place));
    return ++count < most;
  });
  return count;
}

bool Region::list(std::size_t most, std::vector<Amounts>& found) {
  if (!walk_) return false;
  asked_ = 0;
  const std::size_t count = collect(walk_->all(), most + 1, &found);
  if (count > most) found.pop_back();
  return count <= most && all_values_ && may_go_on();
}

void Region::between(const Amounts& a, const Amounts& b, std::size_t most, std::vector<Amounts>& found) {
  if (!walk_) return;
  Walk::Choice choice = walk_->all();
  for (const std::size_t place : reduced_.free) {
    const Rational& low = std::min(a[place], b[place]);
    const Rational& high = std::max(a[place], b[place]);
    const auto& values = walk_->axes()[axis_[place]].values;
    std::erase_if(choice[axis_[place]], [&](std::size_t i) { return values[i] < low || values[i] > high; });
  }
  asked_ = 0;
  collect(choice, most, &found);
}

void Region::spread(std::size_t most, std::vector<Amounts>& found) {
  if (!walk_) return;
  const Walk::Choice all = walk_->all();
  if (some_empty(all)) return;
  asked_ = 0;
  Walk::Choice best = spread_of(all, 2);
  for (std::size_t per = 3; per <= most; per += per < 16 ? 1 : per / 4) {
    Walk::Choice finer = spread_of(all, per);
    if (collect(finer, most, nullptr) >= most || !may_go_on()) break;
    best = std::move(finer);
  }
  asked_ = 0;
  collect(best, most, &found);
  asked_ = 0;
  constexpr std::size_t most_tries = 16;
  for (std::size_t axis = 0; axis < all.size(); ++axis) {
    for (const bool from_below : {true, false}) {
      for (std::size_t i = 0; i < std::min(most_tries, all[axis].size()); ++i) {
        Walk::Choice fixed = all;
        fixed[axis] = {all[axis][from_below ? i : all[axis].size() - 1 - i]};
        if (collect(fixed, 1, &found) > 0) break;
      }
    }
  }
}

std::optional<Rational> Region::least(const Sum& sum) const {
  const Sum in_amounts = reduced_.of(sum);
  if (!walk_ || !all_values_ || !follows(in_amounts))
    return reduced_.system.range(reduced_.system.reduce(sum)).low;
  const Walk::Choice all = walk_->all();
  if (some_empty(all)) return std::nullopt;
  Rational least = in_amounts.constant();
  for (const Term& term : in_amounts.terms()) {
    const std::size_t axis = axis_[term.variable - reduced_.amounts.front()];
    const auto& values = walk_->axes()[axis].values;
    least += term.factor * values[term.factor > 0 ? all[axis].front() : all[axis].back()];
  }
  return least;
}

}  // namespace evenmat::exploring
