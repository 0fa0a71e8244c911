#include "solver/answer/freedom.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/multiprecision/eigen.hpp>
#include <stdexcept>

#include "solver/search/one_variable.h"
#include "solver/search/session.h"

namespace evenmat {
namespace {

using Matrix = Eigen::Matrix<Rational, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Rational, Eigen::Dynamic, 1>;

bool is_place(Variable variable) { return variable % 4 < 2; }

// The equations that hold whatever is chosen, with sizes as they are, over the places that they leave open.
struct Joints {
  std::vector<Variable> places;
  Matrix rows;  // rows * movement of the places = 0
};

Joints joints_of(const Rules& rules, const System& system, std::size_t version) {
  Joints joints;
  std::vector<Eigen::Index> column(rules.variables(), -1);
  for (Variable v = 0; v < rules.variables(); ++v) {
    if (!is_place(v) || rules.rectangles[v / 4].version != version) continue;
    if (system.reduce(Sum::of(v)).is_constant()) continue;
    column[v] = static_cast<Eigen::Index>(joints.places.size());
    joints.places.push_back(v);
  }
  std::vector<Sum> equations;
  for (const Variable v : joints.places) {
    Sum difference = system.reduce(Sum::of(v)) - Sum::of(v);
    if (!difference.is_constant()) equations.push_back(std::move(difference));
  }
  joints.rows = Matrix::Zero(static_cast<Eigen::Index>(equations.size()),
                             static_cast<Eigen::Index>(joints.places.size()));
  for (std::size_t i = 0; i < equations.size(); ++i) {
    for (const Term& term : equations[i].terms()) {
      // What is not a place moves freely beside it, such as a choice's helper: no joint.
      if (column[term.variable] >= 0) {
        joints.rows(static_cast<Eigen::Index>(i), column[term.variable]) = term.factor;
      }
    }
  }
  return joints;
}

// How far `values` can go along `steps` before a relation fails; absent: for ever.
Interval reach(const std::vector<Relation>& relations, const std::vector<Rational>& values,
               const std::vector<Rational>& steps, bool& holds_somewhere) {
  Interval span;
  holds_somewhere = true;
  for (const Relation& relation : relations) {
    Rational slope = 0;
    for (const Term& term : relation.sum.terms()) slope += term.factor * steps[term.variable];
    const Rational here = relation.sum.at(values);
    if (slope == 0) {
      if (relation.equal ? here != 0 : here > 0) holds_somewhere = false;
      continue;
    }
    const Rational end = -here / slope;
    if ((slope > 0 || relation.equal) && (!span.high || end < *span.high)) span.high = end;
    if ((slope < 0 || relation.equal) && (!span.low || end > *span.low)) span.low = end;
  }
  if (span.low && span.high && *span.low > *span.high) holds_somewhere = false;
  return span;
}

// The stretch round 0 along which some choice of the rule holds, one passing over into another.
Interval reach(const Rule& rule, const std::vector<Rational>& values, const std::vector<Rational>& steps) {
  std::vector<Interval> spans;
  for (const auto& choice : rule.choices) {
    bool somewhere = false;
    const Interval span = reach(choice, values, steps, somewhere);
    if (somewhere) spans.push_back(span);
  }
  Interval reached{Rational(0), Rational(0)};
  for (bool grown = true; grown;) {
    grown = false;
    for (const Interval& span : spans) {
      const bool touches = (!span.low || !reached.high || *span.low <= *reached.high) &&
                           (!span.high || !reached.low || *span.high >= *reached.low);
      if (!touches) continue;
      if (reached.low && (!span.low || *span.low < *reached.low)) {
        reached.low = span.low;
        grown = true;
      }
      if (reached.high && (!span.high || *span.high > *reached.high)) {
        reached.high = span.high;
        grown = true;
      }
    }
  }
  return reached;
}

void add_movement(const Rules& rules, const std::vector<Rational>& values, std::vector<Rational> steps,
                  std::vector<Movement>& found) {
  Interval span;
  for (const Rule& rule : rules.rules) {
    const bool touched = std::any_of(rule.choices.begin(), rule.choices.end(), [&](const auto& choice) {
      return std::any_of(choice.begin(), choice.end(), [&](const Relation& relation) {
        return std::any_of(relation.sum.terms().begin(), relation.sum.terms().end(),
                           [&](const Term& term) { return steps[term.variable] != 0; });
      });
    });
    if (!touched) continue;
    const Interval here = reach(rule, values, steps);
    if (here.low && (!span.low || *here.low > *span.low)) span.low = here.low;
    if (here.high && (!span.high || *here.high < *span.high)) span.high = here.high;
  }
  if (!span.low || !span.high || *span.low == *span.high) return;
  found.push_back({std::move(steps), -*span.low, *span.high});
}

}  // namespace

System with_sizes(const System& system, const Rules& rules, const std::vector<Rational>& values) {
  System sized = system;
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    for (const Measure measure : {Measure::width, Measure::height}) {
      const Variable v = variable(i, measure);
      sized.add(equals(Sum::of(v), Sum(values[v])));
    }
  }
  if (!sized.settle()) throw std::logic_error("a card's own sizes do not satisfy its rules");
  return sized;
}

