#include "solver/rule.h"

#include <algorithm>

namespace evenmat {

Sum Sum::of(Variable variable, Rational factor) {
  Sum sum;
  if (factor != 0) sum.terms_.push_back({variable, std::move(factor)});
  return sum;
}

Rational Sum::at(const std::vector<Rational>& values) const {
  Rational total = constant_;
  for (const Term& term : terms_) total += term.factor * values[term.variable];
  return total;
}

Sum& Sum::operator*=(const Rational& factor) {
  if (factor == 0) terms_.clear();
  for (Term& term : terms_) term.factor *= factor;
  constant_ *= factor;
  return *this;
}

Sum& Sum::add(const Sum& other, const Rational& factor) {
  constant_ += other.constant_ * factor;
  if (factor == 0 || other.terms_.empty()) return *this;
  std::vector<Term> merged;
  merged.reserve(terms_.size() + other.terms_.size());
  auto mine = terms_.begin();
  auto theirs = other.terms_.begin();
  while (mine != terms_.end() || theirs != other.terms_.end()) {
    if (theirs == other.terms_.end() || (mine != terms_.end() && mine->variable < theirs->variable)) {
      merged.push_back(std::move(*mine++));
    } else if (mine == terms_.end() || theirs->variable < mine->variable) {
      merged.push_back({theirs->variable, theirs->factor * factor});
      ++theirs;
    } else {
      const Rational together = mine->factor + theirs->factor * factor;
      if (together != 0) merged.push_back({mine->variable, together});
      ++mine;
      ++theirs;
    }
  }
  terms_ = std::move(merged);
  return *this;
}

Relation at_most(const Sum& a, const Sum& b) { return {a - b, false}; }
Relation at_least(const Sum& a, const Sum& b) { return {b - a, false}; }
Relation equals(const Sum& a, const Sum& b) { return {a - b, true}; }

bool holds(const Relation& relation, const std::vector<Rational>& values) {
  const Rational value = relation.sum.at(values);
  return relation.equal ? value == 0 : value <= 0;
}

bool holds(const Rule& rule, const std::vector<Rational>& values) {
  return std::any_of(rule.choices.begin(), rule.choices.end(), [&](const std::vector<Relation>& choice) {
    return std::all_of(choice.begin(), choice.end(),
                       [&](const Relation& relation) { return holds(relation, values); });
  });
}

}  // namespace evenmat
