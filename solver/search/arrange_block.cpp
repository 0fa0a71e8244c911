#include "solver/search/arrange_block.h"

#include <algorithm>
#include <map>
#include <set>

#include "solver/search/arrange.h"
#include "solver/search/twins.h"

namespace evenmat {
namespace {

// Thrown when a rule is no distance between places; caught before the door.
struct NoDistance {};

constexpr bool is_size(Variable v) { return v % 4 >= 2; }
constexpr Variable place_beside(Variable size) { return size - 2; }

// A distance: place `to` less place `from`, plus a constant; 0 is the origin.
struct Distance {
  int from = 0;
  int to = 0;
  Rational constant;
};

// A rule about distances: `distance` >= 0, or >= the level of `nearest`.
struct DistanceRule {
  Distance distance;
  std::optional<Variable> nearest;
};

class Translation {
 public:
  Translation(const System& system, const Block& block, const std::vector<Sum>& raised,
              const std::vector<Sum>& in_order, Prover& prover)
      : system_(system), block_(block), raised_(raised), in_order_(in_order), prover_(prover) {}

  ArrangedBlock solve() {
    if (!block_.whole.empty()) throw NoDistance{};
    for (const Sum& sum : raised_) {
      if (const auto nearest = as_nearest(sum)) nearest_.emplace(*nearest, static_cast<int>(nearest_.size()));
    }
    for (const Variable v : block_.variables) {
      if (!nearest_.contains(v)) name_place(v);
    }
    const bool sizes = std::any_of(block_.variables.begin(), block_.variables.end(),
                                   [&](Variable v) { return system_.is_whole(v); });
    translate();
    twins_ = twins(
        block_, raised_, first_helper(), [&](Variable box) { return meaning_.contains(4 * box); }, in_order_);
    set_scale(sizes);
    return sizes ? solve_sizes() : solve_places();
  }

 private:
  // A place's own sum; a size is the place of its box's far edge less that of the near one.
  void name_place(Variable v) {
    if (v >= first_helper()) throw NoDistance{};
    const int place = static_cast<int>(places_.size()) + 1;
    if (!is_size(v)) {
      if (system_.is_whole(v)) throw NoDistance{};
      places_.push_back(Sum::of(v));
      meaning_.emplace(v, Distance{0, place, 0});
      return;
    }
    if (!system_.is_whole(v)) throw NoDistance{};
    const Sum near = system_.reduce(Sum::of(place_beside(v)));
    if (near.terms().size() > 1) throw NoDistance{};
    places_.push_back(near + Sum::of(v));
    if (near.is_constant()) {
      meaning_.emplace(v, Distance{0, place, -near.constant()});
    } else if (near.terms().front().variable == v && near.terms().front().factor == -1) {
      places_.back() = near;  // the far edge is fixed: the near one is the place
      meaning_.emplace(v, Distance{place, 0, near.constant()});
    } else if (near.terms().front().factor == 1 && !is_size(near.terms().front().variable)) {
      sizes_from_.emplace(v, std::pair{near, place});
    } else {
      throw NoDistance{};
    }
  }

  [[nodiscard]] std::optional<Variable> as_nearest(const Sum& sum) const {
    // Helper variables come after those of the rectangles.
    if (sum.terms().size() != 1 || sum.terms().front().factor != 1 || sum.constant() != 0)
      return std::nullopt;
    const Variable v = sum.terms().front().variable;
    return v >= first_helper() ? std::optional(v) : std::nullopt;
  }

  [[nodiscard]] Variable first_helper() const { return system_.first_helper(); }

  Distance distance_of(const Sum& sum) const {
    Distance distance{0, 0, sum.constant()};
    std::map<int, Rational> factors;
    const auto add = [&](const Distance& part, const Rational& factor) {
      if (part.to != 0) factors[part.to] += factor;
      if (part.from != 0) factors[part.from] -= factor;
      distance.constant += part.constant * factor;
    };
    for (const Term& term : sum.terms()) {
      if (const auto from = sizes_from_.find(term.variable); from != sizes_from_.end()) {
        const auto& [near, place] = from->second;
        add({0, place, 0}, term.factor);
        add(meaning_of(near.terms().front().variable), -term.factor);
        distance.constant -= near.constant() * term.factor;
      } else {
        add(meaning_of(term.variable), term.factor);
      }
    }
    for (const auto& [place, factor] : factors) {
      if (factor == 0) continue;
      int& end = factor == 1 ? distance.to : distance.from;
      if ((factor != 1 && factor != -1) || end != 0) throw NoDistance{};
      end = place;
    }
    return distance;
  }

  [[nodiscard]] const Distance& meaning_of(Variable v) const {
    const auto found = meaning_.find(v);
    if (found == meaning_.end()) throw NoDistance{};
    return found->second;
  }

