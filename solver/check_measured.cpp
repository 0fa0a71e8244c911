// A card whose sizes are all stated, from a drawing or from measuring a finished card, held against its
// rules.
//
// What is stated exactly and can be measured is taken as measured: sizes, artwork, distances from an edge,
// the cut-back. All of it is held as it is, on the marks or not, and every other rule is told with how far
// off it is then: borders, margins, gaps, clearances, the maker's own rules, ranges, and what is given
// (things lie inside what they are on, do not overlap, leave artwork uncovered, have sizes on the marks).
// Places that nobody measured, and sizes that follow from exact borders alone, are such that the greatest
// miss is least, and then the total of misses, each part of the card by itself. A size that no exact wishes
// settle is asked for first.
//
// Measurements may contradict one another (left, width and right that do not add up to what the layer is on).
// They cannot all be right then, and nothing says which is wrong: spread over all of them, what is missing
// may well be within what measuring is good for. So of those that hang together with a contradiction the
// greatest miss is made least, then the total; they are held that near, and told with their misses. The rest
// of the card stays as measured, and no other rule pulls at a measurement.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <utility>

#include "solver/check_hand.h"
#include "solver/exact/equations.h"
#include "solver/why/inside.h"
#include "solver/why/least_misses.h"
#include "solver/why/spots.h"

namespace evenmat {
namespace {

// The wishes of a design that are measurements.
std::set<Spot> measured_spots(const Design& design) {
  std::set<Spot> spots;
  const auto take = [&](const std::optional<Wish>& wish) {
    if (wish && wish->exact() && wish->one_of.empty()) spots.insert(wish->spot);
  };
  for (const Piece& piece : design.pieces) {
    for (const auto* size : {&piece.size, &piece.artwork}) {
      if (*size) spots.insert((*size)->spot);
    }
    for (const auto* wish : {&piece.width, &piece.height, &piece.from_left, &piece.from_right,
                             &piece.from_top, &piece.from_bottom}) {
      take(*wish);
    }
  }
  if (design.base.cut_back) take(design.base.cut_back->by);
  return spots;
}

bool is_given_equation(const Rule& rule) {
  return rule.origin == Origin::given && rule.choices.size() == 1 &&
         std::all_of(rule.choices.front().begin(), rule.choices.front().end(),
                     [](const Relation& relation) { return relation.equal; });
}

Rational miss_of(const Relation& relation, const Rational& value) {
  return relation.equal ? Rational(abs(value)) : std::max(Rational(0), value);
}

class Measurer {
 public:
  Measurer(const Card& card, const CheckOptions& options)
      : card_(card),
        options_(options),
        prover_(options.limit, options.seed),
        rules_(with_all_inside(rules_of(card), card)) {}

  MeasuredCard run(const Rational& tolerance) {
    take_measurements();
    MeasuredCard measured;
    measured.not_stated = sizes_not_stated();
    if (!measured.not_stated.empty()) {
      measured.verdict = Verdict::undecided;
      return measured;
    }
    try {
      hold_contradicting();
      measured.rules = told();
    } catch (const OutOfTime&) {
      measured.verdict = Verdict::undecided;
      return measured;
    }
    const bool off = std::any_of(measured.rules.begin(), measured.rules.end(),
                                 [&](const Measured& rule) { return rule.off > tolerance; });
    if (off) measured.verdict = Verdict::conflict;
    return measured;
  }

 private:
  // Rules that are told as one.
  struct Item {
    std::vector<std::size_t> rules;
    std::vector<Rational> misses;
  };

  [[nodiscard]] const Design& design(std::size_t version) const {
    return version == 0 ? card_.design : card_.variants[version - 1].design;
  }

  bool add(Equations& equations, const Sum& sum) const {
    return equations.add(sum, [](Variable) { return 0; });
  }

  // Fills `held_`, `contradicting_`, `exact_` and `first_`.
  void take_measurements() {
    std::vector<std::set<Spot>> spots;
    for (std::size_t i = 0; i <= card_.variants.size(); ++i) spots.push_back(measured_spots(design(i)));
    std::vector<Sum> measured;
    for (const Rule& rule : rules_.rules) {
      if (is_given_equation(rule)) {
        for (const Relation& relation : rule.choices.front()) hold(relation.sum);
      } else if (rule.origin == Origin::stated && spots[rule.version].contains(rule.spot)) {
        // What is exact comes first, be it as one equation or as a least and a most that are the same.
        measured.push_back(rule.choices.front().front().sum);
      }
    }
    hold_consistent(measured);
    for (const Rule& rule : rules_.rules) {
      if (rule.origin != Origin::stated || rule.choices.size() != 1) continue;
      for (const Relation& relation : rule.choices.front()) {
        if (relation.equal) add(first_, relation.sum);
      }
    }
  }

