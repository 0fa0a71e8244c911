#include "solver/explore/reduced.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace evenmat::exploring {
namespace {

constexpr std::size_t most_from_one_place = 64;  // relations that taking it out may make

Rational factor_of(const Sum& sum, Variable variable) {
  for (const Term& term : sum.terms()) {
    if (term.variable == variable) return term.factor;
  }
  return 0;
}

// Adds a relation unless it says nothing or is there already, up to a factor. False when it cannot hold.
bool add(std::vector<Relation>& relations, Relation relation) {
  if (relation.sum.is_constant()) return relation.sum.constant() <= 0;
  const Rational lead = abs(relation.sum.terms().front().factor);
  if (lead != 1) relation.sum *= Rational(1) / lead;
  for (Relation& other : relations) {
    const auto& a = other.sum.terms();
    const auto& b = relation.sum.terms();
    const bool same =
        a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](const Term& x, const Term& y) {
          return x.variable == y.variable && x.factor == y.factor;
        });
    if (!same) continue;
    if (relation.sum.constant() > other.sum.constant()) other = std::move(relation);
    return true;
  }
  relations.push_back(std::move(relation));
  return true;
}

class Reducer {
 public:
  explicit Reducer(Reduced& reduced) : reduced_(reduced) {}

  bool run() {
    if (!gather()) return false;
    if (!take_out_places()) return false;
    deal_out();
    return true;
  }

 private:
  bool gather() {
    for (const Block& block : reduced_.system.split({})) {
      for (const Relation& relation : block.relations) {
        if (!add(relations_, {reduced_.known.reduce(relation.sum), false})) return false;
      }
      for (const Sum& sum : block.whole) {
        if (!add_whole(sum)) return false;
      }
      for (const Variable variable : block.variables) {
        if (!reduced_.system.is_whole(variable)) continue;
        if (!add_whole(Sum::of(variable))) return false;
      }
      for (const OpenChoice& choice : block.choices) {
        if (!add_choice(choice)) return false;
      }
    }
    return true;
  }

  bool add_whole(const Sum& sum) {
    Sum left = reduced_.known.reduce(sum);
    if (left.is_constant()) return is_multiple(left.constant(), reduced_.system.mark());
    whole_.push_back(std::move(left));
    return true;
  }

  bool add_choice(const OpenChoice& choice) {
    OpenChoice left;
    left.rule = choice.rule;
    for (const Option& option : choice.options) {
      Option rest;
      rest.index = option.index;
      bool possible = true;
      for (const Relation& relation : option.relations) {
        const Sum sum = reduced_.known.reduce(relation.sum);
        if (!sum.is_constant()) {
          rest.relations.push_back({sum, relation.equal});
        } else if (sum.constant() > 0 || (relation.equal && sum.constant() != 0)) {
          possible = false;
        }
      }
      if (!possible) continue;
      if (rest.relations.empty()) return true;
      left.options.push_back(std::move(rest));
    }
    if (left.options.empty()) return false;
    choices_.push_back(std::move(left));
    return true;
  }

  [[nodiscard]] std::vector<Variable> places_in(const Sum& sum) const {
    std::vector<Variable> places;
    for (const Term& term : sum.terms()) {
      if (!reduced_.is_amount(term.variable)) places.push_back(term.variable);
    }
    return places;
  }

  bool take_out_places() {
    std::set<Variable> kept;
    for (const OpenChoice& choice : choices_) {
      for (const Option& option : choice.options) {
        for (const Relation& relation : option.relations) {
          for (const Variable place : places_in(relation.sum)) kept.insert(place);
        }
      }
    }
    for (const Sum& sum : whole_) {
      for (const Variable place : places_in(sum)) kept.insert(place);
    }
    std::set<Variable> open;
    for (const Relation& relation : relations_) {
      for (const Variable place : places_in(relation.sum)) {
        if (!kept.contains(place)) open.insert(place);
      }
    }
    for (const Variable place : open) {
      if (!take_out(place)) return false;
    }
    return true;
  }

