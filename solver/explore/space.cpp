#include "solver/explore/space.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

#include "solver/answer/placing.h"
#include "solver/answer/version.h"
#include "solver/explore/amounts.h"
#include "solver/explore/held.h"
#include "solver/explore/on_all_cores.h"
#include "solver/explore/reduced.h"
#include "solver/explore/walk.h"
#include "solver/search/prover.h"
#include "solver/search/system_of.h"

namespace evenmat::exploring {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t most_ways = 64;            // of all entries of `rules` together
constexpr std::size_t most_of_an_axis = 20'000;  // values
// Where each card has to be chosen whole before it is known to be one, a part of the space is this small.
constexpr std::size_t most_chosen_of_a_part = 400;

Clock::time_point after(double seconds) {
  return Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds));
}

// Whether the places of a block can be found for given amounts; asked once for each.
class RestOfPlaces {
 public:
  RestOfPlaces(System& system, const Block& block, double seconds) : prover_(seconds, 0) {
    prover_.describe(system);
    for (const Relation& relation : block.relations) prover_.require(relation);
    for (const OpenChoice& choice : block.choices) prover_.require(choice);
    for (const Sum& sum : block.whole) prover_.require_whole(sum);
  }

  bool possible(const std::vector<std::pair<Variable, Rational>>& amounts) {
    std::vector<Rational> key;
    for (const auto& [variable, value] : amounts) key.push_back(value);
    const auto known = known_.find(key);
    if (known != known_.end()) return known->second;
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

// The space with one way taken of every entry of `rules` that has several.
struct Part {
  std::vector<Relation> ways;                           // the relations of those
  std::vector<std::pair<std::size_t, Rational>> taken;  // which, by place of the amount
  Reduced reduced;
  std::optional<Walk> walk;
  std::vector<std::unique_ptr<RestOfPlaces>> rest;
  std::vector<Sum> lengths;  // of all variables of the rules

  // Of all variables; places that do not follow from the amounts are 0.
  [[nodiscard]] std::vector<Rational> values_of(const Amounts& amounts) const {
    std::vector<Rational> values(reduced.system.variables(), 0);
    for (const std::size_t i : reduced.free) values[reduced.amounts[i]] = amounts[i];
    return values;
  }
};

}  // namespace

struct Space::Inside {
  const Card& card;
  Clock::time_point until;
  SizedCard sized;
  Rules rules;
  std::vector<Amount> amounts;
  std::vector<OpenAmount> open;
  Amounts as_sized;
  std::string nothing_open;
  std::vector<Part> parts;
  std::vector<Sum> sizes;
  bool sizes_follow = true;  // from the amounts alone
  std::unique_ptr<HeldCards> held;
  bool has_ways = false;

  Inside(const Card& its_card, double limit) : card(its_card), until(after(limit)) {}

  [[nodiscard]] double seconds_left() const {
    return std::max(0.001, std::chrono::duration<double>(until - Clock::now()).count());
  }
  [[nodiscard]] bool time_is_up() const { return Clock::now() >= until; }

  void keep_the_same(const std::vector<std::string>& names) {
    for (std::size_t version = 0; version <= card.variants.size(); ++version) {
      const Places places = places_of(rules, version);
      for (const std::string& name : names) {
        const auto cell = places.cell.find(name);
        if (cell == places.cell.end()) continue;
        for (const Measure measure : {Measure::width, Measure::height}) {
          const Variable length = variable(cell->second, measure);
          Rule rule;
          rule.version = version;
          rule.choices = {{equals(Sum::of(length), Sum(sized.lengths[length]))}};
          rules.rules.push_back(std::move(rule));
        }
      }
    }
  }