  void hold(const Sum& sum) {
    held_.push_back({sum, true});
    add(exact_, sum);
    add(first_, sum);
  }

  // Measurements that share a length hang together; those that fit are held.
  void hold_consistent(const std::vector<Sum>& measured) {
    std::vector<Sum> open;
    for (const Sum& sum : measured) open.push_back(exact_.reduce(sum));
    std::vector<std::size_t> parent(rules_.variables());
    std::iota(parent.begin(), parent.end(), std::size_t{0});
    const auto root = [&](std::size_t v) {
      while (parent[v] != v) v = parent[v] = parent[parent[v]];
      return v;
    };
    for (const Sum& sum : open) {
      for (const Term& term : sum.terms()) parent[root(term.variable)] = root(sum.terms().front().variable);
    }
    std::set<std::size_t> contradicted;  // roots
    for (std::size_t i = 0; i < measured.size(); ++i) {
      const bool fits = add(first_, measured[i]);
      if (!fits && !open[i].is_constant()) contradicted.insert(root(open[i].terms().front().variable));
    }
    for (std::size_t i = 0; i < measured.size(); ++i) {
      if (open[i].is_constant()) continue;  // settled by what is given, rightly or not
      if (contradicted.contains(root(open[i].terms().front().variable))) {
        contradicting_.push_back(measured[i]);
      } else {
        held_.push_back({measured[i], true});
        add(exact_, measured[i]);
      }
    }
  }

  // Holds what contradicts itself as near as it can be.
  void hold_contradicting() {
    if (contradicting_.empty()) return;
    std::vector<Wanted> wanted;
    for (const Sum& sum : contradicting_) wanted.push_back({{{{{sum, true}}}}, 0});
    const auto misses = least_misses(held_, wanted, rules_.mark, rules_.variables(), prover_);
    for (std::size_t i = 0; i < contradicting_.size(); ++i) {
      held_.push_back(at_most(contradicting_[i], misses[i].front()));
      held_.push_back(at_least(contradicting_[i], -misses[i].front()));
    }
  }

  [[nodiscard]] std::vector<std::string> sizes_not_stated() const {
    std::vector<std::string> names;
    const auto tell = [&](const std::string& name, std::size_t version) {
      if (std::find(names.begin(), names.end(), name) != names.end()) return;
      names.push_back(version == 0 ? name
                                   : fmt::format("{}, {}", name, card_.variants[version - 1].name.value));
    };
    for (std::size_t i = 0; i <= card_.variants.size(); ++i) {
      const auto& cut_back = design(i).base.cut_back;
      if (cut_back && !measured_spots(design(i)).contains(cut_back->by.spot)) tell("the cut-back", i);
    }
    for (std::size_t i = 0; i < rules_.rectangles.size(); ++i) {
      const Rectangle& it = rules_.rectangles[i];
      if (it.kind != Rectangle::Kind::layer && it.kind != Rectangle::Kind::window) continue;
      for (const Measure measure : {Measure::width, Measure::height}) {
        if (first_.reduce(Sum::of(variable(i, measure))).is_constant()) continue;
        tell(fmt::format("the {} of {}", measure == Measure::width ? "width" : "height", it.name),
             it.version);
      }
    }
    return names;
  }

  // A wish is one, and so is what is given of one thing in the same words.
  [[nodiscard]] std::vector<Item> items() const {
    std::vector<Item> found;
    std::map<std::pair<std::size_t, std::string>, std::size_t> known;
    for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
      const Rule& rule = rules_.rules[i];
      if (is_given_equation(rule)) continue;
      const auto key = rule.origin == Origin::stated ? std::pair(rule.wish, std::string())
                                                     : std::pair(rule.version, rule.says);
      const auto [entry, fresh] = known.try_emplace(key, found.size());
      if (fresh) found.emplace_back();
      found[entry->second].rules.push_back(i);
    }
    return found;
  }

  // What a rule misses by, if what is held settles that.
  [[nodiscard]] std::optional<Rational> settled_miss(const Rule& rule) const {
    std::optional<Rational> least;
    for (const auto& choice : rule.choices) {
      Rational most = 0;
      for (const Relation& relation : choice) {
        const Sum sum = exact_.reduce(relation.sum);
        if (!sum.is_constant()) return std::nullopt;
        most = std::max(most, miss_of(relation, sum.constant()));
      }
      if (!least || most < *least) least = most;
    }
    return least;
  }

