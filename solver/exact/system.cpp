#include "solver/exact/system.h"

#include <algorithm>

namespace evenmat {
namespace {

// Following bounds round a circle of rules can go on for ever in ever smaller steps; what is not settled
// after this many rounds is left to the search.
constexpr int most_rounds = 12;

// value / factor, sparing the division for the factors that most rules have.
Rational divided(Rational value, const Rational& factor) {
  if (factor == 1) return value;
  if (factor == -1) return -value;
  return value / factor;
}

}  // namespace

Interval System::range(const Sum& reduced) const {
  Interval range{reduced.constant(), reduced.constant()};
  for (const Term& term : reduced.terms()) {
    const Interval& bound = bounds_[term.variable];
    const std::optional<Rational>& low = term.factor > 0 ? bound.low : bound.high;
    const std::optional<Rational>& high = term.factor > 0 ? bound.high : bound.low;
    if (range.low && low) {
      *range.low += term.factor * *low;
    } else {
      range.low.reset();
    }
    if (range.high && high) {
      *range.high += term.factor * *high;
    } else {
      range.high.reset();
    }
  }
  return range;
}

bool System::on_grid(const Sum& reduced) const {
  return std::all_of(reduced.terms().begin(), reduced.terms().end(), [&](const Term& term) {
    return is_whole(term.variable) && boost::multiprecision::denominator(term.factor) == 1;
  });
}

Variable System::fresh() {
  whole_.push_back(false);
  bounds_.emplace_back();
  return whole_.size() - 1;
}

std::optional<OpenChoice> System::take_choice(std::size_t rule) {
  const auto found = std::find_if(choices_.begin(), choices_.end(),
                                  [&](const OpenChoice& choice) { return choice.rule == rule; });
  if (found == choices_.end()) return std::nullopt;
  OpenChoice taken = std::move(*found);
  choices_.erase(found);
  return taken;
}

std::optional<std::size_t> System::decided(std::size_t rule) const {
  const auto found = decided_.find(rule);
  return found == decided_.end() ? std::nullopt : std::optional(found->second);
}

System::Standing System::standing(const Relation& reduced) const {
  const Interval values = range(reduced.sum);
  if (reduced.equal) {
    if (values.low && values.high && *values.low == 0 && *values.high == 0) return Standing::always;
    if ((values.low && *values.low > 0) || (values.high && *values.high < 0)) return Standing::never;
    return Standing::open;
  }
  if (values.high && *values.high <= 0) return Standing::always;
  if (values.low && *values.low > 0) return Standing::never;
  return Standing::open;
}

bool System::settle_equations(bool& changed) {
  // Cut sizes stay, for they fall on marks; of the rest a place is solved for first.
  const auto keep = [&](Variable v) { return is_whole(v) ? 2 : (v % 4 >= 2 ? 1 : 0); };
  std::vector<Relation> rest;
  rest.reserve(relations_.size());
  for (Relation& relation : relations_) {
    if (!relation.equal) {
      rest.push_back(std::move(relation));
      continue;
    }
    const std::size_t before = equations_.size();
    if (!equations_.add(relation.sum, keep)) return false;
    changed = changed || equations_.size() != before;
  }
  relations_ = std::move(rest);
  return true;
}

bool System::tighten(const Relation& relation, std::vector<bool>& moved) {
  // relation.sum <= 0: each term is at most what the others leave when they are least.
  const auto& terms = relation.sum.terms();
  const auto least_end = [&](const Term& term) -> const std::optional<Rational>& {
    const Interval& bound = bounds_[term.variable];
    return term.factor > 0 ? bound.low : bound.high;
  };
  Rational least = relation.sum.constant();
  const Term* unbounded = nullptr;
  for (const Term& term : terms) {
    if (const auto& end = least_end(term)) {
      least += term.factor * *end;
    } else if (unbounded != nullptr) {
      return true;
    } else {
      unbounded = &term;
    }
  }
  for (const Term& term : terms) {
    if (unbounded != nullptr && unbounded != &term) continue;
    Interval& bound = bounds_[term.variable];
    Rational others = -least;
    if (unbounded == nullptr) others += term.factor * *least_end(term);
    Rational end = divided(std::move(others), term.factor);
    std::optional<Rational>& limit = term.factor > 0 ? bound.high : bound.low;
    if (limit && (term.factor > 0 ? end >= *limit : end <= *limit)) continue;
    if (is_whole(term.variable)) {
      end = term.factor > 0 ? round_down(end, mark_) : round_up(end, mark_);
      if (limit && (term.factor > 0 ? end >= *limit : end <= *limit)) continue;
    }
    limit = std::move(end);
    moved[term.variable] = true;
    if (bound.low && bound.high && *bound.low > *bound.high) return false;
  }
  return true;
}

bool System::follow_bounds(bool& changed) {
  // In every round only relations over a variable whose bounds moved in the one before.
  std::vector<bool> moved(variables(), true);
  for (int round = 0; round < most_rounds; ++round) {
    std::vector<bool> moves(variables(), false);
    bool any = false;
    for (const Relation& relation : relations_) {
      const auto& terms = relation.sum.terms();
      if (std::none_of(terms.begin(), terms.end(),
                       [&](const Term& term) { return moved[term.variable] || moves[term.variable]; })) {
        continue;
      }
      any = true;
      if (!tighten(relation, moves)) return false;
    }
    if (!any) break;
    moved = std::move(moves);
  }
  for (Variable variable = 0; variable < bounds_.size(); ++variable) {
    const Interval& bound = bounds_[variable];
    if (bound.low && bound.high && *bound.low == *bound.high && equations_.solved(variable) == nullptr) {
      relations_.push_back(equals(Sum::of(variable), Sum(*bound.low)));
      changed = true;
    }
  }
  return true;
}

bool System::settle_choices(bool& changed) {
  std::vector<OpenChoice> open;
  for (OpenChoice& choice : choices_) {
    OpenChoice left;
    left.rule = choice.rule;
    bool satisfied = false;
    for (Option& option : choice.options) {
      Option rest;
      rest.index = option.index;
      bool possible = true;
      for (Relation& relation : option.relations) {
        relation.sum = equations_.reduce(relation.sum);
        const Standing now = standing(relation);
        if (now == Standing::never) possible = false;
        if (now == Standing::open) rest.relations.push_back(std::move(relation));
      }
      if (!possible) continue;
      if (rest.relations.empty()) satisfied = true;
      left.options.push_back(std::move(rest));
    }
    if (satisfied) continue;
    if (left.options.empty()) return false;
    if (left.options.size() == 1) {
      Option& only = left.options.front();
      if (left.rule) decided_[*left.rule] = only.index;
      for (Relation& relation : only.relations) relations_.push_back(std::move(relation));
      changed = true;
    } else {
      open.push_back(std::move(left));
    }
  }
  choices_ = std::move(open);
  return true;
}

bool System::settle_whole() {
  whole_sums_.clear();
  for (Variable variable = 0; variable < whole_.size(); ++variable) {
    if (!whole_[variable]) continue;
    const Sum* solution = equations_.solved(variable);
    if (solution == nullptr) continue;
    const bool constant_fits = is_multiple(solution->constant(), mark_);
    if (solution->is_constant()) {
      if (!constant_fits) return false;
      continue;
    }
    if (on_grid(*solution)) {
      if (!constant_fits) return false;
      continue;
    }
    whole_sums_.push_back(*solution);
  }
  return true;
}

bool System::settle() {
  for (bool changed = true; changed;) {
    changed = false;
    if (!settle_equations(changed)) return false;
    std::vector<Relation> open;
    open.reserve(relations_.size());
    for (Relation& relation : relations_) {
      relation.sum = equations_.reduce(relation.sum);
      if (relation.sum.is_constant()) {
        if (relation.sum.constant() > 0) return false;
        continue;
      }
      open.push_back(std::move(relation));
    }
    relations_ = std::move(open);
    if (!follow_bounds(changed)) return false;
    if (!settle_choices(changed)) return false;
  }
  // A single variable's bound is kept as a relation; one that its fellows imply says nothing new.
  return settle_whole();
}

std::vector<Block> System::split(const std::vector<Sum>& together) const {
  constexpr auto unused = static_cast<Variable>(-1);
  std::vector<Variable> parent(variables(), unused);
  const auto root = [&](Variable v) {
    if (parent[v] == unused) parent[v] = v;
    while (parent[v] != v) v = parent[v] = parent[parent[v]];
    return v;
  };
  const auto join_all = [&](const Sum& sum, std::optional<Variable> anchor) {
    for (const Term& term : sum.terms()) {
      const Variable r = root(term.variable);
      if (anchor) {
        parent[r] = root(*anchor);
      } else {
        anchor = r;
      }
    }
    return anchor;
  };
  for (const Relation& relation : relations_) join_all(relation.sum, std::nullopt);
  for (const OpenChoice& choice : choices_) {
    std::optional<Variable> anchor;
    for (const Option& option : choice.options) {
      for (const Relation& relation : option.relations) anchor = join_all(relation.sum, anchor);
    }
  }
  for (const Sum& sum : whole_sums_) join_all(sum, std::nullopt);
  for (const Sum& sum : together) join_all(sum, std::nullopt);

  std::vector<Block> blocks;
  std::map<Variable, std::size_t> at;
  for (Variable v = 0; v < parent.size(); ++v) {
    if (parent[v] == unused) continue;
    const auto [entry, fresh] = at.try_emplace(root(v), blocks.size());
    if (fresh) blocks.emplace_back();
    blocks[entry->second].variables.push_back(v);
  }
  const auto block_of = [&](const Sum& sum) -> Block& {
    return blocks[at.at(root(sum.terms().front().variable))];
  };
  for (const Relation& relation : relations_) block_of(relation.sum).relations.push_back(relation);
  for (const OpenChoice& choice : choices_) {
    block_of(choice.options.front().relations.front().sum).choices.push_back(choice);
  }
  for (const Sum& sum : whole_sums_) block_of(sum).whole.push_back(sum);
  for (std::size_t i = 0; i < together.size(); ++i) {
    if (together[i].is_constant()) continue;
    Block& block = block_of(together[i]);
    block.aims.push_back(together[i]);
    block.aim_of.push_back(i);
  }
  return blocks;
}

}  // namespace evenmat
