// Each step is separable over blocks that share nothing: totals add up, and "the smallest raised, then the
// next" over two independent parts is reached by raising each. So every block is settled by itself, and
// what a step settles splits the blocks further for the next one (layers on different things come apart
// once the things are known).
#include "solver/search/choose.h"

#include <algorithm>
#include <map>
#include <stdexcept>

#include "solver/exact/system.h"
#include "solver/search/arrange_block.h"
#include "solver/search/chains.h"
#include "solver/search/one_variable.h"
#include "solver/search/session.h"

namespace evenmat {
namespace {

// Two rules that keep the same two boxes apart: the one with the wider gap implies the other, and stands
// for both under the name that the aims for spaces know.
void add_choices(System& system, const Rules& all, const std::vector<std::size_t>& ids) {
  std::vector<bool> known(all.rules.size(), false);
  for (const Separation& separation : all.separations) known[separation.rule] = true;
  std::map<std::vector<Variable>, std::vector<OpenChoice>> alike;
  const auto key_of = [](const OpenChoice& choice) {
    std::vector<Variable> key;
    for (const Option& option : choice.options) {
      for (const Relation& relation : option.relations) {
        for (const Term& term : relation.sum.terms()) key.push_back(term.variable);
      }
    }
    return key;
  };
  // Whether a is at least as strict as b in every option.
  const auto stricter = [](const OpenChoice& a, const OpenChoice& b) {
    if (a.options.size() != b.options.size()) return false;
    for (std::size_t i = 0; i < a.options.size(); ++i) {
      const auto& ra = a.options[i].relations;
      const auto& rb = b.options[i].relations;
      if (ra.size() != 1 || rb.size() != 1 || ra[0].equal || rb[0].equal) return false;
      const Sum difference = ra[0].sum - rb[0].sum;
      if (!difference.is_constant() || difference.constant() < 0) return false;
    }
    return true;
  };
  std::vector<std::vector<Variable>> order;
  for (const std::size_t id : ids) {
    const Rule& rule = all.rules[id];
    OpenChoice choice;
    choice.rule = id;
    for (std::size_t index = 0; index < rule.choices.size(); ++index) {
      choice.options.push_back({rule.choices[index], index});
    }
    const std::vector<Variable> key = key_of(choice);
    auto& same = alike[key];
    if (same.empty()) order.push_back(key);
    bool implied = false;
    for (OpenChoice& other : same) {
      const bool keep = stricter(other, choice);
      if (!keep && !stricter(choice, other)) continue;
      const auto name = known[*choice.rule] ? choice.rule : other.rule;
      if (!keep) other.options = choice.options;
      other.rule = name;
      implied = true;
      break;
    }
    if (!implied) same.push_back(std::move(choice));
  }
  for (const auto& key : order) {
    for (OpenChoice& choice : alike[key]) system.add(std::move(choice));
  }
}

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
      return {Outcome::out_of_time, values(), first_};
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
    const std::vector<Sum> raised = raising == Step::spaces ? spaces() : aims(raising);
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

