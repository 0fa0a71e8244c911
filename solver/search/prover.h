// Z3 as the prover: what is required, whether it is possible, and with which values. The only file pair
// that includes Z3; everything else asks in sums and relations.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "solver/exact/system.h"

namespace evenmat {

// Thrown when the time limit is reached; caught before the solver's door.
struct OutOfTime {};

class Prover {
 public:
  // `seconds` from now on for everything it is asked. Starts Z3 only when first asked.
  Prover(double seconds, unsigned seed);
  // One that knows nothing yet, with the same Z3 behind it and the same time left: cheaper than a new one.
  // The first must outlive it.
  explicit Prover(Prover* first);
  ~Prover();
  Prover(const Prover&) = delete;
  Prover& operator=(const Prover&) = delete;

  // Which variables are whole numbers of marks, and the mark.
  void describe(const System& system) { system_ = &system; }

  void push();
  void pop();
  void require(const Relation& relation);
  void require(const OpenChoice& choice);
  void require_whole(const Sum& sum);                    // a multiple of the mark
  void require_above(const Sum& sum);                    // > 0
  void require_any_above(const std::vector<Sum>& sums);  // one of them > 0
  void require_any_other(const std::vector<Sum>& sums);  // one of them not 0
  // At least `count` of the lists hold whole.
  void require_count(std::size_t count, const std::vector<std::vector<Relation>>& lists);

  // What is required only while a token is held.
  using Token = std::size_t;
  Token new_token();
  void require_if(Token token, const Relation& relation);
  void require_if(Token token, const OpenChoice& choice);

  // Whether everything required can hold together. Throws OutOfTime.
  bool possible() { return possible({}); }
  // With tokens, values can be asked for only before anything else is.
  bool possible(const std::vector<Token>& held);
  // After a `possible` that said no: tokens among those held that are enough to make it so.
  std::vector<Token> blamed();
  // In the values found by the last `possible` that said yes.
  Rational value(Variable variable);
  Rational value(const Sum& sum);

  // The largest value of `objective` over real numbers under `relations`, with the values that reach it;
  // absent when there is none. The optimum is only a proposal: prove it with `possible`.
  struct Peak {
    Rational height;
    std::vector<Rational> values;  // by place in `variables`
  };
  std::optional<Peak> peak(const std::vector<Variable>& variables, const std::vector<Relation>& relations,
                           const Sum& objective);

  [[nodiscard]] double seconds_left() const;
  [[nodiscard]] bool time_is_up() const;
  void check_time() const;  // throws OutOfTime

 private:
  struct Shared;
  struct Engine;
  Engine& engine();
  template <typename Work>
  auto guarded(Work work) -> decltype(work());

  Prover* first_ = nullptr;
  const System* system_ = nullptr;
  double seconds_;
  unsigned seed_;
  std::unique_ptr<Engine> engine_;
  long long started_ = 0;
};

// Pops what was pushed, whatever happens in between.
class Scope {
 public:
  explicit Scope(Prover& prover) : prover_(prover) { prover_.push(); }
  ~Scope() { prover_.pop(); }  // NOLINT(bugprone-exception-escape): pops only what was pushed
  Scope(const Scope&) = delete;
  Scope& operator=(const Scope&) = delete;

 private:
  Prover& prover_;
};

}  // namespace evenmat