  void find_amounts(const std::optional<AmountName>& only) {
    System system = system_of(rules);
    if (!system.settle()) throw std::logic_error("the rules of a card that was sized cannot hold");
    amounts = open_amounts(card, rules, system, sized.lengths, only);
    if (only && amounts.empty()) {
      nothing_open = fmt::format("The {} of {} is settled by what is stated, so nothing varies.",
                                 only->second, only->first);
    }
    std::size_t ways = 1;
    for (const Amount& amount : amounts) {
      if (!amount.rules.empty()) ways *= amount.open.ways.size();
    }
    while (ways > most_ways) {  // they come last
      ways /= amounts.back().open.ways.size();
      amounts.pop_back();
    }
    has_ways = ways > 1;
    for (Amount& amount : amounts) {
      open.push_back(amount.open);
      as_sized.push_back(amount.open.as_sized);
    }
    add_parts(system, {}, 0);
    for (const Part& part : parts) {
      for (const Sum& size : sizes)
        sizes_follow = sizes_follow && part.reduced.follows(part.reduced.of(size));
    }
  }

  void add_parts(const System& system,
                 std::vector<std::pair<std::size_t, Rational>> taken,  // NOLINT(misc-no-recursion)
                 std::size_t from) {
    std::size_t next = from;
    while (next < amounts.size() && amounts[next].rules.empty()) ++next;
    if (next == amounts.size()) {
      add_part(system, std::move(taken));
      return;
    }
    for (std::size_t way = 0; way < amounts[next].open.ways.size(); ++way) {
      taken.emplace_back(next, Rational(way));
      add_parts(system, taken, next + 1);
      taken.pop_back();
    }
  }

  [[nodiscard]] std::vector<Relation> relations_of(
      const std::vector<std::pair<std::size_t, Rational>>& taken) const {
    std::vector<Relation> relations;
    for (const auto& [place, way] : taken) {
      for (const std::size_t rule : amounts[place].rules) {
        for (const Relation& relation : rules.rules[rule].choices[static_cast<std::size_t>(way)])
          relations.push_back(relation);
      }
    }
    return relations;
  }

  void add_part(System system, std::vector<std::pair<std::size_t, Rational>> taken) {
    Part part{relations_of(taken), std::move(taken), {System(0, 0), {}, {}, {}, {}, {}, {}, {}}, {}, {}, {}};
    for (const Relation& relation : part.ways) system.add(relation);
    if (!system.settle()) return;
    auto reduced = reduced_to(std::move(system), amounts);
    if (!reduced) return;
    part.reduced = std::move(*reduced);
    for (Variable v = 0; v < rules.variables(); ++v) part.lengths.push_back(part.reduced.of(Sum::of(v)));
    parts.push_back(std::move(part));
    lay_axes(parts.back());
  }

  // The values that an amount may have by itself.
  [[nodiscard]] Axis axis_of(const Amount& amount, const Interval& range) const {
    const auto within = [&](const Rational& value) {
      return !(range.low && value < *range.low) && !(range.high && value > *range.high);
    };
    Axis axis;
    if (!amount.one_of.empty()) {
      std::copy_if(amount.one_of.begin(), amount.one_of.end(), std::back_inserter(axis.values), within);
      return axis;
    }
    const Size& front = card.design.base.front.size;
    const Rational farthest = 4 * std::max(front.width, front.height);
    const Rational low = round_up(range.low.value_or(-farthest), rules.mark);
    const Rational high = range.high.value_or(farthest);
    for (Rational value = low; value <= high && axis.values.size() < most_of_an_axis; value += rules.mark)
      axis.values.push_back(value);
    return axis;
  }

  void lay_axes(Part& part) {
    Reduced& reduced = part.reduced;
    std::vector<Axis> axes;
    std::map<Variable, std::size_t> axis_of_variable;
    for (const std::size_t place : reduced.free) {
      axis_of_variable[reduced.amounts[place]] = axes.size();
      const Sum sum = reduced.system.reduce(amounts[place].sums.front());
      axes.push_back(axis_of(amounts[place], reduced.system.range(sum)));
    }
    const auto by_axis = [&](const Sum& sum) {
      AxisSum line{std::vector<Rational>(axes.size(), 0), sum.constant()};
      for (const Term& term : sum.terms()) line.factors[axis_of_variable.at(term.variable)] = term.factor;
      return line;
    };
    std::vector<AxisSum> lines;
    for (const Relation& relation : reduced.relations) lines.push_back(by_axis(relation.sum));
    part.walk = Walk::over(std::move(axes), lines);
    if (part.walk) add_tests(part, axis_of_variable);
  }

