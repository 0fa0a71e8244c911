#include "solver/why/slips.h"

#include <algorithm>
#include <map>
#include <optional>
#include <stdexcept>
#include <utility>

#include "solver/exact/system.h"
#include "solver/search/session.h"
#include "solver/why/spots.h"

namespace evenmat {
namespace {

// One inequality under the errors. It misses by up to worst - spare, and by no less than -worst - spare.
struct Strain {
  Rational spare, worst;
  Sum errors;
  [[nodiscard]] Rational most_missed() const { return worst - spare; }
  [[nodiscard]] Rational least_missed() const { return -worst - spare; }
};

// The inequalities of one way to keep a rule; absent when the way is not open, since something exact in it
// does not hold even on paper.
using Way = std::vector<Strain>;

const Strain& tightest(const Way& way) {
  return *std::max_element(way.begin(), way.end(), [](const Strain& a, const Strain& b) {
    return a.most_missed() < b.most_missed();
  });
}

class Slips {
 public:
  Slips(const Card& card, const Rules& rules, const std::vector<Rational>& values, const HandErrors& errors,
        const Rational& error, Prover& prover)
      : card_(card), rules_(rules), values_(values), errors_(errors), error_(error), prover_(prover) {}

  std::vector<Slip> find() {
    std::vector<Slip> slips;
    std::map<std::pair<std::string, Spot>, std::size_t>
        known;  // a wish that binds several sides is told once
    for (const Rule& rule : rules_.rules) {
      auto slip = slip_of(rule);
      if (!slip) continue;
      const auto [entry, fresh] = known.try_emplace({slip->says, slip->spot}, slips.size());
      if (fresh) {
        slips.push_back(std::move(*slip));
      } else if (missed(*slip) > missed(slips[entry->second])) {
        slips[entry->second] = std::move(*slip);
      }
    }
    std::stable_sort(slips.begin(), slips.end(), [](const Slip& a, const Slip& b) {
      return missed(a) != missed(b) ? missed(a) > missed(b) : a.spot < b.spot;
    });
    return slips;
  }

 private:
  static Rational missed(const Slip& slip) { return slip.worst - slip.spare; }

  // Absent when the way is not open, since something exact in it does not hold even on paper.
  [[nodiscard]] std::optional<Way> way_of(const std::vector<Relation>& relations) const {
    Way way;
    for (const Relation& relation : relations) {
      if (relation.equal) {
        if (!holds(relation, values_)) return std::nullopt;
        continue;
      }
      Strain strain;
      strain.errors = errors_.in(relation.sum);
      strain.spare = -relation.sum.at(values_);
      strain.worst = reach_of(strain.errors) * error_;
      way.push_back(std::move(strain));
    }
    return way;
  }

  std::optional<Slip> slip_of(const Rule& rule) {
    if (!is_up_to_the_hand(rule)) return std::nullopt;
    std::vector<Way> ways;
    for (const auto& choice : rule.choices) {
      auto way = way_of(choice);
      if (!way) continue;
      if (way->empty() || tightest(*way).most_missed() <= 0) return std::nullopt;
      ways.push_back(std::move(*way));
    }
    if (ways.empty()) return std::nullopt;  // exact through and through
    Rational bound = tightest(ways.front()).most_missed();
    Rational spare = 0;
    for (const Way& way : ways) {
      bound = std::min(bound, tightest(way).most_missed());
      spare = std::max(spare, tightest(way).spare);
    }
    // A way that misses by as much whatever the hand does has no say.
    std::erase_if(ways, [&](const Way& way) {
      return std::any_of(way.begin(), way.end(),
                         [&](const Strain& strain) { return strain.least_missed() >= bound; });
    });
    const Rational missed_by = ways.size() > 1 ? most_missed(ways) : bound;
    if (missed_by <= 0) return std::nullopt;
    Slip slip;
    slip.says = rule.says;
    slip.spot = spot_to_show(card_, rules_, rule);
    slip.spare = spare;
    slip.worst = slip.spare + missed_by;
    for (const Way& way : ways) name_errors(tightest(way).errors, slip.errors);
    return slip;
  }

  void name_errors(const Sum& errors, std::vector<std::string>& names) const {
    for (const Term& term : errors.terms()) {
      const std::string& name = errors_.name(term.variable);
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  }

  // The most by which all ways can be missed with the same errors.
  Rational most_missed(const std::vector<Way>& ways) {
    System system(rules_.mark, errors_.count());
    std::vector<bool> bounded(errors_.count(), false);
    const Sum missed = Sum::of(system.fresh());
    for (const Way& way : ways) {
      OpenChoice broken;
      for (std::size_t i = 0; i < way.size(); ++i) {
        broken.options.push_back({{at_most(missed, way[i].errors - way[i].spare)}, i});
        for (const Term& term : way[i].errors.terms()) {
          if (bounded[term.variable]) continue;
          bounded[term.variable] = true;
          system.add(at_most(Sum::of(term.variable), error_));
          system.add(at_least(Sum::of(term.variable), -error_));
        }
      }
      if (broken.options.size() == 1) {
        system.add(broken.options.front().relations.front());
      } else {
        system.add(std::move(broken));
      }
    }
    if (!system.settle()) throw std::logic_error("errors of the hand that cannot be");
    for (Block& block : system.split({missed})) {
      if (block.aims.empty()) continue;
      prover_.describe(system);
      Session session(system, prover_, block);
      if (!session.possible()) break;
      return session.greatest(missed);
    }
    throw std::logic_error("a rule that no error of the hand reaches");
  }

  const Card& card_;
  const Rules& rules_;
  const std::vector<Rational>& values_;
  const HandErrors& errors_;
  const Rational& error_;
  Prover& prover_;
};

}  // namespace

std::vector<Slip> slips_of(const Card& card, const Rules& rules, const std::vector<Rational>& values,
                           const HandErrors& errors, const Rational& error, Prover& prover) {
  return Slips(card, rules, values, errors, error, prover).find();
}

}  // namespace evenmat