  void find_misses(std::vector<Item>& items) {
    std::vector<Wanted> wanted;
    std::vector<std::pair<std::size_t, std::vector<std::size_t>>> open;  // item, and which of its rules
    for (std::size_t i = 0; i < items.size(); ++i) {
      Wanted one;
      std::vector<std::size_t> which;
      for (std::size_t j = 0; j < items[i].rules.size(); ++j) {
        const Rule& rule = rules_.rules[items[i].rules[j]];
        const auto miss = settled_miss(rule);
        items[i].misses.push_back(miss.value_or(0));
        one.at_least = std::max(one.at_least, items[i].misses.back());
        if (miss) continue;
        one.rules.push_back(rule.choices);
        which.push_back(j);
      }
      if (which.empty()) continue;
      wanted.push_back(std::move(one));
      open.emplace_back(i, std::move(which));
    }
    if (wanted.empty()) return;
    if (options_.at_work) options_.at_work("placing what was not measured");
    const auto misses = least_misses(held_, wanted, rules_.mark, rules_.variables(), prover_);
    for (std::size_t i = 0; i < open.size(); ++i) {
      for (std::size_t j = 0; j < open[i].second.size(); ++j) {
        items[open[i].first].misses[open[i].second[j]] = misses[i][j];
      }
    }
  }

  std::vector<Measured> told() {
    std::vector<Item> all = items();
    find_misses(all);
    std::vector<Measured> stated;
    std::vector<Measured> given;
    for (const Item& item : all) {
      const auto worst = std::max_element(item.misses.begin(), item.misses.end());
      const Rule& rule = rules_.rules[item.rules[static_cast<std::size_t>(worst - item.misses.begin())]];
      const Measured measured{rule.says, spot_to_show(card_, rules_, rule), *worst};
      if (rule.origin == Origin::stated) {
        tell(measured, stated, [&](const Measured& other) { return other.spot == measured.spot; });
      } else if (*worst > 0) {
        tell_given(measured, given);
      }
    }
    tell_marks(given);
    stated.insert(stated.end(), given.begin(), given.end());
    std::stable_sort(stated.begin(), stated.end(),
                     [](const Measured& a, const Measured& b) { return a.spot < b.spot; });
    return stated;
  }

  // A variant's rule that is the plain card's too is told once, as it is worst.
  template <typename Same>
  static void tell(const Measured& rule, std::vector<Measured>& list, Same is_same) {
    const auto same = std::find_if(list.begin(), list.end(), is_same);
    if (same == list.end()) {
      list.push_back(rule);
    } else if (rule.off > same->off) {
      *same = rule;
    }
  }
  static void tell_given(const Measured& rule, std::vector<Measured>& list) {
    tell(rule, list,
         [&](const Measured& other) { return other.spot == rule.spot && other.says == rule.says; });
  }

  // Sizes between the marks, by the distance to the nearest.
  void tell_marks(std::vector<Measured>& list) const {
    for (std::size_t i = 0; i < rules_.rectangles.size(); ++i) {
      const Rectangle& it = rules_.rectangles[i];
      for (const Measure measure : {Measure::width, Measure::height}) {
        if (!(measure == Measure::width ? it.width_on_marks : it.height_on_marks)) continue;
        const Variable size = variable(i, measure);
        const Sum stated = first_.reduce(Sum::of(size));
        const Rational below = round_down(stated.constant(), rules_.mark);
        const Rational off =
            std::min(Rational(stated.constant() - below), Rational(below + rules_.mark - stated.constant()));
        if (is_multiple(stated.constant(), rules_.mark)) continue;
        tell_given({fmt::format("the {} of {} falls on the marks",
                                measure == Measure::width ? "width" : "height", it.name),
                    spot_of_size(size), off},
                   list);
      }
    }
  }

  // Where a size is stated; else the name of whose it is.
  [[nodiscard]] Spot spot_of_size(Variable size) const {
    for (const Rule& rule : rules_.rules) {
      if (rule.origin != Origin::stated || rule.choices.size() != 1) continue;
      const auto& terms = rule.choices.front().front().sum.terms();
      if (terms.size() == 1 && terms.front().variable == size) return rule.spot;
    }
    for (const Piece& piece : design(rules_.rectangles[size / 4].version).pieces) {
      if (piece.name.value == rules_.rectangles[size / 4].name) return piece.name.spot;
    }
    return {};
  }

  const Card& card_;
  const CheckOptions& options_;
  Prover prover_;  // its time runs from here
  Rules rules_;
  std::vector<Relation> held_;      // what is given exactly, and what was measured
  std::vector<Sum> contradicting_;  // measurements that cannot all be 0
  Equations exact_;                 // what is held exactly, solved
  // With all measurements too, and then all other exact wishes, but those that contradict an earlier one.
  Equations first_;
};

}  // namespace

MeasuredCard check_measured(const Card& card, const Rational& tolerance, const CheckOptions& options) {
  return Measurer(card, options).run(tolerance);
}

}  // namespace evenmat