  void add_tests(Part& part, const std::map<Variable, std::size_t>& axis_of_variable) {
    Reduced& reduced = part.reduced;
    Walk& walk = *part.walk;
    // A copy of what it needs, since parts move.
    const auto value_of = [axes = walk.axes(), axis_of_variable](const Sum& sum, const Place& place) {
      Rational value = sum.constant();
      for (const Term& term : sum.terms()) {
        const std::size_t axis = axis_of_variable.at(term.variable);
        value += term.factor * axes[axis].values[place[axis]];
      }
      return value;
    };
    const auto last_of = [&](const Sum& sum) {
      std::size_t last = 0;
      for (const Term& term : sum.terms()) {
        const auto axis = axis_of_variable.find(term.variable);
        if (axis != axis_of_variable.end()) last = std::max(last, axis->second);
      }
      return last;
    };
    for (std::size_t axis = 0; axis < walk.axes().size(); ++axis)
      walk.add({axis, [this](const Place&) { return !time_is_up(); }});
    const auto on_marks = [&](const Sum& sum) {
      walk.add({last_of(sum), [value_of, sum, mark = rules.mark](const Place& place) {
                  return is_multiple(value_of(sum, place), mark);
                }});
    };
    for (const Sum& sum : reduced.whole) on_marks(sum);
    for (std::size_t i = 0; i < amounts.size(); ++i) {
      const Sum* follows = reduced.known.solved(reduced.amounts[i]);
      if (follows == nullptr || amounts[i].sums.empty()) continue;
      if (amounts[i].one_of.empty()) {
        on_marks(*follows);
        continue;
      }
      walk.add({last_of(*follows), [value_of, sum = *follows, list = amounts[i].one_of](const Place& place) {
                  return std::find(list.begin(), list.end(), value_of(sum, place)) != list.end();
                }});
    }
    for (const OpenChoice& choice : reduced.choices) {
      std::size_t last = 0;
      for (const Option& option : choice.options) {
        for (const Relation& relation : option.relations) last = std::max(last, last_of(relation.sum));
      }
      walk.add({last, [value_of, choice](const Place& place) {
                  return std::any_of(choice.options.begin(), choice.options.end(), [&](const Option& option) {
                    return std::all_of(option.relations.begin(), option.relations.end(),
                                       [&](const Relation& relation) {
                                         const Rational value = value_of(relation.sum, place);
                                         return relation.equal ? value == 0 : value <= 0;
                                       });
                  });
                }});
    }
    for (const Block& block : reduced.rest) add_rest(part, block, axis_of_variable);
  }

  void add_rest(Part& part, const Block& block, const std::map<Variable, std::size_t>& axis_of_variable) {
    part.rest.push_back(std::make_unique<RestOfPlaces>(part.reduced.system, block, seconds_left()));
    std::vector<std::pair<Variable, std::size_t>> asked;
    std::size_t last = 0;
    for (const Variable variable : block.variables) {
      const auto axis = axis_of_variable.find(variable);
      if (axis == axis_of_variable.end()) continue;
      asked.emplace_back(variable, axis->second);
      last = std::max(last, axis->second);
    }
    part.walk->add(
        {last, [rest = part.rest.back().get(), asked, axes = part.walk->axes()](const Place& place) {
           std::vector<std::pair<Variable, Rational>> values;
           for (const auto& [variable, axis] : asked)
             values.emplace_back(variable, axes[axis].values[place[axis]]);
           return rest->possible(values);
         }});
  }

