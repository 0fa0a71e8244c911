#include "solver/why/sums.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/multiprecision/eigen.hpp>
#include <map>

#include "solver/exact/system.h"

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
  std::optional<std::size_t> best;
  std::vector<std::size_t> best_rank;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (is_more(rules, lines[i])) return i;
    if (lines[i].share() == 0) continue;
    const Rule& rule = rules.rules[lines[i].rule];
    const bool room = lines[i].share() < 0;
    if (!rule.amount.extent && !room) continue;
    if (rule.origin == Origin::given && !lines[i].says.equal) continue;  // that a layer has some size at all
    const std::vector<std::size_t> rank{rule.amount.extent ? 0U : 1U, depth(rules, rule.amount.rectangle),
                                        room ? 0U : 1U};
    if (!best || rank < best_rank) {
      best = i;
      best_rank = rank;
    }
  }
  return best;
}

// Linear relations only. They cannot hold.
class Way {
 public:
  Way(const Rules& rules, std::vector<SumLine> lines, Prover& prover)
      : rules_(rules), lines_(std::move(lines)), prover_(prover) {}

  // The sum that tells by how much a single space is too small (or too large) for all of it. Absent if no
  // change of one space would do; then `first()` is a sum all the same.
  std::optional<ExactSum> sum() {
    ExactSum exact;
    Rational moved = 0;
    std::optional<std::size_t> space;  // by place in lines_
    while (true) {
      std::vector<std::size_t> few = few_of(space, moved);
      if (few.empty()) return exact;
      ExactSum next;
      for (const std::size_t i : few) next.lines.push_back(lines_[i]);
      weigh(next.lines);
      if (!space) {
        next.space = space_of(rules_, next.lines);
        scale(next);
        if (!first_) first_ = next;
        if (!next.space) return std::nullopt;
        space = few[*next.space];
      } else {
        const auto place = std::find(few.begin(), few.end(), *space);
        if (place == few.end()) return std::nullopt;
        next.space = static_cast<std::size_t>(place - few.begin());
        scale(next);
        // To be longer for the one, shorter for the other: nothing does.
        if ((next.short_by() < 0) != (moved < 0)) return std::nullopt;
      }
      moved = next.short_by();
      exact = std::move(next);
    }
  }
  [[nodiscard]] const ExactSum& first() const { return *first_; }

 private:
  // The few that cannot hold with the space so much longer.
  std::vector<std::size_t> few_of(const std::optional<std::size_t>& space, const Rational& moved) {
    const Scope scope(prover_);
    System reals(rules_.mark, rules_.variables());
    prover_.describe(reals);
    std::vector<Prover::Token> tokens;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      tokens.push_back(prover_.new_token());
      Relation relation = lines_[i].says;
      if (space == i) relation.sum += Sum(longer(relation, moved));
      prover_.require_if(tokens.back(), relation);
    }
    return smallest_of(prover_, tokens);
  }

  // What is added to the constant of `x - room <= 0`, times any factor, when there is more room.
  static Rational longer(const Relation& relation, const Rational& by) {
    return relation.sum.constant() < 0 ? Rational(-by) : by;
  }

  static void scale(ExactSum& sum) {
    const auto asks = [](const SumLine& line) { return line.share() > 0; };
    const SumLine& one =
        sum.space ? sum.lines[*sum.space] : *std::find_if(sum.lines.begin(), sum.lines.end(), asks);
    const Rational unit = one.times < 0 ? Rational(-one.times) : one.times;
    sum.miss = 0;
    for (SumLine& line : sum.lines) {
      line.times /= unit;
      sum.miss += line.share();
    }
  }

  const Rules& rules_;
  std::vector<SumLine> lines_;
  Prover& prover_;
  std::optional<ExactSum> first_;
};

}  // namespace

Rational ExactSum::short_by() const { return space && lines[*space].share() > 0 ? Rational(-miss) : miss; }

std::size_t depth(const Rules& rules, std::size_t rectangle) {
  std::size_t count = 0;
  for (auto on = rules.rectangles[rectangle].on; on; on = rules.rectangles[*on].on) ++count;
  return count;
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
  std::size_t count = 1;
  for (const std::size_t index : nearest.rules) {
    const std::size_t choices = rules.rules[index].choices.size();
    if (choices == 1) continue;
    nearest.open.push_back(index);
    count = count > most_ways ? count : count * choices;
  }
  std::vector<std::size_t> way(nearest.open.size(), 0);
  std::optional<ExactSum> any;
  std::optional<std::size_t> best;
  for (std::size_t number = 0; number < std::min(count, most_ways); ++number) {
    std::vector<SumLine> lines;
    std::size_t next = 0;
    for (const std::size_t index : nearest.rules) {
      const Rule& rule = rules.rules[index];
      const std::size_t choice = rule.choices.size() == 1 ? 0 : way[next++];
      for (std::size_t r = 0; r < rule.choices[choice].size(); ++r) {
        lines.push_back({index, choice, r, rule.choices[choice][r], 0});
      }
    }
    if (more) lines.push_back({rules.rules.size(), 0, 0, *more, 0});
    Way through(rules, std::move(lines), prover);
    std::optional<ExactSum> sum = through.sum();
    if (!any) any = through.first();
    const auto size = [](const ExactSum& s) { return s.miss; };
    if (sum && (!best || size(*sum) < size(*nearest.sums[*best]))) best = nearest.ways.size();
    nearest.ways.push_back(way);
    nearest.sums.push_back(std::move(sum));
    for (std::size_t i = way.size(); i-- > 0;) {
      if (++way[i] < rules.rules[nearest.open[i]].choices.size()) break;
      way[i] = 0;
    }
  }
  if (best)
    std::rotate(nearest.ways.begin(), nearest.ways.begin() + static_cast<std::ptrdiff_t>(*best),
                nearest.ways.begin() + static_cast<std::ptrdiff_t>(*best) + 1);
  if (best)
    std::rotate(nearest.sums.begin(), nearest.sums.begin() + static_cast<std::ptrdiff_t>(*best),
                nearest.sums.begin() + static_cast<std::ptrdiff_t>(*best) + 1);
  nearest.sum = best ? *nearest.sums.front() : *any;
  return nearest;
}

}  // namespace evenmat
