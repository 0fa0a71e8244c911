#include "solver/why/evenness.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "solver/exact/equations.h"
#include "solver/why/inside.h"
#include "solver/why/spots.h"

namespace evenmat {
namespace {

std::string called(const Rectangle& rectangle, bool across) {
  const char* what = rectangle.kind == Rectangle::Kind::artwork  ? "the margin of"
                     : rectangle.kind == Rectangle::Kind::window ? "the frame round"
                                                                 : "the border of";
  return fmt::format("{} {}, {}", what, rectangle.name, across ? "left and right" : "top and bottom");
}

// The wish that says where the thing lies along the axis: one that speaks of it and of what it is on alone,
// if there is one.
const Rule* wish_for(const Rules& rules, std::size_t rectangle, bool across) {
  const Variable place = variable(rectangle, across ? Measure::left : Measure::top);
  const std::size_t under = *rules.rectangles[rectangle].on;
  const Rule* found = nullptr;
  for (const Rule& rule : rules.rules) {
    if (rule.origin != Origin::stated || rule.choices.size() != 1) continue;
    for (const Relation& relation : rule.choices.front()) {
      const auto& terms = relation.sum.terms();
      const auto is_place = [&](const Term& term) { return term.variable == place; };
      if (!relation.equal || std::none_of(terms.begin(), terms.end(), is_place)) continue;
      const bool alone = std::all_of(terms.begin(), terms.end(), [&](const Term& term) {
        return term.variable / 4 == rectangle || term.variable / 4 == under;
      });
      if (alone) return &rule;
      if (found == nullptr) found = &rule;
    }
  }
  return found;
}

}  // namespace

std::vector<Unevenness> evenness_of(const Card& card, const Rules& rules, const std::vector<Rational>& values,
                                    const HandErrors& errors, const Rational& error) {
  Equations exact;
  for (const Rule& rule : rules.rules) {
    if (rule.choices.size() != 1) continue;
    for (const Relation& relation : rule.choices.front()) {
      if (relation.equal) exact.add(relation.sum, [](Variable) { return 0; });
    }
  }
  std::vector<Unevenness> found;
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    if (!rules.rectangles[i].on || stands_in_grid(rules, i)) continue;
    for (const bool across : {true, false}) {
      const Sum low = side_of(rules, i, across ? Edge::left : Edge::top);
      const Sum high = side_of(rules, i, across ? Edge::right : Edge::bottom);
      const Sum difference = exact.reduce(low - high);
      if (!difference.is_constant() || difference.constant() != 0) continue;
      Unevenness border;
      border.wished = low.at(values);
      const Rule* wish = wish_for(rules, i, across);
      if (wish == nullptr || border.wished <= 0) continue;
      const Rational off = std::max(reach_of(errors.in(low)), reach_of(errors.in(high))) * error;
      border.says = called(rules.rectangles[i], across);
      border.spot = spot_to_show(card, rules, *wish);
      border.narrowest = border.wished - off;
      border.widest = border.wished + off;
      border.looks_even = 2 * border.narrowest >= border.widest;
      border.safe = round_up(3 * off, rules.mark);
      // The same in a variant is told once.
      const bool told = std::any_of(found.begin(), found.end(), [&](const Unevenness& other) {
        return other.says == border.says && other.spot == border.spot && other.wished == border.wished;
      });
      if (!told) found.push_back(std::move(border));
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Unevenness& a, const Unevenness& b) { return a.spot < b.spot; });
  return found;
}

}  // namespace evenmat
