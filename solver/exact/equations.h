// Exact elimination: equations over the variables, each solved for one of them. What sums settle is
// settled here, before anything is searched.
#pragma once

#include <optional>
#include <vector>

#include "solver/rule.h"

namespace evenmat {

// Equations in reduced form: every solved variable is a sum of unsolved ones.
class Equations {
 public:
  // Adds sum = 0. False when that contradicts what is there; nothing is added then. Of the sum's
  // variables the one that `prefer_to_keep` names least strongly (smallest value) is solved for; the
  // later one when equal.
  template <typename Keep>
  bool add(const Sum& sum, Keep prefer_to_keep);

  [[nodiscard]] Sum reduce(const Sum& sum) const;
  [[nodiscard]] const Sum* solved(Variable variable) const;
  [[nodiscard]] std::size_t size() const { return solved_; }

 private:
  void solve_for(Variable variable, const Sum& reduced);

  std::vector<std::optional<Sum>> solutions_;  // by variable
  // Unsolved variable -> solved ones whose solution may mention it (may be out of date, never short).
  std::vector<std::vector<Variable>> mentions_;
  std::size_t solved_ = 0;
};

template <typename Keep>
bool Equations::add(const Sum& sum, Keep prefer_to_keep) {
  Sum reduced = reduce(sum);
  if (reduced.is_constant()) return reduced.constant() == 0;
  const Term* chosen = nullptr;
  for (const Term& term : reduced.terms()) {
    if (chosen == nullptr || prefer_to_keep(term.variable) <= prefer_to_keep(chosen->variable))
      chosen = &term;
  }
  solve_for(chosen->variable, reduced);
  return true;
}

}  // namespace evenmat
