// Each step is separable over blocks that share nothing: totals add up, and "the smallest raised, then the
// next" over two independent parts is reached by raising each. So every block is settled by itself, and
// what a step settles splits the blocks further for the next one (layers on different things come apart
// once the things are known).
#include "solver/search/choose.h"

#include <algorithm>
#include <stdexcept>

#include "solver/exact/system.h"
#include "solver/search/arrange_block.h"
#include "solver/search/one_variable.h"
#include "solver/search/session.h"
#include "solver/search/spaces.h"
#include "solver/search/system_of.h"

namespace evenmat {
namespace {

// A block by itself, for trying whether sums alone settle it.
System system_of_block(const System& whole, const Block& block) {
  System part(whole.mark(), whole.variables());
  for (const Variable v : block.variables) {
    if (whole.is_whole(v)) part.set_whole(v);
  }
  for (const Relation& relation : block.relations) part.add(relation);
  for (const OpenChoice& choice : block.choices) part.add(choice);
  for (const Sum& sum : block.whole) {
    const Variable marks = part.fresh();
    part.set_whole(marks);
    part.add(equals(sum, Sum::of(marks)));
  }
  return part;
}

bool is_plain(const System& system) {
  const std::vector<Block> blocks = system.split({});
  return std::all_of(blocks.begin(), blocks.end(), is_interval);
}

class Chooser {
 public:
  Chooser(const Rules& rules, Prover& prover, bool shortcuts)
      : rules_(rules), shortcuts_(shortcuts), system_(system_of(rules)), prover_(prover) {}

  Choosing run() {
    try {
      if (!system_.settle() || !all_possible()) return {Outcome::impossible, {}, {}};
      first_ = values();
      reach_all({Step::about, Step::even_sides, Step::usual_border});
      for (const Step step : {Step::about, Step::even_sides, Step::usual_border}) total_least(step);
      most_held(Step::on_marks);
      most_held(Step::alike);
      total_least(Step::artwork);
      raise(Step::sizes, Step::larger_first, true);
      raise(Step::spaces, Step::least_place, false);
      return {Outcome::found, values(), first_};
    } catch (const OutOfTime&) {
      return {Outcome::out_of_time, best_known(), first_};
    }
  }

 private:
  std::vector<Sum> aims(Step step) const {
    std::vector<Sum> found;
    for (const Aim& aim : rules_.aims) {
      if (aim.step == step) found.push_back(system_.reduce(aim.sum));
    }
    return found;
  }

  // A first card, so that there is one to show if time runs out.
  bool all_possible() {
    witness_.assign(system_.variables(), 0);
    for (Block& block : system_.split({})) {
      if (shortcuts_ && is_interval(block)) {
        const Variable v = block.variables.front();
        const Interval& bound = system_.bound(v);
        witness_[v] = bound.low ? *bound.low : bound.high.value_or(0);
        continue;
      }
      prover_.describe(system_);
      Session session(system_, prover_, block);
      if (!session.possible()) return false;
      remember(block, session);
    }
    have_witness_ = true;
    return true;
  }

  void remember(const Block& block, Session& session) {
    witness_.resize(system_.variables(), 0);
    for (const Variable v : block.variables) witness_[v] = session.value(Sum::of(v));
  }

  // Adds to the whole what a block's step has settled, and follows it up.
  void settle_after(const std::vector<Relation>& settled) {
    for (const Relation& relation : settled) system_.add(relation);
  }

  void follow_up() {
    // What was added is known to be possible.
    if (!system_.settle()) throw std::logic_error("a proven step cannot be followed");
  }

  bool try_all_zero(const Block& block, std::vector<Relation>& settled) {
    System part = system_of_block(system_, block);
    for (const Sum& sum : block.aims) part.add(equals(sum, Sum(0)));
    if (!part.settle() || !is_plain(part)) return false;
    for (const Sum& sum : block.aims) settled.push_back(equals(sum, Sum(0)));
    return true;
  }

  // Where all that some steps wish for can be had at once, none of them has anything to give up.
  void reach_all(const std::vector<Step>& steps) {
    std::vector<Sum> wanted;
    for (const Step step : steps) {
      for (Sum& sum : aims(step)) wanted.push_back(std::move(sum));
    }
    std::vector<Relation> settled;
    for (const Block& block : system_.split(wanted)) {
      if (block.aims.empty() || is_interval(block)) continue;
      if (shortcuts_ && try_all_zero(block, settled)) continue;
      prover_.describe(system_);
      Session session(system_, prover_, block);
      if (!session.can_all_be_zero(block.aims)) continue;
      remember(block, session);
      for (const Sum& sum : block.aims) settled.push_back(equals(sum, Sum(0)));
    }
    settle_after(settled);
    follow_up();
  }