  // relation.sum <= 0, as 0 <= -sum, or as the level of a nearest distance <= the rest.
  std::optional<DistanceRule> rule_of(const Relation& relation) const {
    if (relation.equal) throw NoDistance{};
    Sum rest = relation.sum * Rational(-1);
    std::optional<Variable> nearest;
    Rational scale = 1;
    for (const Term& term : relation.sum.terms()) {
      if (!nearest_.contains(term.variable)) continue;
      if (nearest) throw NoDistance{};
      nearest = term.variable;
      scale = term.factor;
    }
    if (nearest) {
      if (scale < 0) {
        // A nearest distance is at least something: so are the gaps that it is the nearest of.
        if (relation.sum.terms().size() == 1) return std::nullopt;
        throw NoDistance{};
      }
      rest += Sum::of(*nearest, scale);
      rest *= 1 / scale;
    } else if (!rest.terms().empty()) {
      const Rational size = abs(rest.terms().front().factor);
      rest *= 1 / size;
    }
    return DistanceRule{distance_of(rest), nearest};
  }

  void translate() {
    for (const Relation& relation : block_.relations) {
      if (const auto rule = rule_of(relation)) rules_.push_back(*rule);
    }
    for (const OpenChoice& choice : block_.choices) {
      choices_.emplace_back();
      for (const Option& option : choice.options) {
        choices_.back().emplace_back();
        for (const Relation& relation : option.relations) {
          if (const auto rule = rule_of(relation)) choices_.back().back().push_back(*rule);
        }
      }
    }
    for (const Sum& sum : raised_) {
      if (!as_nearest(sum)) entries_.push_back(distance_of(sum));
    }
    for (const Sum& sum : in_order_) ordered_.push_back(distance_of(sum));
  }

  [[nodiscard]] Distance difference(Variable to, Variable from) const {
    return {meaning_of(from).to, meaning_of(to).to, 0};
  }

  void set_scale(bool sizes) {
    const auto fit = [&](const Rational& length) {
      unit_ = boost::multiprecision::lcm(unit_, boost::multiprecision::denominator(length));
      if (unit_ > (Integer(1) << 60)) throw NoDistance{};
    };
    const auto fit_rules = [&](const std::vector<DistanceRule>& rules) {
      for (const DistanceRule& rule : rules) fit(rule.distance.constant);
    };
    fit(system_.mark());
    fit_rules(rules_);
    for (const auto& choice : choices_) {
      for (const auto& option : choice) fit_rules(option);
    }
    for (const Distance& entry : entries_) fit(entry.constant);
    if (!sizes) return;
    // Whole sizes follow from whole places only where everything is on the marks.
    const auto on_marks = [&](const Rational& length) {
      if (!is_multiple(length, system_.mark())) throw NoDistance{};
    };
    for (const DistanceRule& rule : rules_) on_marks(rule.distance.constant);
    for (const auto& choice : choices_) {
      for (const auto& option : choice) {
        for (const DistanceRule& rule : option) on_marks(rule.distance.constant);
      }
    }
    for (const Distance& entry : entries_) on_marks(entry.constant);
  }

  // distance >= level: to >= from - constant + level.
  [[nodiscard]] Arc arc_of(const Distance& distance, int entry) const {
    return {distance.from, distance.to, wide_of(-distance.constant, unit_), entry};
  }

  // Twins to which nothing has been given that the other has not, from left to right.
  void put_in_order(Arrangement& made, const std::map<int, std::vector<Rational>>& given) const {
    for (const auto& [first, second] : twins_) {
      const auto of = [&](Variable box) {
        std::vector<Rational> all;
        for (const Variable v : {4 * box + 2, 4 * box + 3}) {
          const auto size = sizes_from_.find(v);
          const auto found = size == sizes_from_.end() ? given.end() : given.find(size->second.second);
          if (found != given.end()) all.insert(all.end(), found->second.begin(), found->second.end());
          all.emplace_back(-1);
        }
        return all;
      };
      if (of(first) == of(second)) made.arcs.push_back(arc_of(difference(4 * second, 4 * first), -1));
    }
  }

  [[nodiscard]] Arrangement arrangement(bool sizes) const {
    Arrangement made;
    made.places = static_cast<int>(places_.size()) + 1;
    made.entries = static_cast<int>(nearest_.size() + entries_.size());
    made.scale = wide_of(1, unit_);
    made.grid = sizes ? wide_of(system_.mark(), unit_) : Wide(0);
    const auto arcs = [&](const std::vector<DistanceRule>& rules) {
      std::vector<Arc> list;
      for (const DistanceRule& rule : rules) {
        list.push_back(arc_of(rule.distance, rule.nearest ? nearest_.at(*rule.nearest) : -1));
      }
      return list;
    };
    made.arcs = arcs(rules_);
    for (std::size_t i = 0; i < entries_.size(); ++i) {
      made.arcs.push_back(arc_of(entries_[i], entry_number(i)));
    }
    for (const auto& choice : choices_) {
      made.choices.emplace_back();
      for (const auto& option : choice) made.choices.back().options.push_back(arcs(option));
    }
    return made;
  }

  [[nodiscard]] int entry_number(std::size_t i) const { return static_cast<int>(nearest_.size() + i); }

  [[nodiscard]] std::function<bool()> go_on() const {
    return [this] { return !prover_.time_is_up(); };
  }

