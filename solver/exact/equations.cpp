#include "solver/exact/equations.h"

#include <algorithm>
#include <utility>

namespace evenmat {

const Sum* Equations::solved(Variable variable) const {
  return variable < solutions_.size() && solutions_[variable] ? &*solutions_[variable] : nullptr;
}

Sum Equations::reduce(const Sum& sum) const {
  const auto& terms = sum.terms();
  if (std::none_of(terms.begin(), terms.end(),
                   [&](const Term& t) { return solved(t.variable) != nullptr; })) {
    return sum;
  }
  Sum reduced(sum.constant());
  for (const Term& term : terms) {
    if (const Sum* solution = solved(term.variable)) {
      reduced.add(*solution, term.factor);
    } else {
      reduced.add(Sum::of(term.variable), term.factor);
    }
  }
  return reduced;
}

void Equations::solve_for(Variable variable, const Sum& reduced) {
  const auto own = std::find_if(reduced.terms().begin(), reduced.terms().end(),
                                [&](const Term& term) { return term.variable == variable; });
  const Rational scale = Rational(-1) / own->factor;
  Sum solution = reduced * scale;  // now -1 * variable + rest = 0
  solution += Sum::of(variable);
  const std::size_t room = reduced.terms().back().variable + 1;
  if (solutions_.size() < room) {
    solutions_.resize(room);
    mentions_.resize(room);
  }
  const std::vector<Variable> users = std::exchange(mentions_[variable], {});
  for (const Variable user : users) {
    Sum& there = *solutions_[user];
    const auto term = std::find_if(there.terms().begin(), there.terms().end(),
                                   [&](const Term& t) { return t.variable == variable; });
    if (term == there.terms().end()) continue;
    const Rational factor = term->factor;
    there.add(Sum::of(variable), -factor);
    there.add(solution, factor);
    for (const Term& t : solution.terms()) mentions_[t.variable].push_back(user);
  }
  for (const Term& t : solution.terms()) mentions_[t.variable].push_back(variable);
  solutions_[variable] = std::move(solution);
  ++solved_;
}

}  // namespace evenmat
