#include "solver/why/sums.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/multiprecision/eigen.hpp>
#include <map>
#include <set>

#include "solver/exact/system.h"
#include "solver/search/session.h"

namespace evenmat {
namespace {

constexpr std::size_t most_ways = 256;  // through choices, looked at one by one

using Matrix = Eigen::Matrix<Rational, Eigen::Dynamic, Eigen::Dynamic>;

// Of things held each by its token, such as cannot hold together with none to spare: the later ones are
// dropped first. Empty when all can hold.
std::vector<std::size_t> smallest_of(Prover& prover, const std::vector<Prover::Token>& tokens) {
  if (prover.possible(tokens)) return {};
  std::vector<Prover::Token> blamed = prover.blamed();
  std::vector<bool> kept(tokens.size(), true);
  for (std::size_t i = tokens.size(); i-- > 0;) {
    kept[i] = false;
    if (!std::binary_search(blamed.begin(), blamed.end(), tokens[i])) continue;
    std::vector<Prover::Token> rest;
    for (std::size_t j = 0; j < tokens.size(); ++j) {
      if (kept[j]) rest.push_back(tokens[j]);
    }
    // Without any token the prover could not tell what to blame; alone, one must be to blame.
    if (rest.empty() || prover.possible(rest)) {
      kept[i] = true;
    } else {
      blamed = prover.blamed();
    }
  }
  std::vector<std::size_t> smallest;
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    if (kept[i]) smallest.push_back(i);
  }
  return smallest;
}

// How often each line counts. The lines cannot hold, and none of them can be left out: then there is one way
// only, but for its scale.
void weigh(std::vector<SumLine>& lines) {
  std::map<Variable, Eigen::Index> rows;
  for (const SumLine& line : lines) {
    for (const Term& term : line.says.sum.terms()) rows.emplace(term.variable, 0);
  }
  Eigen::Index next = 0;
  for (auto& [variable, row] : rows) row = next++;
  Matrix factors = Matrix::Zero(std::max<Eigen::Index>(next, 1), static_cast<Eigen::Index>(lines.size()));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (const Term& term : lines[i].says.sum.terms()) {
      factors(rows.at(term.variable), static_cast<Eigen::Index>(i)) = term.factor;
    }
  }
  const Eigen::FullPivLU<Matrix> solved(factors);
  const Matrix kernel = solved.kernel();
  Rational total = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    lines[i].times = kernel(static_cast<Eigen::Index>(i), 0);
    total += lines[i].share();
  }
  if (total < 0) {
    for (SumLine& line : lines) line.times = -line.times;
  }
}

bool is_more(const Rules& rules, const SumLine& line) { return line.rule == rules.rules.size(); }

// The size that the others have to fit into, or to fill: the outermost extent; of two of one thing the one
// that gives room. Where there is none, whatever gives room.
std::optional<std::size_t> space_of(const Rules& rules, const std::vector<SumLine>& lines) {
  // Of two that lie apart neither is a space that the other has to fill.
  const bool apart = std::any_of(lines.begin(), lines.end(), [&](const SumLine& line) {
    return line.rule < rules.rules.size() && rules.rules[line.rule].keeps_apart;
  });
  const bool gives_room = std::any_of(lines.begin(), lines.end(), [&](const SumLine& line) {
    return line.rule < rules.rules.size() && line.share() < 0 && !rules.rules[line.rule].keeps_apart;
  });
  std::optional<std::size_t> best;
  std::vector<std::size_t> best_rank;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (is_more(rules, lines[i])) return i;
    if (lines[i].share() == 0) continue;
    const Rule& rule = rules.rules[lines[i].rule];
    const bool room = lines[i].share() < 0;
    if (!rule.amount.extent && !room) continue;
    if (apart && gives_room && !room && depth(rules, rule.amount.rectangle) > 0) continue;
    // That a layer has some size at all is no space.
    if (rule.origin == Origin::given && !lines[i].says.equal && !room) continue;
    const std::vector<std::size_t> rank{rule.amount.extent ? 0U : 1U, depth(rules, rule.amount.rectangle),
                                        room ? 0U : 1U};
    if (!best || rank < best_rank) {
      best = i;
      best_rank = rank;
    }
  }
  return best;
}