  [[nodiscard]] Amounts amounts_at(const Part& part, const Place& place) const {
    Amounts found(amounts.size());
    std::vector<Rational> values(part.reduced.system.variables(), 0);
    for (std::size_t axis = 0; axis < place.size(); ++axis) {
      values[part.reduced.amounts[part.reduced.free[axis]]] = part.walk->axes()[axis].values[place[axis]];
    }
    for (std::size_t i = 0; i < amounts.size(); ++i)
      found[i] = part.reduced.known.reduce(Sum::of(part.reduced.amounts[i])).at(values);
    for (const auto& [amount, way] : part.taken) found[amount] = way;
    return found;
  }

  // Up to `most` points of each part, in its order.
  void collect(const Part& part, const Walk::Choice& choice, std::size_t most,
               std::vector<Amounts>& found) const {
    std::size_t count = 0;
    part.walk->each(choice, [&](const Place& place) {
      found.push_back(amounts_at(part, place));
      return ++count < most;
    });
  }

  [[nodiscard]] std::size_t count(const Part& part, const Walk::Choice& choice, std::size_t most) const {
    std::size_t count = 0;
    part.walk->each(choice, [&](const Place&) { return ++count < most; });
    return count;
  }

  // Of each axis `per` values spread evenly, its ends among them.
  static Walk::Choice spread(const Walk::Choice& all, std::size_t per) {
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

  // A part of a space that is too large to list: evenly spread, with the ends of every amount.
  void collect_spread(const Part& part, std::size_t most, std::vector<Amounts>& found) const {
    const Walk::Choice all = part.walk->all();
    if (std::any_of(all.begin(), all.end(), [](const auto& axis) { return axis.empty(); })) return;
    Walk::Choice best = spread(all, 2);
    for (std::size_t per = 3; per <= most && !time_is_up(); per += per < 16 ? 1 : per / 4) {
      Walk::Choice finer = spread(all, per);
      if (count(part, finer, most) >= most) break;
      best = std::move(finer);
    }
    collect(part, best, most, found);
    for (std::size_t axis = 0; axis < all.size(); ++axis) {
      for (const bool from_below : {true, false}) {
        constexpr std::size_t most_tries = 16;
        for (std::size_t i = 0; i < std::min(most_tries, all[axis].size()); ++i) {
          Walk::Choice fixed = all;
          fixed[axis] = {all[axis][from_below ? i : all[axis].size() - 1 - i]};
          const std::size_t before = found.size();
          collect(part, fixed, 1, found);
          if (found.size() > before) break;
        }
      }
    }
  }

  // The relations by which the amounts are held.
  [[nodiscard]] std::vector<Relation> held_at(const Amounts& at) const {
    std::vector<std::pair<std::size_t, Rational>> taken;
    std::vector<Relation> relations;
    for (std::size_t i = 0; i < amounts.size(); ++i) {
      if (!amounts[i].rules.empty()) taken.emplace_back(i, at[i]);
      for (const Sum& sum : amounts[i].sums) relations.push_back(equals(sum, Sum(at[i])));
    }
    for (Relation& relation : relations_of(taken)) relations.push_back(std::move(relation));
    return relations;
  }

  [[nodiscard]] std::optional<SizedCard> card_of(const Amounts& at) const {
    if (at != as_sized) return held->with(held_at(at));
    SizedCard copy = sized;
    return copy;
  }

  // Cards of which more is asked than rules say, or that two ways may give alike, are chosen whole.
  void confirm(Listing& listing) const {
    std::vector<std::optional<SizedCard>> chosen(listing.cards.size());
    on_all_cores(listing.cards.size(), [&](std::size_t i) {
      if (!time_is_up()) chosen[i] = card_of(listing.cards[i]);
    });
    std::set<std::vector<Rational>> known;
    std::vector<Amounts> cards;
    for (std::size_t i = 0; i < listing.cards.size(); ++i) {
      if (!chosen[i]) listing.time_ran_out = true;
      if (!chosen[i] || chosen[i]->verdict != Verdict::buildable) continue;
      if (has_ways && !known.insert(geometry_of(*chosen[i])).second) continue;
      cards.push_back(std::move(listing.cards[i]));
    }
    listing.cards = std::move(cards);
  }

  static std::vector<Rational> geometry_of(const SizedCard& card) {
    std::vector<Rational> all;
    for (const SizedVersion& version : card.versions) {
      all.push_back(version.front.width);
      all.push_back(version.front.height);
      for (const PlacedPiece& piece : version.pieces)
        all.insert(all.end(), {piece.width, piece.height, piece.left, piece.top});
    }
    return all;
  }

  Listing list(std::size_t most) const {
    const bool whole = has_ways || held->asks_more_than_rules();
    Listing listing;
    std::size_t most_of_a_part = 0;
    for (const Part& part : parts) {
      if (!part.walk) {
        listing.complete = false;
        continue;
      }
      const std::size_t before = listing.cards.size();
      collect(part, part.walk->all(), most + 1, listing.cards);
      most_of_a_part = std::max(most_of_a_part, listing.cards.size() - before);
    }
    listing.time_ran_out = time_is_up();
    if (listing.cards.size() > most) {
      listing.complete = false;
      listing.cards.clear();
      const std::size_t of_each = (whole ? most_chosen_of_a_part : most) / parts.size() + 1;
      for (const Part& part : parts) {
        if (part.walk) collect_spread(part, of_each, listing.cards);
      }
    }
    std::sort(listing.cards.begin(), listing.cards.end());
    listing.cards.erase(std::unique(listing.cards.begin(), listing.cards.end()), listing.cards.end());
    if (whole) confirm(listing);
    add_as_sized(listing);
    if (listing.time_ran_out) listing.complete = false;
    listing.at_least =
        listing.complete || whole ? listing.cards.size() : std::max(most_of_a_part, listing.cards.size());
    return listing;
  }

  // It is a card also where its amounts lie off the marks. With ways another of them may have given it.
  void add_as_sized(Listing& listing) const {
    const auto at = std::lower_bound(listing.cards.begin(), listing.cards.end(), as_sized);
    if (at == listing.cards.end() || *at != as_sized) listing.cards.insert(at, as_sized);
  }

  [[nodiscard]] const Part& part_of(const Amounts& at) const {
    for (const Part& part : parts) {
      if (std::all_of(part.taken.begin(), part.taken.end(),
                      [&](const auto& taken) { return at[taken.first] == taken.second; }))
        return part;
    }
    throw std::logic_error("no such card is listed");
  }

  // Of all variables of the rules; places that do not follow from the amounts are 0.
  [[nodiscard]] std::vector<Rational> lengths_at(const Amounts& at) const {
    const Part& part = part_of(at);
    const std::vector<Rational> values = part.values_of(at);
    std::vector<Rational> lengths;
    for (const Sum& length : part.lengths) lengths.push_back(length.at(values));
    return lengths;
  }

  // The sizes of pieces as small as each may be, all else 0.
  [[nodiscard]] std::vector<Rational> least_lengths() const {
    std::vector<Rational> lengths(rules.variables(), 0);
    for (const Sum& size : sizes) {
      Rational least = size.at(sized.lengths);
      for (const Part& part : parts) {
        if (const auto found = least_of(part, size); found && *found < least) least = *found;
      }
      lengths[size.terms().front().variable] = std::max(least, Rational(0));
    }
    // Blanks and offcuts are made of faces.
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      if (rules.rectangles[i].kind != Rectangle::Kind::face) continue;
      for (const Measure measure : {Measure::width, Measure::height})
        lengths[variable(i, measure)] = sized.lengths[variable(i, measure)];
    }
    return lengths;
  }