  void total_least(Step step) {
    std::vector<Relation> settled;
    for (Block& block : system_.split(aims(step))) {
      if (block.aims.empty()) continue;
      if (step == Step::artwork) {
        artwork_least(block, settled);
      } else {
        distance_least(block, settled);
      }
    }
    settle_after(settled);
    follow_up();
  }

  void artwork_least(const Block& block, std::vector<Relation>& settled) {
    Sum total;
    for (const Sum& sum : block.aims) total += sum;
    if (shortcuts_ && is_interval(block) && !total.is_constant()) {
      const Interval& bound = system_.bound(block.variables.front());
      const bool low = total.terms().front().factor > 0;
      const std::optional<Rational>& end = low ? bound.low : bound.high;
      if (end) {
        settled.push_back(equals(Sum::of(block.variables.front()), Sum(*end)));
        return;
      }
    }
    prover_.describe(system_);
    Session session(system_, prover_, block);
    const Rational least = session.least(total);
    session.require(equals(total, Sum(least)));
    settle_values(session, block, block.aims, {at_most(total, Sum(least))}, settled);
  }

  void distance_least(Block& block, std::vector<Relation>& settled) {
    if (shortcuts_ && is_interval(block)) {
      const Interval best = nearest_zero(system_, block, block.aims);
      const Sum variable = Sum::of(block.variables.front());
      if (best.low && best.high && *best.low == *best.high) {
        settled.push_back(equals(variable, Sum(*best.low)));
      } else if (best.low && best.high) {
        settled.push_back(at_least(variable, Sum(*best.low)));
        settled.push_back(at_most(variable, Sum(*best.high)));
      }
      return;
    }
    if (shortcuts_ && try_all_zero(block, settled)) return;
    prover_.describe(system_);
    Session session(system_, prover_, block);
    if (session.can_all_be_zero(block.aims)) {
      remember(block, session);
      for (const Sum& sum : block.aims) settled.push_back(equals(sum, Sum(0)));
      return;
    }
    std::vector<Relation> distances;
    Sum total;
    for (const Sum& sum : block.aims) {
      const Sum distance = Sum::of(system_.fresh());
      distances.push_back(at_least(distance, sum));
      distances.push_back(at_least(distance, Sum() - sum));
      distances.push_back(at_least(distance, Sum(0)));
      total += distance;
    }
    for (const Relation& relation : distances) session.require(relation);
    const Rational least = session.least(total);
    session.require(at_most(total, Sum(least)));
    distances.push_back(at_most(total, Sum(least)));
    settle_values(session, block, block.aims, distances, settled);
  }

  // Where the aims' values are the only ones left, equations say so; else the bounds that led to them.
  void settle_values(Session& session, const Block& block, const std::vector<Sum>& sums,
                     const std::vector<Relation>& otherwise, std::vector<Relation>& settled) {
    remember(block, session);
    if (session.settled(sums)) {
      for (const Sum& sum : sums) settled.push_back(equals(sum, Sum(session.value(sum))));
    } else {
      for (const Relation& relation : otherwise) settled.push_back(relation);
    }
  }

  // As many of the aims as can be are 0 (alike), or multiples of the mark (on_marks).
  void most_held(Step step) {
    std::vector<Relation> settled;
    std::vector<Sum> open = aims(step);
    if (step == Step::on_marks) {  // of a sum of cut sizes it is settled whether it falls on the marks
      for (Sum& sum : open) {
        if (system_.on_grid(sum)) sum = Sum(0);
      }
    }
    for (Block& block : system_.split(open)) {
      if (block.aims.empty()) continue;
      const std::vector<Sum> wanted = block.aims;
      std::vector<Sum> rests;  // 0 when the aim is held
      for (const Sum& sum : wanted) {
        if (step == Step::alike) {
          rests.push_back(sum);
        } else {
          const Variable marks = system_.fresh();
          system_.set_whole(marks);
          rests.push_back(sum - Sum::of(marks));
        }
      }
      if (step == Step::alike && shortcuts_ && try_all_zero(block, settled)) continue;
      hold_most(block, rests, settled);
    }
    settle_after(settled);
    follow_up();
  }