// `x - room <= 0`, times any factor, with more room.
void lengthen(Relation& relation, const Rational& by) {
  relation.sum += Sum(relation.sum.constant() < 0 ? Rational(-by) : by);
}

// Linear relations only. They cannot hold.
class Way {
 public:
  Way(const Rules& rules, std::vector<SumLine> lines, Prover& prover)
      : rules_(rules), lines_(std::move(lines)), prover_(prover) {}

  // Each space is made longer until nothing is wrong with it any more: its last sum tells by how much it was
  // too short. One that would have to be longer for this and shorter for that is told by its first sum, and
  // what else there is left aside.
  std::vector<ExactSum> sums() {
    std::vector<std::pair<std::size_t, ExactSum>> found;  // by place of the space in lines_
    for (std::vector<std::size_t> few = few_of(); !few.empty(); few = few_of()) {
      ExactSum sum;
      for (const std::size_t i : few) {
        sum.lines.push_back(lines_[i]);
        sum.lines.back().says = moved(i);
      }
      weigh(sum.lines);
      for (std::size_t i = 0; i < few.size(); ++i) sum.lines[i].says = lines_[few[i]].says;
      const auto known = std::find_if(found.begin(), found.end(), [&](const auto& entry) {
        return std::find(few.begin(), few.end(), entry.first) != few.end();
      });
      if (known == found.end()) {
        sum.space = space_of(rules_, sum.lines);
        scale(sum);
        found.emplace_back(sum.space ? few[*sum.space] : lines_.size(), sum);
        if (!sum.space || found.size() == most_spaces) break;
        moved_[few[*sum.space]] = sum.short_by();
        continue;
      }
      const std::size_t space = known->first;
      sum.space = static_cast<std::size_t>(std::find(few.begin(), few.end(), space) - few.begin());
      scale(sum);
      // Nothing new, or right before the space was moved: it would have to be longer and shorter.
      if (sum.miss <= known->second.miss || (sum.short_by() < 0) != (moved_[space] < 0)) {
        known->second.longer_helps = false;
        break;
      }
      moved_[space] = sum.short_by();
      known->second = std::move(sum);
    }
    std::vector<ExactSum> sums;
    for (auto& [space, sum] : found) sums.push_back(std::move(sum));
    return sums;
  }

 private:
  static constexpr std::size_t most_spaces = 4;

  // The few that cannot hold with the spaces so much longer.
  std::vector<std::size_t> few_of() {
    const Scope scope(prover_);
    System reals(rules_.mark, rules_.variables());
    prover_.describe(reals);
    std::vector<Prover::Token> tokens;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      tokens.push_back(prover_.new_token());
      prover_.require_if(tokens.back(), moved(i));
    }
    return smallest_of(prover_, tokens);
  }

  [[nodiscard]] Relation moved(std::size_t line) const {
    Relation relation = lines_[line].says;
    const auto by = moved_.find(line);
    if (by != moved_.end()) lengthen(relation, by->second);
    return relation;
  }

  static void scale(ExactSum& sum) {
    const auto asks = [](const SumLine& line) { return line.share() > 0; };
    const SumLine& one =
        sum.space ? sum.lines[*sum.space] : *std::find_if(sum.lines.begin(), sum.lines.end(), asks);
    const Rational unit = abs(one.times);
    sum.miss = 0;
    for (SumLine& line : sum.lines) {
      line.times /= unit;
      sum.miss += line.share();
    }
  }

  const Rules& rules_;
  std::vector<SumLine> lines_;
  Prover& prover_;
  std::map<std::size_t, Rational> moved_;  // spaces, by place in lines_
};

// The least value of a sum; absent when the system cannot hold.
std::optional<Rational> least_of(System& system, const Sum& sum, Prover& prover) {
  if (!system.settle()) return std::nullopt;
  const Sum reduced = system.reduce(sum);
  if (reduced.is_constant()) return reduced.constant();
  std::optional<Rational> least;
  for (const Block& block : system.split({reduced})) {
    prover.describe(system);
    Session session(system, prover, block);
    if (!session.possible()) return std::nullopt;
    if (!block.aims.empty()) least = session.least(reduced);
  }
  return least;
}

