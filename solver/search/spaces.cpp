// Two pieces that are stated to be beside one another have their gap, those further
// along a stated row are no neighbours. Of the others, two that lie apart in a direction whatever is chosen
// have their gap in that direction; of the rest, which may lie on any side, a piece's distance to the
// nearest counts: a variable, no more than the gap to each of them in one direction at least.
#include "solver/search/spaces.h"

#include <algorithm>
#include <map>
#include <utility>

#include "solver/search/chains.h"
#include "solver/search/one_variable.h"
#include "solver/search/session.h"

namespace evenmat {
namespace {

class Spaces {
 public:
  Spaces(const Rules& rules, System& system, Prover& prover)
      : rules_(rules), system_(system), prover_(prover) {}

  std::vector<Sum> find() {
    std::vector<Sum> found;
    for (const Aim& aim : rules_.aims) {
      if (aim.step == Step::spaces) found.push_back(system_.reduce(aim.sum));
    }
    const std::vector<Standing> standing = standings(rules_);
    const std::vector<std::vector<std::size_t>> sure = always_apart(standing);
    std::map<std::size_t, Sum> nearest;
    for (std::size_t i = 0; i < rules_.separations.size(); ++i) {
      const Separation& separation = rules_.separations[i];
      if (separation.stated) found.push_back(separation.gaps[*separation.stated]);
      if (standing[i] != Standing::open) continue;
      for (const std::size_t way : sure[i]) {
        found.push_back(separation.gaps[way]);
        // It was sure with the choice in force, which may go now.
        system_.add(at_least(separation.gaps[way], Sum(0)));
      }
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
    return found;
  }

 private:
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

  const Rules& rules_;
  System& system_;
  Prover& prover_;
};

}  // namespace

std::vector<Sum> spaces(const Rules& rules, System& system, Prover& prover) {
  return Spaces(rules, system, prover).find();
}

}  // namespace evenmat
