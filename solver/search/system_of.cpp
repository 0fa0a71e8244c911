#include "solver/search/system_of.h"

#include <algorithm>
#include <map>

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

}  // namespace evenmat
