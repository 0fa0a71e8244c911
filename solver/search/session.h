// One block of rules under question: the largest and smallest values that sums can take in it, each
// proven before it counts. The steps of choosing (choose.h) are built from these.
#pragma once

#include <optional>
#include <vector>

#include "solver/exact/system.h"
#include "solver/search/prover.h"

namespace evenmat {

class Session {
 public:
  // Opens a scope in the prover and requires the block there; the scope closes with the session.
  // `system` is where the block came from; new variables are made there.
  Session(System& system, Prover& prover, Block block);

  bool possible() { return prover_.possible(); }

  void require(const Relation& relation);
  void require_count(std::size_t count, const std::vector<std::vector<Relation>>& lists);

  // The greatest value of `sum`; the session must be possible. Afterwards the prover's values reach it.
  // How it is found: what the bounds allow is tried first. Else, from values in hand, the choices and whole
  // sizes they make are held and the rest pushed as far as it goes; then something better is asked for, in
  // steps that double and halve, until nothing better is possible.
  Rational greatest(const Sum& sum);
  Rational least(const Sum& sum) { return -greatest(sum * Rational(-1)); }

  // Makes the smallest of `sums` as large as it can be, then the next, and so on, and requires it.
  void raise_smallest(std::vector<Sum> sums);

  // Makes each in turn as large as it can be, and requires it.
  void raise_in_order(const std::vector<Sum>& sums);

  // The values of the sums in the answer last found, and of the block's variables.
  Rational value(const Sum& sum) { return values_.empty() ? prover_.value(sum) : sum.at(values_); }

  // Whether all the sums can be 0 at once.
  bool can_all_be_zero(const std::vector<Sum>& sums);

  // Whether all the sums can take no other values than those last found.
  bool settled(const std::vector<Sum>& sums);

 private:
  void take_values();
  Rational polish(const Sum& sum);
  bool better(const Sum& sum, const Rational& target, bool strictly);
  Interval bound(const Sum& sum) const;
  void raise_by_count(const std::vector<Sum>& sums, const Rational& reached);
  std::size_t most_above(const std::vector<Sum>& sums, const Rational& reached);
  bool are_on_marks(const std::vector<Sum>& sums) const;

  struct Count {
    std::size_t count;
    std::vector<std::vector<Relation>> lists;
  };

  System& system_;
  Prover& prover_;
  Scope scope_;
  Block block_;
  std::vector<Count> counts_;
  std::vector<Rational> values_;  // by variable, of the answer last found
  bool known_ = false;            // whether they satisfy all that is required by now
};

}  // namespace evenmat