  // No arrangement at all, where one is known to be possible: time ran out.
  void need(const std::optional<Arranged>& best) const {
    if (best) return;
    prover_.check_time();
    throw NoDistance{};
  }

  static Rational measured(const Distance& distance, const std::vector<Rational>& places) {
    return places[static_cast<std::size_t>(distance.to)] - places[static_cast<std::size_t>(distance.from)] +
           distance.constant;
  }

  // All that is asked last is a place made least: it comes with the arrangement.
  ArrangedBlock solve_places() {
    Arrangement made = arrangement(false);
    for (const Distance& place : ordered_) {
      if (place.to != 0 || place.from == 0) throw NoDistance{};
      made.least.push_back(place.from);
    }
    put_in_order(made, {});
    const auto best = arrange(made, std::nullopt, go_on());
    need(best);
    return answer(best->places, best->proven);
  }

  // The levels first; then, one after the other, the largest size that still allows them.
  ArrangedBlock solve_sizes() {
    Arrangement made = arrangement(true);
    Arrangement in_order = made;
    put_in_order(in_order, {});
    auto best = arrange(in_order, std::nullopt, go_on());
    need(best);
    std::map<int, std::vector<Rational>> given;  // by the place of the far edge
    std::vector<Rational> left = best->levels;
    std::set<std::pair<int, int>> told;
    for (const Distance& size : ordered_) {
      if (size.from == 0 && size.to == 0) continue;
      const auto entry = std::find_if(entries_.begin(), entries_.end(), [&](const Distance& other) {
        return other.from == size.from && other.to == size.to;
      });
      if (entry == entries_.end()) throw NoDistance{};
      if (!told.emplace(size.from, size.to).second) continue;
      if (!best->proven || !fix_largest(made, *best, *entry, left, given)) return answer(best->places, false);
    }
    return answer(best->places, best->proven);
  }

  // The largest of the levels left that this size can have. False when time runs out.
  bool fix_largest(Arrangement& made, Arranged& best, const Distance& size, std::vector<Rational>& left,
                   std::map<int, std::vector<Rational>>& given) const {
    const Rational now = measured(size, best.places);
    for (std::size_t i = left.size(); i-- > 0;) {
      if (i + 1 < left.size() && left[i] == left[i + 1]) continue;
      if (left[i] < now) break;
      Arrangement trial = made;
      Distance less = size;
      less.constant -= left[i];
      trial.arcs.push_back(arc_of(less, -1));
      trial.arcs.push_back({less.to, less.from, -arc_of(less, -1).length, -1});
      if (left[i] > now) {
        Arrangement in_order = trial;
        auto with_this = given;
        with_this[size.to].push_back(left[i]);
        put_in_order(in_order, with_this);
        auto found = arrange(in_order, best.levels, go_on());
        if (!found && prover_.time_is_up()) return false;
        if (!found) continue;
        best = std::move(*found);
        best.proven = true;  // any that keeps the levels will do
      }
      given[size.to].push_back(left[i]);
      made.arcs = std::move(trial.arcs);
      left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
      return true;
    }
    throw NoDistance{};
  }

  [[nodiscard]] ArrangedBlock answer(const std::vector<Rational>& places, bool finished) const {
    ArrangedBlock told;
    told.finished = finished;
    for (const Variable v : block_.variables) {
      if (!nearest_.contains(v)) told.values.emplace_back(v, measured(distance_of(Sum::of(v)), places));
    }
    if (finished) told.settled = settled(places);
    return told;
  }

  [[nodiscard]] std::vector<Relation> settled(const std::vector<Rational>& places) const {
    std::vector<Relation> relations;
    const auto tell = [&](const std::vector<Sum>& sums) {
      for (const Sum& sum : sums) {
        if (as_nearest(sum)) continue;
        relations.push_back(equals(sum, Sum(measured(distance_of(sum), places))));
      }
    };
    tell(raised_);
    tell(in_order_);
    return relations;
  }

  const System& system_;
  const Block& block_;
  const std::vector<Sum>& raised_;
  const std::vector<Sum>& in_order_;
  Prover& prover_;
  std::map<Variable, int> nearest_;                     // helper -> entry
  std::vector<Sum> places_;                             // place i + 1
  std::map<Variable, Distance> meaning_;                // of variables that are a distance
  std::map<Variable, std::pair<Sum, int>> sizes_from_;  // size -> near edge, place of the far edge
  std::vector<DistanceRule> rules_;
  std::vector<std::vector<std::vector<DistanceRule>>> choices_;
  std::vector<Distance> entries_;
  std::vector<Distance> ordered_;
  std::vector<std::pair<Variable, Variable>> twins_;
  Integer unit_ = 1;
};

}  // namespace

std::optional<ArrangedBlock> arrange_block(const System& system, const Block& block,
                                           const std::vector<Sum>& raised, const std::vector<Sum>& in_order,
                                           Prover& prover) {
  try {
    return Translation(system, block, raised, in_order, prover).solve();
  } catch (const NoDistance&) {
    return std::nullopt;
  } catch (const TooFine&) {
    return std::nullopt;
  }
}

}  // namespace evenmat