  // Nothing where the part has no cards.
  [[nodiscard]] static std::optional<Rational> least_of(const Part& part, const Sum& size) {
    const Sum sum = part.reduced.of(size);
    if (!part.walk || !part.reduced.follows(sum))
      return part.reduced.system.range(part.reduced.system.reduce(size)).low.value_or(0);
    const Walk::Choice all = part.walk->all();
    Rational least = sum.constant();
    for (std::size_t axis = 0; axis < all.size(); ++axis) {
      if (all[axis].empty()) return std::nullopt;
      const Variable amount = part.reduced.amounts[part.reduced.free[axis]];
      for (const Term& term : sum.terms()) {
        if (term.variable != amount) continue;
        const auto& values = part.walk->axes()[axis].values;
        least += term.factor * values[term.factor > 0 ? all[axis].front() : all[axis].back()];
      }
    }
    return least;
  }

  [[nodiscard]] SizedCard placed(const std::vector<Rational>& lengths) const {
    SizedCard some;
    some.versions = versions_of(card);
    for (std::size_t i = 0; i < some.versions.size(); ++i)
      place_version(some.versions[i], card, rules, i, lengths);
    return some;
  }

  [[nodiscard]] std::vector<Rational> traits(const Amounts& at) const {
    std::vector<Rational> found;
    if (sizes_follow) {
      const std::vector<Rational> lengths = at == as_sized ? sized.lengths : lengths_at(at);
      for (const Sum& size : sizes) found.push_back(size.at(lengths));
    }
    for (std::size_t i = 0; i < amounts.size(); ++i)
      found.push_back(amounts[i].rules.empty() ? at[i] : Rational(at[i] * rules.mark));
    return found;
  }
};

Space::Space(const Card& card, double limit, const std::vector<std::string>& keep_same,
             const std::optional<AmountName>& only)
    : inside_(std::make_unique<Inside>(card, limit)) {
  inside_->sized = size_card(card, {.limit = limit});
  if (inside_->sized.verdict != Verdict::buildable) return;
  inside_->rules = rules_of(card);
  inside_->sizes = sizes_of(card, inside_->rules);
  inside_->keep_the_same(keep_same);
  inside_->find_amounts(only);
  inside_->held = std::make_unique<HeldCards>(card, inside_->rules, inside_->until);
}

Space::~Space() = default;
Space::Space(Space&&) noexcept = default;
Space& Space::operator=(Space&&) noexcept = default;

Verdict Space::verdict() const { return inside_->sized.verdict; }
const std::vector<OpenAmount>& Space::open() const { return inside_->open; }
const Amounts& Space::as_sized() const { return inside_->as_sized; }
const SizedCard& Space::sized() const { return inside_->sized; }
const std::string& Space::nothing_open() const { return inside_->nothing_open; }

Listing Space::list(std::size_t most) {
  try {
    return inside_->list(most);
  } catch (const OutOfTime&) {
    Listing only_as_sized;
    only_as_sized.cards = {inside_->as_sized};
    only_as_sized.complete = false;
    only_as_sized.at_least = 1;
    only_as_sized.time_ran_out = true;
    return only_as_sized;
  }
}

std::optional<SizedCard> Space::sizes_only(const Amounts& amounts) const {
  if (amounts == inside_->as_sized) return inside_->sized;
  if (!inside_->sizes_follow) return inside_->card_of(amounts);
  return inside_->placed(inside_->lengths_at(amounts));
}

SizedCard Space::smallest() const { return inside_->placed(inside_->least_lengths()); }

std::optional<SizedCard> Space::card_of(const Amounts& amounts) const { return inside_->card_of(amounts); }

std::vector<Rational> Space::traits(const Amounts& amounts) const { return inside_->traits(amounts); }

Rational Space::difference(const Amounts& a, const Amounts& b) const {
  const std::vector<Rational> there = traits(a);
  const std::vector<Rational> here = traits(b);
  Rational total = 0;
  for (std::size_t i = 0; i < there.size(); ++i) total += abs(Rational(there[i] - here[i]));
  return total / inside_->rules.mark;
}

}  // namespace evenmat::exploring