  void raise_block(const Block& block, const std::vector<Sum>& first, const std::vector<Sum>& then,
                   std::vector<Relation>& settled) {
    if (shortcuts_ && is_interval(block)) {
      if (const auto best = raised_highest(system_, block, first, then)) {
        settled.push_back(equals(Sum::of(block.variables.front()), Sum(*best)));
        return;
      }
    }
    if (shortcuts_) {
      if (auto found = arrange_block(system_, block, first, then, prover_)) {
        settled.insert(settled.end(), found->begin(), found->end());
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

  // The spaces of step 6. Two pieces that are stated to be beside one another have their gap, those further
  // along a stated row are no neighbours. Of the others, two that lie apart in a direction whatever is chosen
  // have their gap in that direction; of the rest, which may lie on any side, a piece's distance to the
  // nearest counts: a variable, no more than the gap to each of them in one direction at least.
  std::vector<Sum> spaces() {
    std::vector<Sum> found = aims(Step::spaces);
    const std::vector<Standing> standing = standings(rules_);
    const std::vector<std::vector<std::size_t>> sure = always_apart(standing);
    std::map<std::size_t, Sum> nearest;
    for (std::size_t i = 0; i < rules_.separations.size(); ++i) {
      const Separation& separation = rules_.separations[i];
      if (separation.stated) found.push_back(separation.gaps[*separation.stated]);
      if (standing[i] != Standing::open) continue;
      for (const std::size_t way : sure[i]) found.push_back(separation.gaps[way]);
      auto choice = system_.take_choice(separation.rule);
      const Rational least = choice ? clearance(*choice, separation) : Rational(0);
      if (!sure[i].empty()) {
        if (choice && least > 0) system_.add(std::move(*choice));
        continue;
      }
      OpenChoice sides;
      sides.rule = separation.rule;
      for (const std::size_t way : ways_left(choice, separation)) {
        sides.options.push_back({{at_least(separation.gaps[way], Sum(least))}, way});
        for (const std::size_t piece : {separation.first, separation.second}) {
          if (!nearest.contains(piece)) {
            nearest.emplace(piece, Sum::of(system_.fresh()));
            system_.add(at_least(nearest.at(piece), Sum(0)));
          }
          sides.options.back().relations.push_back(at_most(nearest.at(piece), separation.gaps[way]));
        }
      }
      system_.add(std::move(sides));
    }
    for (const auto& [piece, distance] : nearest) found.push_back(distance);
    follow_up();
    for (Sum& sum : found) sum = system_.reduce(sum);
    return found;
  }

  // By separation, the directions in which the two lie apart in every card that the rules allow by now.
  std::vector<std::vector<std::size_t>> always_apart(const std::vector<Standing>& standing) {
    std::vector<std::vector<std::size_t>> sure(rules_.separations.size());
    std::vector<Sum> open;
    std::vector<std::pair<std::size_t, std::size_t>> origin;  // separation and direction of each open gap
    for (std::size_t i = 0; i < rules_.separations.size(); ++i) {
      if (standing[i] != Standing::open) continue;
      const Separation& separation = rules_.separations[i];
      const auto only = system_.decided(separation.rule);
      for (std::size_t way = 0; way < separation.gaps.size(); ++way) {
        const Sum gap = system_.reduce(separation.gaps[way]);
        const Interval range = system_.range(gap);
        if (only == way || (range.low && *range.low >= 0)) {
          sure[i].push_back(way);
        } else if (!only && (!range.high || *range.high >= 0)) {
          open.push_back(gap);
          origin.emplace_back(i, way);
        }
      }
    }
    for (Block& block : system_.split(open)) {
      if (block.aims.empty() || is_interval(block)) continue;  // an interval's ends are known: it can overlap
      prover_.describe(system_);
      Session session(system_, prover_, block);
      std::vector<std::size_t> left = block.aim_of;
      while (!left.empty()) {
        std::vector<Sum> overlaps;
        for (const std::size_t i : left) overlaps.push_back(open[i] * Rational(-1));
        const Scope scope(prover_);
        prover_.require_any_above(overlaps);
        if (!prover_.possible()) break;
        std::erase_if(left, [&](std::size_t i) { return prover_.value(open[i]) < 0; });
      }
      for (const std::size_t i : left) sure[origin[i].first].push_back(origin[i].second);
    }
    for (auto& ways : sure) std::sort(ways.begin(), ways.end());
    return sure;
  }

  // The least that the two are kept apart by: an option says clearance - gap <= 0.
  Rational clearance(const OpenChoice& choice, const Separation& separation) const {
    const Option& option = choice.options.front();
    return (system_.reduce(option.relations.front().sum) + system_.reduce(separation.gaps[option.index]))
        .constant();
  }

  // The directions in which the two can have their widest gap.
  std::vector<std::size_t> ways_left(const std::optional<OpenChoice>& choice,
                                     const Separation& separation) const {
    std::vector<std::size_t> ways;
    if (choice) {
      for (const Option& option : choice->options) ways.push_back(option.index);
      return ways;
    }
    for (std::size_t way = 0; way < separation.gaps.size(); ++way) {
      const Interval range = system_.range(system_.reduce(separation.gaps[way]));
      if (!range.high || *range.high >= 0) ways.push_back(way);
    }
    return ways;
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

System system_of(const Rules& rules, const std::vector<bool>& wish_counts, bool marks) {
  System system(rules.mark, rules.variables());
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    if (marks && rules.rectangles[i].width_on_marks) system.set_whole(variable(i, Measure::width));
    if (marks && rules.rectangles[i].height_on_marks) system.set_whole(variable(i, Measure::height));
  }
  // Pieces in a stated row cannot overlap, as long as what is stated counts.
  std::vector<bool> implied(rules.rules.size(), false);
  if (wish_counts.empty()) {
    const std::vector<Standing> standing = standings(rules);
    for (std::size_t i = 0; i < standing.size(); ++i) {
      implied[rules.separations[i].rule] = standing[i] != Standing::open;
    }
  }
  std::vector<std::size_t> choices;
  for (std::size_t i = 0; i < rules.rules.size(); ++i) {
    const Rule& rule = rules.rules[i];
    if (implied[i]) continue;
    if (rule.origin == Origin::stated && !wish_counts.empty() && !wish_counts[rule.wish]) continue;
    if (rule.choices.size() == 1) {
      for (const Relation& relation : rule.choices.front()) system.add(relation);
    } else {
      choices.push_back(i);
    }
  }
  add_choices(system, rules, choices);
  return system;
}

bool possible(System system, Prover& prover) {
  if (!system.settle()) return false;
  for (Block& block : system.split({})) {
    if (is_interval(block)) continue;
    prover.describe(system);
    Session session(system, prover, block);
    if (!session.possible()) return false;
  }
  return true;
}

Rules only_versions(const Rules& rules, const std::vector<bool>& versions) {
  Rules some;
  some.mark = rules.mark;
  some.rectangles = rules.rectangles;
  std::vector<std::size_t> place(rules.rules.size(), 0);
  for (std::size_t i = 0; i < rules.rules.size(); ++i) {
    if (!versions[rules.rules[i].version]) continue;
    place[i] = some.rules.size();
    some.rules.push_back(rules.rules[i]);
  }
  for (const Aim& aim : rules.aims) {
    const auto& terms = aim.sum.terms();
    if (!std::all_of(terms.begin(), terms.end(), [&](const Term& term) {
          return versions[rules.rectangles[term.variable / 4].version];
        })) {
      continue;
    }
    some.aims.push_back(aim);
  }
  for (const Separation& separation : rules.separations) {
    if (!versions[rules.rectangles[separation.first].version]) continue;
    some.separations.push_back(separation);
    some.separations.back().rule = place[separation.rule];
  }
  return some;
}

Choosing choose(const Rules& rules, Prover& prover, bool shortcuts) {
  return Chooser(rules, prover, shortcuts).run();
}

Choosing choose(const Rules& rules, const ChooseOptions& options) {
  Prover prover(options.limit, options.seed);
  return choose(rules, prover, options.shortcuts);
}

}  // namespace evenmat
