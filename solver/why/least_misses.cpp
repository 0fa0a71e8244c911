// A miss is a variable above every sum that it bounds, so that making misses least is a linear question with
// choices.
#include "solver/why/least_misses.h"

#include <algorithm>
#include <stdexcept>

#include "solver/exact/system.h"
#include "solver/search/session.h"

namespace evenmat {
namespace {

void add_within(const Relation& relation, const Sum& miss, std::vector<Relation>& relations) {
  relations.push_back(at_most(relation.sum, miss));
  if (relation.equal) relations.push_back(at_most(Sum() - relation.sum, miss));
}

class Misses {
 public:
  Misses(const std::vector<Relation>& held, const std::vector<Wanted>& wanted, const Rational& mark,
         std::size_t variables, Prover& prover)
      : system_(mark, variables), prover_(prover) {
    for (const Relation& relation : held) system_.add(relation);
    for (const Wanted& one : wanted) add(one);
    if (!system_.settle()) throw std::logic_error("what was measured cannot be held");
  }

  std::vector<std::vector<Rational>> find() {
    std::vector<Sum> all = worst_;  // then each rule's own
    for (const auto& own : own_) all.insert(all.end(), own.begin(), own.end());
    for (Sum& sum : all) sum = system_.reduce(sum);
    std::vector<Rational> misses;
    for (const Sum& sum : all) misses.push_back(sum.constant());
    for (const Block& block : system_.split(all)) {
      if (!block.aims.empty()) settle(block, misses);
    }
    std::vector<std::vector<Rational>> found;
    auto next = misses.begin() + static_cast<std::ptrdiff_t>(worst_.size());
    for (const auto& own : own_) {
      const auto end = next + static_cast<std::ptrdiff_t>(own.size());
      found.emplace_back(next, end);
      next = end;
    }
    return found;
  }

 private:
  void add(const Wanted& wanted) {
    const Sum worst = Sum::of(system_.fresh());
    system_.add(at_least(worst, wanted.at_least));
    worst_.push_back(worst);
    own_.emplace_back();
    for (const auto& choices : wanted.rules) {
      const Sum own = Sum::of(system_.fresh());
      system_.add(at_least(own, 0));
      system_.add(at_most(own, worst));
      own_.back().push_back(own);
      OpenChoice open;
      for (std::size_t i = 0; i < choices.size(); ++i) {
        Option option{{}, i};
        for (const Relation& relation : choices[i]) add_within(relation, own, option.relations);
        open.options.push_back(std::move(option));
      }
      if (open.options.size() > 1) {
        system_.add(std::move(open));
      } else {
        for (Relation& relation : open.options.front().relations) system_.add(std::move(relation));
      }
    }
  }

  [[nodiscard]] bool is_worst(const Block& block, std::size_t aim) const {
    return block.aim_of[aim] < worst_.size();
  }

  void settle(const Block& block, std::vector<Rational>& misses) {
    const Variable spared = system_.fresh();  // what the greatest miss is below 0
    system_.limit_fresh(spared, 0);
    prover_.describe(system_);
    Session session(system_, prover_, block);
    Sum total;
    std::vector<Sum> raised;
    for (const bool worst : {true, false}) {
      for (std::size_t i = 0; i < block.aims.size(); ++i) {
        if (is_worst(block, i) != worst) continue;
        raised.push_back(Sum() - block.aims[i]);
        if (!worst) continue;
        session.require(at_most(block.aims[i] + Sum::of(spared), 0));
        total += block.aims[i];
      }
    }
    session.require(equals(Sum::of(spared), session.greatest(Sum::of(spared))));
    session.require(equals(total, session.least(total)));
    session.raise_in_order(raised);
    for (std::size_t i = 0; i < block.aims.size(); ++i) {
      misses[block.aim_of[i]] = session.value(block.aims[i]);
    }
  }

  System system_;
  Prover& prover_;
  std::vector<Sum> worst_;             // by wanted
  std::vector<std::vector<Sum>> own_;  // by wanted and rule
};

}  // namespace

std::vector<std::vector<Rational>> least_misses(const std::vector<Relation>& held,
                                                const std::vector<Wanted>& wanted, const Rational& mark,
                                                std::size_t variables, Prover& prover) {
  return Misses(held, wanted, mark, variables, prover).find();
}

}  // namespace evenmat