// The rules that cannot hold, all that is stated, and what is given of the same things without a choice.
std::vector<std::size_t> told_with(const Rules& rules, const std::vector<std::size_t>& indices,
                                   const std::vector<std::size_t>& smallest) {
  const auto is_smallest = [&](std::size_t index) {
    return std::find(smallest.begin(), smallest.end(), index) != smallest.end();
  };
  std::set<std::size_t> things;  // rectangles
  for (const std::size_t index : indices) {
    if (rules.rules[index].origin != Origin::stated && !is_smallest(index)) continue;
    for (const auto& choice : rules.rules[index].choices) {
      for (const Relation& relation : choice) {
        for (const Term& term : relation.sum.terms()) things.insert(term.variable / 4);
      }
    }
  }
  // A thing is no smaller than its windows with paper round them.
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& it = rules.rectangles[i];
    if (it.kind == Rectangle::Kind::window && it.on && things.contains(*it.on)) things.insert(i);
  }
  std::vector<std::size_t> told;
  for (const std::size_t index : indices) {
    const Rule& rule = rules.rules[index];
    const auto& relations = rule.choices.front();
    const bool same_things = rule.choices.size() == 1 &&
                             std::all_of(relations.begin(), relations.end(), [&](const Relation& relation) {
                               const auto& terms = relation.sum.terms();
                               return std::all_of(terms.begin(), terms.end(), [&](const Term& term) {
                                 return things.contains(term.variable / 4);
                               });
                             });
    // A wish about several layers speaks of those that stand in the way.
    const bool aside =
        rule.choices.size() > 1 && !is_smallest(index) &&
        std::any_of(smallest.begin(), smallest.end(), [&](std::size_t other) {
          return rules.rules[other].origin == Origin::stated && rules.rules[other].spot == rule.spot;
        });
    if ((rule.origin == Origin::stated && !aside) || is_smallest(index) || same_things) told.push_back(index);
  }
  return told;
}

// For each dimension of a face among the rules: with that as much longer as it takes at least, the choices
// that hold.
std::vector<std::vector<std::size_t>> ways_with_more_room(const Rules& rules, const Nearest& nearest,
                                                          const std::vector<std::size_t>& indices,
                                                          const std::optional<Relation>& more,
                                                          Prover& prover) {
  std::vector<std::vector<std::size_t>> ways;
  for (const std::size_t space : indices) {
    const Rule& face = rules.rules[space];
    const bool is_space = face.origin == Origin::given && face.amount.extent && face.choices[0][0].equal;
    if (!is_space) continue;
    System system(rules.mark, rules.variables());
    const Variable by = system.fresh();
    system.add(at_least(Sum::of(by), Sum(0)));
    if (more) system.add(*more);
    for (const std::size_t index : indices) {
      auto choices = rules.rules[index].choices;
      if (index == space) choices[0][0].sum += Sum::of(by, choices[0][0].sum.constant() < 0 ? -1 : 1);
      if (choices.size() == 1) {
        for (Relation& relation : choices[0]) system.add(std::move(relation));
      } else {
        OpenChoice open;
        for (auto& relations : choices) open.options.push_back({std::move(relations), open.options.size()});
        system.add(std::move(open));
      }
    }
    const auto least = least_of(system, Sum::of(by), prover);
    if (!least) continue;
    const Scope scope(prover);
    System reals(rules.mark, rules.variables());
    prover.describe(reals);
    if (more) prover.require(*more);
    for (const std::size_t index : indices) {
      OpenChoice choice;
      for (const auto& relations : rules.rules[index].choices) choice.options.push_back({relations, 0});
      if (index == space) lengthen(choice.options[0].relations[0], *least);
      prover.require(choice);
    }
    if (!prover.possible()) continue;
    std::vector<std::size_t> way;
    for (const std::size_t index : nearest.open) {
      const auto& choices = rules.rules[index].choices;
      const auto held =
          std::find_if(choices.begin(), choices.end(), [&](const std::vector<Relation>& relations) {
            return std::all_of(relations.begin(), relations.end(), [&](const Relation& relation) {
              const Rational value = prover.value(relation.sum);
              return relation.equal ? value == 0 : value <= 0;
            });
          });
      way.push_back(static_cast<std::size_t>(held - choices.begin()));
    }
    ways.push_back(std::move(way));
  }
  return ways;
}

