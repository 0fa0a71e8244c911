// Lengths are given to Z3 in marks, so that a cut size is a whole number. Z3's plain incremental solver is
// used with its older simplex: on these small, sparse problems its set-up cost is a fraction of the
// tactic-based solver's (0.5 ms against 3 ms for 36 variables).
#include "solver/search/prover.h"

#include <z3++.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <stdexcept>
#include <thread>
#include <unordered_map>

namespace evenmat {
namespace {

long long now_in_microseconds() {
  return std::chrono::duration_cast<std::chrono::microseconds>(
             std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

// Interrupts Z3 when the time is up. A timer of our own, for Z3's starts a thread at every check.
class Alarm {
 public:
  Alarm(z3::context& context, double seconds)
      : thread_([this, &context, seconds] {
          std::unique_lock lock(mutex_);
          if (off_.wait_for(lock, std::chrono::duration<double>(seconds), [this] { return done_; })) return;
          rung_ = true;
          // Again and again, for an interrupt between two checks is forgotten by the next one.
          while (!off_.wait_for(lock, std::chrono::milliseconds(20), [this] { return done_; })) {
            context.interrupt();
          }
        }) {}
  ~Alarm() {
    {
      const std::lock_guard lock(mutex_);
      done_ = true;
    }
    off_.notify_all();
    thread_.join();
  }
  Alarm(const Alarm&) = delete;
  Alarm& operator=(const Alarm&) = delete;
  bool rung() {
    const std::lock_guard lock(mutex_);
    return rung_;
  }

 private:
  std::mutex mutex_;
  std::condition_variable off_;
  bool done_ = false;
  bool rung_ = false;
  std::thread thread_;
};

}  // namespace

struct Prover::Shared {
  explicit Shared(double seconds) : alarm(context, seconds) {}

  z3::context context;
  Alarm alarm;
};

struct Prover::Engine {
  Engine(std::shared_ptr<Shared> with, unsigned seed)
      : shared(std::move(with)), context(shared->context), solver(context, z3::solver::simple()) {
    z3::params params(context);
    params.set("arith.solver", 2U);
    params.set("random_seed", seed);
    params.set("ctrl_c", false);  // a signal ends the program, it is no answer
    solver.set(params);
  }

  std::shared_ptr<Shared> shared;
  z3::context& context;
  z3::solver solver;
  // By variable: as a real number, and as a whole number of marks. Systems may differ in which it is.
  std::vector<std::optional<z3::expr>> reals;
  std::vector<std::optional<z3::expr>> wholes;
  std::vector<z3::expr> tokens;
  std::unordered_map<unsigned, Token> token_of;  // by Z3's own number
  std::vector<Token> blamed;
  std::optional<z3::model> model;
  std::unordered_map<Variable, Rational> values;

  z3::expr number(const Rational& value) { return context.real_val(value.str().c_str()); }

  z3::expr constant(Variable variable, const System& system) {
    const bool whole = system.is_whole(variable);
    auto& constants = whole ? wholes : reals;
    if (constants.size() <= variable) constants.resize(variable + 1);
    if (!constants[variable]) {
      const std::string name = (whole ? "k" : "v") + std::to_string(variable);
      constants[variable] = whole ? context.int_const(name.c_str()) : context.real_const(name.c_str());
    }
    return *constants[variable];
  }

  z3::expr in_marks(const Sum& sum, const System& system) {
    z3::expr_vector parts(context);
    for (const Term& term : sum.terms()) {
      z3::expr part = constant(term.variable, system);
      if (part.is_int()) part = z3::to_real(part);
      if (term.factor != 1) part = number(term.factor) * part;
      parts.push_back(part);
    }
    if (sum.constant() != 0 || parts.empty()) parts.push_back(number(sum.constant() / system.mark()));
    return parts.size() == 1 ? parts[0] : z3::sum(parts);
  }

  z3::expr relation(const Relation& relation, const System& system) {
    const z3::expr sum = in_marks(relation.sum, system);
    const z3::expr zero = context.real_val(0);
    return relation.equal ? sum == zero : sum <= zero;
  }

  z3::expr all(const std::vector<Relation>& relations, const System& system) {
    z3::expr_vector parts(context);
    for (const Relation& r : relations) parts.push_back(relation(r, system));
    return parts.size() == 1 ? parts[0] : z3::mk_and(parts);
  }

  z3::expr any(const OpenChoice& choice, const System& system) {
    z3::expr_vector options(context);
    for (const Option& option : choice.options) options.push_back(all(option.relations, system));
    return z3::mk_or(options);
  }
};

// An interrupt can come at any call to Z3, not only while it checks.
template <typename Work>
auto Prover::guarded(Work work) -> decltype(work()) {
  try {
    return work();
  } catch (const z3::exception& failure) {
    check_time();
    throw std::runtime_error(failure.msg());
  }
}

Prover::Prover(double seconds, unsigned seed)
    : seconds_(seconds), seed_(seed), started_(now_in_microseconds()) {}
Prover::Prover(Prover* first)
    : first_(first), seconds_(first->seconds_), seed_(first->seed_), started_(first->started_) {}
Prover::~Prover() = default;

Prover::Engine& Prover::engine() {
  check_time();
  if (!engine_) {
    engine_ = std::make_unique<Engine>(
        first_ != nullptr ? first_->engine().shared : std::make_shared<Shared>(seconds_left()), seed_);
  }
  return *engine_;
}

double Prover::seconds_left() const {
  return seconds_ - static_cast<double>(now_in_microseconds() - started_) / 1e6;
}

bool Prover::time_is_up() const { return seconds_left() <= 0; }

void Prover::check_time() const {
  if (time_is_up()) throw OutOfTime{};
}

void Prover::push() {
  return guarded([&] { engine().solver.push(); });
}
void Prover::pop() {
  try {
    engine_->solver.pop();
  } catch (const z3::exception&) {
    // Interrupted: whatever is asked next finds that the time is up.
  }
}

void Prover::require(const Relation& relation) {
  return guarded([&] {
    Engine& e = engine();
    e.solver.add(e.relation(relation, *system_));
  });
}

void Prover::require(const OpenChoice& choice) {
  return guarded([&] {
    Engine& e = engine();
    e.solver.add(e.any(choice, *system_));
  });
}

void Prover::require_whole(const Sum& sum) {
  return guarded([&] {
    Engine& e = engine();
    const z3::expr marks = e.in_marks(sum, *system_);
    e.solver.add(z3::is_int(marks));
  });
}

void Prover::require_above(const Sum& sum) {
  return guarded([&] {
    Engine& e = engine();
    e.solver.add(e.in_marks(sum, *system_) > e.context.real_val(0));
  });
}

void Prover::require_any_above(const std::vector<Sum>& sums) {
  return guarded([&] {
    Engine& e = engine();
    z3::expr_vector options(e.context);
    for (const Sum& sum : sums) options.push_back(e.in_marks(sum, *system_) > e.context.real_val(0));
    e.solver.add(z3::mk_or(options));
  });
}

void Prover::require_any_other(const std::vector<Sum>& sums) {
  return guarded([&] {
    Engine& e = engine();
    z3::expr_vector options(e.context);
    for (const Sum& sum : sums) {
      const z3::expr marks = e.in_marks(sum, *system_);
      options.push_back(marks > e.context.real_val(0));
      options.push_back(marks < e.context.real_val(0));
    }
    e.solver.add(z3::mk_or(options));
  });
}

void Prover::require_count(std::size_t count, const std::vector<std::vector<Relation>>& lists) {
  return guarded([&] {
    Engine& e = engine();
    z3::expr_vector held(e.context);
    for (const auto& list : lists) held.push_back(e.all(list, *system_));
    e.solver.add(z3::atleast(held, static_cast<unsigned>(count)));
  });
}

Prover::Token Prover::new_token() {
  return guarded([&] {
    Engine& e = engine();
    const Token token = e.tokens.size();
    e.tokens.push_back(e.context.bool_const(("t" + std::to_string(token)).c_str()));
    e.token_of.emplace(Z3_get_ast_id(e.context, e.tokens.back()), token);
    return token;
  });
}

void Prover::require_if(Token token, const Relation& relation) {
  return guarded([&] {
    Engine& e = engine();
    e.solver.add(z3::implies(e.tokens[token], e.relation(relation, *system_)));
  });
}

void Prover::require_if(Token token, const OpenChoice& choice) {
  return guarded([&] {
    Engine& e = engine();
    e.solver.add(z3::implies(e.tokens[token], e.any(choice, *system_)));
  });
}

bool Prover::possible(const std::vector<Token>& held) {
  return guarded([&] {
    Engine& e = engine();
    z3::expr_vector tokens(e.context);
    for (const Token token : held) tokens.push_back(e.tokens[token]);
    const z3::check_result result = held.empty() ? e.solver.check() : e.solver.check(tokens);
    if (result == z3::unknown) throw OutOfTime{};
    e.values.clear();
    e.blamed.clear();
    e.model.reset();
    if (result == z3::sat && held.empty()) e.model = e.solver.get_model();
    if (result == z3::unsat && !held.empty()) {
      for (const z3::expr& token : e.solver.unsat_core()) {
        e.blamed.push_back(e.token_of.at(Z3_get_ast_id(e.context, token)));
      }
    }
    return result == z3::sat;
  });
}

std::vector<Prover::Token> Prover::blamed() {
  std::vector<Token> blamed = engine().blamed;
  std::sort(blamed.begin(), blamed.end());
  return blamed;
}

Rational Prover::value(Variable variable) {
  return guarded([&]() -> Rational {
    Engine& e = engine();
    const auto known = e.values.find(variable);
    if (known != e.values.end()) return known->second;
    if (!e.model) e.model = e.solver.get_model();
    const z3::expr value = e.model->eval(e.constant(variable, *system_), true);
    Rational length = Rational(Z3_get_numeral_string(e.context, value)) * system_->mark();
    e.values.emplace(variable, length);
    return length;
  });
}

Rational Prover::value(const Sum& sum) {
  Rational total = sum.constant();
  for (const Term& term : sum.terms()) total += term.factor * value(term.variable);
  return total;
}

std::optional<Prover::Peak> Prover::peak(const std::vector<Variable>& variables,
                                         const std::vector<Relation>& relations, const Sum& objective) {
  return guarded([&]() -> std::optional<Peak> {
    // Real numbers throughout: the whole ones among them have been settled by the caller.
    Engine& all = engine();
    z3::optimize optimizer(all.context);
    const auto in_reals = [&](const Sum& sum) {
      z3::expr_vector parts(all.context);
      for (const Term& term : sum.terms()) {
        const std::string name = "r" + std::to_string(term.variable);
        parts.push_back(all.number(term.factor) * all.context.real_const(name.c_str()));
      }
      parts.push_back(all.number(sum.constant() / system_->mark()));
      return z3::sum(parts);
    };
    for (const Relation& relation : relations) {
      const z3::expr sum = in_reals(relation.sum);
      const z3::expr zero = all.context.real_val(0);
      optimizer.add(relation.equal ? sum == zero : sum <= zero);
    }
    const z3::expr goal = in_reals(objective);
    optimizer.maximize(goal);
    if (optimizer.check() != z3::sat) return std::nullopt;
    const z3::model model = optimizer.get_model();
    const auto length = [&](const z3::expr& expression) {
      return Rational(Z3_get_numeral_string(all.context, model.eval(expression, true))) * system_->mark();
    };
    Peak peak;
    peak.height = length(goal);
    for (const Variable variable : variables) {
      peak.values.push_back(length(all.context.real_const(("r" + std::to_string(variable)).c_str())));
    }
    return peak;
  });
}

}  // namespace evenmat
