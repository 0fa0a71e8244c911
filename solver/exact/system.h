// Rules made ready for solving: equations eliminated, bounds followed to their ends, choices with one
// way left taken, and the rest split into blocks that share nothing. Exact; knows no Z3.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "solver/exact/equations.h"
#include "solver/rule.h"

namespace evenmat {

// What the bounds alone say of a sum: absent ends are open.
struct Interval {
  std::optional<Rational> low, high;
};

// At least one option holds whole.
struct Option {
  std::vector<Relation> relations;
  std::size_t index = 0;  // in the rule's list of choices
};
struct OpenChoice {
  std::vector<Option> options;
  std::optional<std::size_t> rule;  // the rule it came from
};

// A part of a system that shares no variable with the rest.
struct Block {
  std::vector<Variable> variables;  // sorted
  std::vector<Relation> relations;  // none of them an equation
  std::vector<OpenChoice> choices;
  std::vector<Sum> whole;           // multiples of the mark that are not single variables
  std::vector<Sum> aims;            // what `split` was asked to keep together, in the order given
  std::vector<std::size_t> aim_of;  // their indices in the list given
};

class System {
 public:
  System(Rational mark, std::size_t variables)
      : mark_(std::move(mark)), first_helper_(variables), whole_(variables, false), bounds_(variables) {}

  // A variable beside the rules' own, such as a distance that is to be small.
  Variable fresh();
  // Those variables are numbered from here on.
  [[nodiscard]] Variable first_helper() const { return first_helper_; }
  // An upper bound known for such a variable.
  void limit_fresh(Variable variable, const Rational& most) { bounds_[variable].high = most; }
  [[nodiscard]] std::size_t variables() const { return whole_.size(); }
  [[nodiscard]] const Rational& mark() const { return mark_; }

  void add(Relation relation) { relations_.push_back(std::move(relation)); }
  void add(OpenChoice choice) { choices_.push_back(std::move(choice)); }
  void set_whole(Variable variable) { whole_[variable] = true; }
  // Takes an open choice out, for a stronger one to stand in its place.
  std::optional<OpenChoice> take_choice(std::size_t rule);
  // The option that was the only one left of a rule's choice, if it came to that.
  [[nodiscard]] std::optional<std::size_t> decided(std::size_t rule) const;

  // Eliminates, bounds and simplifies until nothing changes. False when no values can satisfy it
  // (true does not yet mean that some can).
  bool settle();

  [[nodiscard]] Sum reduce(const Sum& sum) const { return equations_.reduce(sum); }
  [[nodiscard]] Interval range(const Sum& reduced) const;
  [[nodiscard]] bool is_whole(Variable variable) const { return whole_[variable]; }
  // Whether a reduced sum less its constant takes only multiples of the mark.
  [[nodiscard]] bool on_grid(const Sum& reduced) const;
  [[nodiscard]] const Interval& bound(Variable variable) const { return bounds_[variable]; }

  // The blocks, in the order of their first variables. Each of `together` (reduced) stays in one block;
  // constants are dropped from the aims.
  [[nodiscard]] std::vector<Block> split(const std::vector<Sum>& together) const;

  [[nodiscard]] const std::vector<OpenChoice>& choices() const { return choices_; }

 private:
  bool settle_equations(bool& changed);
  bool follow_bounds(bool& changed);
  bool tighten(const Relation& relation, std::vector<bool>& moved);
  bool settle_choices(bool& changed);
  bool settle_whole();
  enum class Standing { always, never, open };
  [[nodiscard]] Standing standing(const Relation& reduced) const;

  Rational mark_;
  Variable first_helper_;
  Equations equations_;
  std::vector<Relation> relations_;
  std::vector<OpenChoice> choices_;
  std::vector<bool> whole_;                     // by variable, as declared
  std::vector<Sum> whole_sums_;                 // reduced, where not a single whole variable
  std::vector<Interval> bounds_;                // by variable
  std::map<std::size_t, std::size_t> decided_;  // rule -> option
};

}  // namespace evenmat
