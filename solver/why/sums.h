// Why some rules cannot hold, as a sum: relations that cannot hold together and by how much each counts, so
// that their lengths cancel and only an amount too much is left. (Farkas' lemma: for linear relations over
// the reals there always is such a sum.) Marks are left aside here.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// A relation and the rule it comes from.
struct SumLine {
  std::size_t rule = 0;
  std::size_t choice = 0;
  std::size_t relation = 0;
  Relation says;
  Rational times;  // how often it counts in the sum
  // What it puts into the sum: what is asked for counts up, room for it down.
  [[nodiscard]] Rational share() const { return times * says.sum.constant(); }
};

// Lines whose sum has no lengths left and comes to `miss` > 0 where it may be at most 0. No line can be left
// out. `space` is the line that says how much room there is: the outermost size among them; it counts once.
struct ExactSum {
  std::vector<SumLine> lines;
  std::optional<std::size_t> space;
  Rational miss;
  bool longer_helps = true;  // a longer (or shorter) space would do; false where it only moves what is wrong
  // Whether the space gives room to the others; else they have to fill it.
  [[nodiscard]] bool fits_in() const { return space && lines[*space].share() < 0; }
  // How much more room the space would need: `miss`, or its negative for a space that is not filled.
  [[nodiscard]] Rational short_by() const;
};

// One way through the choices of some rules, and why it does not hold: as a rule by one sum; by several where
// no single space is to blame, such as a size that is too wide and too tall.
struct WayThrough {
  std::vector<std::size_t> choices;  // as many as `Nearest::open`
  std::vector<ExactSum> sums;
  [[nodiscard]] const Rational& miss() const;  // the largest
};

struct Nearest {
  std::vector<std::size_t> rules;  // rules that cannot hold, none to spare
  std::vector<std::size_t> open;   // those with choices that the ways go through
  std::vector<WayThrough> ways;    // the one that comes nearest to holding first; never empty
  // False where there are too many ways to weigh each: then only those are there that come nearest with one
  // dimension of a face made longer, or, where that would not do, some way or other.
  bool all_ways = true;
};

// Rules of one version of a card, by index, and a relation beside them that is asked about: it counts once in
// the sum, as its space, and its lines carry the index after the last rule. Absent when all can hold with the
// marks aside. Throws OutOfTime.
std::optional<Nearest> nearest_sum(const Rules& rules, const std::vector<std::size_t>& indices,
                                   const std::optional<Relation>& more, Prover& prover);

// Whether a rule is about papers, foam and adhesive that lie over one another.
bool is_pile(const Rules& rules, const Rule& rule);

// How many things a rectangle lies on, one on another.
std::size_t depth(const Rules& rules, std::size_t rectangle);

}  // namespace evenmat