  void hold_most(const Block& block, const std::vector<Sum>& rests, std::vector<Relation>& settled) {
    prover_.describe(system_);
    Session session(system_, prover_, block);
    std::vector<std::vector<Relation>> lists;
    for (const Sum& rest : rests) lists.push_back({equals(rest, Sum(0))});
    std::size_t most = 0;
    for (std::size_t count = rests.size(); count > 0; --count) {
      const Scope scope(prover_);
      prover_.require_count(count, lists);
      if (!prover_.possible()) continue;
      most = count;
      break;
    }
    if (most == 0) return;
    if (most == rests.size()) {
      for (const Sum& rest : rests) settled.push_back(equals(rest, Sum(0)));
      return;
    }
    Sum missed;
    for (const Sum& rest : rests) {
      const Sum miss = Sum::of(system_.fresh());
      system_.add(OpenChoice{{{{equals(rest, Sum(0))}, 0}, {{at_least(miss, Sum(1))}, 1}}, std::nullopt});
      settled.push_back(at_least(miss, Sum(0)));
      settled.push_back(at_most(miss, Sum(1)));
      missed += miss;
    }
    settled.push_back(at_most(missed, Sum(Rational(rests.size() - most))));
  }

  // Step 5 (sizes) and step 6 with 7 (spaces): the smallest raised, then the rest in order.
  void raise(Step raising, Step ordering, bool larger) {
    const std::vector<Sum> raised = raising == Step::spaces ? open_spaces() : aims(raising);
    std::vector<Sum> all = raised;
    for (const Sum& sum : aims(ordering)) all.push_back(larger ? sum : sum * Rational(-1));
    std::vector<Relation> settled;
    for (Block& block : system_.split(all)) {
      if (block.aims.empty()) continue;
      std::vector<Sum> first;
      std::vector<Sum> then;
      for (std::size_t i = 0; i < block.aims.size(); ++i) {
        (block.aim_of[i] < raised.size() ? first : then).push_back(block.aims[i]);
      }
      raise_block(block, first, then, settled);
    }
    settle_after(settled);
    follow_up();
  }

  std::vector<Sum> open_spaces() {
    std::vector<Sum> found = spaces(rules_, system_, prover_);
    follow_up();
    for (Sum& sum : found) sum = system_.reduce(sum);
    return found;
  }

  void raise_block(const Block& block, const std::vector<Sum>& first, const std::vector<Sum>& then,
                   std::vector<Relation>& settled) {
    if (shortcuts_ && is_interval(block)) {
      if (const auto best = raised_highest(system_, block, first, then)) {
        settled.push_back(equals(Sum::of(block.variables.front()), Sum(*best)));
        witness_.resize(system_.variables(), 0);  // a step may have brought a variable of its own
        witness_[block.variables.front()] = *best;
        return;
      }
    }
    if (shortcuts_) {
      if (auto found = arrange_block(system_, block, first, then, prover_)) {
        witness_.resize(system_.variables(), 0);
        for (const auto& [variable, value] : found->values) witness_[variable] = value;
        if (!found->finished) throw OutOfTime{};
        settled.insert(settled.end(), found->settled.begin(), found->settled.end());
        return;
      }
    }
    prover_.describe(system_);
    Session session(system_, prover_, block);
    session.raise_smallest(first);
    session.raise_in_order(then);
    remember(block, session);
    for (const std::vector<Sum>* sums : {&first, &then}) {
      for (const Sum& sum : *sums) settled.push_back(equals(sum, Sum(session.value(sum))));
    }
  }

  // The values on the way when time ran out, if they are a card; else the first card found.
  std::vector<Rational> best_known() {
    std::vector<Rational> now = values();
    return !now.empty() && is_card(now) ? now : first_;
  }

  [[nodiscard]] bool is_card(const std::vector<Rational>& values) const {
    for (std::size_t i = 0; i < rules_.rectangles.size(); ++i) {
      const Rectangle& rectangle = rules_.rectangles[i];
      const auto fits = [&](bool on_marks, Measure measure) {
        return !on_marks || is_multiple(values[variable(i, measure)], rules_.mark);
      };
      if (!fits(rectangle.width_on_marks, Measure::width) ||
          !fits(rectangle.height_on_marks, Measure::height)) {
        return false;
      }
    }
    return std::all_of(rules_.rules.begin(), rules_.rules.end(),
                       [&](const Rule& rule) { return holds(rule, values); });
  }

  std::vector<Rational> values() {
    std::vector<Rational> found;
    if (!have_witness_) return found;
    witness_.resize(system_.variables(), 0);
    for (Variable v = 0; v < rules_.variables(); ++v)
      found.push_back(system_.reduce(Sum::of(v)).at(witness_));
    return found;
  }

  const Rules& rules_;
  bool shortcuts_;
  System system_;
  Prover& prover_;
  std::vector<Rational> witness_;
  std::vector<Rational> first_;
  bool have_witness_ = false;
};

}  // namespace

Choosing choose(const Rules& rules, Prover& prover, bool shortcuts) {
  return Chooser(rules, prover, shortcuts).run();
}

Choosing choose(const Rules& rules, const ChooseOptions& options) {
  Prover prover(options.limit, options.seed);
  return choose(rules, prover, options.shortcuts);
}

}  // namespace evenmat
