// The rules of a whole card under question, with any of the stated wishes held and any of the numbers in them
// let go. One prover holds them all from the start, each wish behind tokens of its own, so that asking again
// costs only what changed.
//
// Rules fall into parts that share no length (across and down, front and inside, each variant): what cannot
// hold, cannot hold within one part. A wish can reach into several.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "solver/exact/equations.h"
#include "solver/exact/system.h"
#include "solver/quotas.h"
#include "solver/rule.h"
#include "solver/search/prover.h"

namespace evenmat {

// A wish, size or entry of `rules` by its place in the file: one, whatever it binds. In file order.
using WishId = std::size_t;
using WishIds = std::vector<WishId>;  // sorted

class Inquiry {
 public:
  // Both must outlive it.
  Inquiry(const Rules& rules, Prover& prover);

  struct Part {
    std::size_t version = 0;
    WishIds wishes;  // that bind something in it
  };
  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
  [[nodiscard]] std::size_t wishes() const { return spots_.size(); }
  [[nodiscard]] const Spot& spot(WishId wish) const { return spots_[wish]; }
  [[nodiscard]] const std::vector<Spot>& spots() const { return spots_; }

  // Quotas that are to be kept as well: a card that breaks one shows rules, which are added.
  void watch(std::vector<Quota> quotas) { quotas_ = std::move(quotas); }

  // Whether these wishes can hold together in one part, beside what is given. Throws OutOfTime.
  bool possible(std::size_t part, const WishIds& held);
  // After a no: wishes among those held that are enough for it.
  WishIds blamed();

  // Numbers that one of the wishes uses, sorted; artwork left out.
  [[nodiscard]] std::vector<std::size_t> numbers_of(const WishIds& wishes) const;
  // Parts that a number reaches into.
  [[nodiscard]] std::set<std::size_t> parts_of_number(std::size_t number) const;

  // The variable that stands for a number once it is let go; whatever it is, it can be written.
  Variable value_of(std::size_t number);
  // Whether the wishes can hold in some parts with a number let go and at this value, quotas kept. Throws
  // OutOfTime.
  bool possible_at(const std::vector<std::size_t>& parts, const WishIds& held, std::size_t number,
                   const Rational& value);

  // A rule of a wish that has rules already, of the lengths that those are of, found while asking.
  void add(const Rule& rule);

  // That a number let go lies on the marks, or on the finer steps that it has of its own.
  Relation on_marks(std::size_t number);
  [[nodiscard]] const Rational& step_of(std::size_t number) const;
  // The total of the sizes of some sums, required of new variables in the prover's present scope (from below:
  // to be kept small).
  Sum total_of(const std::vector<Sum>& sums);
  // Tokens under which wishes are held in some parts with some numbers let go: the others are as stated.
  std::vector<Prover::Token> tokens(const std::vector<std::size_t>& parts, const WishIds& held,
                                    const std::set<std::size_t>& let_go);

  // Some rule of the wish broken, in turn: whether that is possible with `held`.
  bool can_be_broken(WishId wish, const WishIds& held);

  // Whether some sums can all be 0 with `held`.
  bool can_be_zero(const std::vector<Sum>& sums, const WishIds& held);

  // The rules that bind a part: what is given there, and some of the wishes.
  [[nodiscard]] std::vector<std::size_t> rules_in(std::size_t part, const WishIds& held) const;

  [[nodiscard]] const Rules& rules() const { return rules_; }
  [[nodiscard]] Prover& prover() { return prover_; }

 private:
  struct Entry {
    std::size_t rule = 0;
    std::optional<std::size_t> relation;  // of the only choice; absent: the rule whole, with its choices
  };
  struct Opened {
    Variable value = 0;
    Variable marks = 0;
    Prover::Token as_stated = 0;
  };

  std::vector<Rule> shown_by_card(std::size_t part, const WishIds& held);
  void eliminate();
  void find_parts();
  void write();
  void require(Prover::Token token, const Entry& entry, bool opened);
  Sum sum_of(std::size_t rule, std::size_t choice, std::size_t relation, bool opened);
  Prover::Token opened_token(std::size_t part, WishId wish);
  std::vector<Prover::Token> all_tokens(const WishIds& held);
  std::size_t place_of(const Entry& entry);  // a variable (or version) whose part it is in
  std::size_t root(std::size_t place);

  const Rules& rules_;
  Prover& prover_;
  System system_;
  Equations settled_;
  std::vector<bool> used_up_;  // by rule: given equations that are eliminated
  std::vector<Spot> spots_;
  std::vector<WishId> wish_of_;  // by rule, where stated
  std::vector<std::size_t> roots_;
  std::vector<Part> parts_;
  std::map<std::size_t, std::size_t> part_of_root_;
  std::vector<Prover::Token> ground_;                                     // by part
  std::map<std::pair<std::size_t, WishId>, std::vector<Entry>> entries_;  // by part and wish
  std::map<std::pair<std::size_t, WishId>, Prover::Token> tokens_, opened_tokens_;
  std::map<Prover::Token, WishId> wish_of_token_;
  std::map<std::size_t, Opened> opened_;  // by number
  std::vector<Quota> quotas_;
};

}  // namespace evenmat