// Of what lies over one another the sum of thicknesses is told, not how it could be laid apart.
std::size_t ways_to_tell(const Rules& rules, std::size_t index) {
  const Rule& rule = rules.rules[index];
  return is_pile(rules, rule) ? 1 : rule.choices.size();
}

}  // namespace

bool is_pile(const Rules& rules, const Rule& rule) {
  return rule.origin == Origin::given &&
         rules.rectangles[rule.amount.rectangle].kind == Rectangle::Kind::thickness &&
         !rule.amount.of.empty();
}

Rational ExactSum::short_by() const { return space && longer_helps && !fits_in() ? Rational(-miss) : miss; }

std::size_t depth(const Rules& rules, std::size_t rectangle) {
  std::size_t count = 0;
  for (auto on = rules.rectangles[rectangle].on; on; on = rules.rectangles[*on].on) ++count;
  return count;
}

const Rational& WayThrough::miss() const {
  const auto less = [](const ExactSum& a, const ExactSum& b) { return a.miss < b.miss; };
  return std::max_element(sums.begin(), sums.end(), less)->miss;
}

std::optional<Nearest> nearest_sum(const Rules& rules, const std::vector<std::size_t>& indices,
                                   const std::optional<Relation>& more, Prover& prover) {
  Nearest nearest;
  {
    const Scope scope(prover);
    System reals(rules.mark, rules.variables());
    prover.describe(reals);
    if (more) prover.require(*more);
    std::vector<Prover::Token> tokens;
    for (const std::size_t index : indices) {
      tokens.push_back(prover.new_token());
      OpenChoice choice;
      for (const auto& relations : rules.rules[index].choices) choice.options.push_back({relations, 0});
      prover.require_if(tokens.back(), choice);
    }
    for (const std::size_t place : smallest_of(prover, tokens)) nearest.rules.push_back(indices[place]);
  }
  if (nearest.rules.empty()) return std::nullopt;
  // By how much it misses is measured with all that is stated, and what else is given of the same things: the
  // few rules may miss by less than the wishes do.
  const std::vector<std::size_t> told = told_with(rules, indices, nearest.rules);
  std::size_t count = 1;
  for (const std::size_t index : told) {
    const std::size_t choices = ways_to_tell(rules, index);
    if (choices == 1) continue;
    nearest.open.push_back(index);
    count = count > most_ways ? count : count * choices;
  }
  const auto lines_of = [&](const std::vector<std::size_t>& way) {
    std::vector<SumLine> lines;
    std::size_t next = 0;
    for (const std::size_t index : told) {
      const auto& choices = rules.rules[index].choices;
      const std::size_t choice = ways_to_tell(rules, index) == 1 ? 0 : way[next++];
      for (std::size_t r = 0; r < choices[choice].size(); ++r) {
        lines.push_back({index, choice, r, choices[choice][r], 0});
      }
    }
    if (more) lines.push_back({rules.rules.size(), 0, 0, *more, 0});
    return lines;
  };
  nearest.all_ways = count <= most_ways;
  std::vector<std::vector<std::size_t>> ways;
  if (!nearest.all_ways) ways = ways_with_more_room(rules, nearest, told, more, prover);
  std::vector<std::size_t> way(nearest.open.size(), 0);
  while (nearest.all_ways || ways.empty()) {
    ways.push_back(way);
    std::size_t i = way.size();
    while (i > 0 && ++way[i - 1] == ways_to_tell(rules, nearest.open[i - 1])) way[--i] = 0;
    if (i == 0) break;
  }
  for (const std::vector<std::size_t>& choices : ways) {
    nearest.ways.push_back({choices, Way(rules, lines_of(choices), prover).sums()});
  }
  const auto nearer = [](const WayThrough& a, const WayThrough& b) {
    return std::pair(a.miss(), a.sums.size()) < std::pair(b.miss(), b.sums.size());
  };
  const auto best = std::min_element(nearest.ways.begin(), nearest.ways.end(), nearer);
  std::rotate(nearest.ways.begin(), best, best + 1);
  return nearest;
}

}  // namespace evenmat