  bool take_out(Variable place) {
    std::vector<Relation> below;
    std::vector<Relation> above;
    std::vector<Relation> others;
    for (Relation& relation : relations_) {
      const Rational factor = factor_of(relation.sum, place);
      (factor == 0 ? others : factor < 0 ? below : above).push_back(std::move(relation));
    }
    if (below.size() * above.size() > most_from_one_place) {
      relations_ = std::move(others);
      for (std::vector<Relation>* some : {&below, &above}) {
        relations_.insert(relations_.end(), std::make_move_iterator(some->begin()),
                          std::make_move_iterator(some->end()));
      }
      return true;
    }
    relations_ = std::move(others);
    for (const Relation& low : below) {
      for (const Relation& high : above) {
        Sum sum = low.sum * factor_of(high.sum, place);
        sum.add(high.sum, -factor_of(low.sum, place));
        if (!add(relations_, {std::move(sum), false})) return false;
      }
    }
    return true;
  }

  // What speaks of amounts alone goes to them, the rest into blocks that share no place.
  void deal_out() {
    std::map<Variable, Variable> parent;
    const auto root = [&](Variable v) {
      parent.try_emplace(v, v);
      while (parent[v] != v) v = parent[v];
      return v;
    };
    const auto join = [&](const std::vector<Variable>& places) {
      for (const Variable place : places) parent[root(place)] = root(places.front());
    };
    const auto places_of_choice = [&](const OpenChoice& choice) {
      std::vector<Variable> places;
      for (const Option& option : choice.options) {
        for (const Relation& relation : option.relations) {
          for (const Variable place : places_in(relation.sum)) places.push_back(place);
        }
      }
      return places;
    };
    for (const Relation& relation : relations_) join(places_in(relation.sum));
    for (const Sum& sum : whole_) join(places_in(sum));
    for (const OpenChoice& choice : choices_) join(places_of_choice(choice));

    std::map<Variable, Block> blocks;
    for (Relation& relation : relations_) {
      const std::vector<Variable> places = places_in(relation.sum);
      auto& into = places.empty() ? reduced_.relations : blocks[root(places.front())].relations;
      into.push_back(std::move(relation));
    }
    for (Sum& sum : whole_) {
      const std::vector<Variable> places = places_in(sum);
      auto& into = places.empty() ? reduced_.whole : blocks[root(places.front())].whole;
      into.push_back(std::move(sum));
    }
    for (OpenChoice& choice : choices_) {
      const std::vector<Variable> places = places_of_choice(choice);
      auto& into = places.empty() ? reduced_.choices : blocks[root(places.front())].choices;
      into.push_back(std::move(choice));
    }
    for (auto& [first, block] : blocks) {
      std::set<Variable> variables;
      const auto note = [&](const Sum& sum) {
        for (const Term& term : sum.terms()) variables.insert(term.variable);
      };
      for (const Relation& relation : block.relations) note(relation.sum);
      for (const Sum& sum : block.whole) note(sum);
      for (const OpenChoice& choice : block.choices) {
        for (const Option& option : choice.options) {
          for (const Relation& relation : option.relations) note(relation.sum);
        }
      }
      block.variables.assign(variables.begin(), variables.end());
      reduced_.rest.push_back(std::move(block));
    }
  }

  Reduced& reduced_;
  std::vector<Relation> relations_;
  std::vector<Sum> whole_;
  std::vector<OpenChoice> choices_;
};

}  // namespace

bool Reduced::follows(const Sum& reduced) const {
  return std::all_of(reduced.terms().begin(), reduced.terms().end(),
                     [&](const Term& term) { return is_amount(term.variable); });
}

std::optional<Reduced> reduced_to(System settled, const std::vector<Amount>& amounts) {
  for (const Amount& amount : amounts) {
    for (std::size_t i = 1; i < amount.sums.size(); ++i)
      settled.add(equals(amount.sums[i], amount.sums.front()));
  }
  if (!settled.settle()) return std::nullopt;
  Reduced reduced{std::move(settled), {}, {}, {}, {}, {}, {}, {}};
  for (std::size_t i = 0; i < amounts.size(); ++i) reduced.amounts.push_back(reduced.system.fresh());
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    // Amounts stay and lengths go; of amounts the first stays.
    const auto keep = [&](Variable v) { return reduced.is_amount(v) ? 1 : 0; };
    const Sum sum = amounts[i].sums.empty() ? Sum(0) : reduced.system.reduce(amounts[i].sums.front());
    reduced.known.add(sum - Sum::of(reduced.amounts[i]), keep);
  }
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    if (reduced.known.solved(reduced.amounts[i]) == nullptr) reduced.free.push_back(i);
  }
  if (!Reducer(reduced).run()) return std::nullopt;
  return reduced;
}

}  // namespace evenmat::exploring