std::vector<bool> settled_by_rules(const System& system, const std::vector<Sum>& sums,
                                   const std::vector<Rational>& values, const std::vector<Rational>& other,
                                   Prover& prover) {
  System own = system;  // sessions make variables of their own in it
  std::vector<bool> settled(sums.size(), false);
  std::vector<Sum> reduced;
  for (const Sum& sum : sums) reduced.push_back(system.reduce(sum));
  for (std::size_t i = 0; i < sums.size(); ++i) settled[i] = reduced[i].is_constant();
  for (Block& block : system.split(reduced)) {
    if (block.aims.empty() || is_interval(block)) continue;  // an interval that is open is not settled
    std::vector<std::size_t> open = block.aim_of;
    if (!other.empty())
      std::erase_if(open, [&](std::size_t i) { return sums[i].at(other) != sums[i].at(values); });
    if (open.empty()) continue;
    prover.describe(own);
    Session session(own, prover, block);
    while (!open.empty()) {
      std::vector<Sum> apart;
      for (const std::size_t i : open) apart.push_back(reduced[i] - sums[i].at(values));
      const Scope scope(prover);
      prover.require_any_other(apart);
      if (!prover.possible()) break;
      std::erase_if(open, [&](std::size_t i) { return prover.value(reduced[i]) != sums[i].at(values); });
    }
    for (const std::size_t i : open) settled[i] = true;
  }
  return settled;
}

std::vector<Movement> movements(const Rules& rules, const System& system, std::size_t version,
                                const std::vector<Rational>& values,
                                const std::vector<std::vector<std::size_t>>& carried) {
  const Joints joints = joints_of(rules, system, version);
  std::vector<Movement> found;
  const auto count = static_cast<Eigen::Index>(joints.places.size());
  if (count == 0) return found;
  // The rows solve one place each, so what they leave is known before any movement is.
  const Eigen::Index ways = count - joints.rows.rows();
  Equations known;  // the movements so far, as equations: one that adds nothing to them is none
  const auto take = [&](const Vector& movement) {
    Sum as_equation;
    for (Eigen::Index i = 0; i < count; ++i) {
      as_equation += Sum::of(static_cast<Variable>(i), movement(i));
    }
    const std::size_t before = known.size();
    known.add(as_equation, [](Variable) { return 0; });
    if (known.size() == before) return;
    std::vector<Rational> steps(rules.variables(), 0);
    for (Eigen::Index i = 0; i < count; ++i) steps[joints.places[static_cast<std::size_t>(i)]] = movement(i);
    add_movement(rules, values, std::move(steps), found);
  };
  const auto spanned = [&] { return static_cast<Eigen::Index>(known.size()) >= ways; };
  for (std::size_t i = 0; i < carried.size() && !spanned(); ++i) {
    for (const Measure measure : {Measure::left, Measure::top}) {
      const Variable pushed = variable(carried[i].front(), measure);
      if (std::find(joints.places.begin(), joints.places.end(), pushed) == joints.places.end()) continue;
      Vector push = Vector::Zero(count);
      bool moves = false;
      for (Eigen::Index place = 0; place < count; ++place) {
        const Variable v = joints.places[static_cast<std::size_t>(place)];
        const bool along = v % 4 == static_cast<std::size_t>(measure);
        if (along && std::find(carried[i].begin(), carried[i].end(), v / 4) != carried[i].end()) {
          push(place) = 1;
          moves = true;
        }
      }
      if (moves && (joints.rows.rows() == 0 || (joints.rows * push).isZero(0))) take(push);
    }
  }
  if (!spanned() && joints.rows.rows() > 0) {
    const Matrix kernel = Eigen::FullPivLU<Matrix>(joints.rows).kernel();
    for (Eigen::Index i = 0; i < kernel.cols(); ++i) take(kernel.col(i));
  }
  return found;
}

std::vector<Extent> extents(const System& system, const std::vector<Sum>& sums, Prover& prover) {
  System own = system;
  std::vector<Extent> found(sums.size());
  std::vector<Sum> reduced;
  for (const Sum& sum : sums) reduced.push_back(system.reduce(sum));
  for (std::size_t i = 0; i < sums.size(); ++i) {
    if (reduced[i].is_constant()) found[i] = {reduced[i].constant(), reduced[i].constant()};
  }
  for (Block& block : system.split(reduced)) {
    if (block.aims.empty()) continue;
    if (is_interval(block)) {
      for (std::size_t i = 0; i < block.aims.size(); ++i) {
        const Interval range = system.range(block.aims[i]);
        if (range.low && range.high) found[block.aim_of[i]] = {*range.low, *range.high};
      }
      continue;
    }
    prover.describe(own);
    Session session(own, prover, block);
    for (std::size_t i = 0; i < block.aims.size(); ++i) {
      found[block.aim_of[i]] = {session.least(block.aims[i]), session.greatest(block.aims[i])};
    }
  }
  return found;
}

}  // namespace evenmat
