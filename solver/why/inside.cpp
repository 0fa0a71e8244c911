#include "solver/why/inside.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include "model/faces.h"

namespace evenmat {
namespace {

const Design& design_of(const Card& card, std::size_t version) {
  return version == 0 ? card.design : card.variants[version - 1].design;
}

const Piece& piece_of(const Card& card, const Rectangle& rectangle) {
  const Design& design = design_of(card, rectangle.version);
  return *std::find_if(design.pieces.begin(), design.pieces.end(),
                       [&](const Piece& piece) { return piece.name.value == rectangle.name; });
}

// Where a layer may lie past the edge, by the maker's own word.
bool may_reach_past(const Card& card, const Piece& piece, std::size_t version, Edge edge) {
  if (piece.overhang) return true;
  if (!piece.tuck) return false;
  // Of the reveal only the front's edge can be reached past.
  if (piece.on.value != "reveal") return true;
  const std::vector<Edge> edges = edges_at_front(design_of(card, version).base);
  return std::find(edges.begin(), edges.end(), edge) != edges.end();
}

}  // namespace

Sum side_of(const Rules& rules, std::size_t rectangle, Edge edge) {
  const Rectangle& it = rules.rectangles[rectangle];
  const auto of = [](std::size_t i, Measure measure) { return Sum::of(variable(i, measure)); };
  const bool across = is_across(edge);
  const Measure place = across ? Measure::left : Measure::top;
  const Measure size = across ? Measure::width : Measure::height;
  const Measure other = across ? Measure::height : Measure::width;
  Sum low = of(rectangle, place) - of(*it.on, place);
  if (edge == Edge::left || edge == Edge::top) return low;
  return of(*it.on, size) - low - of(rectangle, size) * it.box_cos - of(rectangle, other) * it.box_sin;
}

bool stands_in_grid(const Rules& rules, std::size_t rectangle) {
  const Rectangle& it = rules.rectangles[rectangle];
  return it.kind == Rectangle::Kind::layer &&
         std::any_of(rules.rectangles.begin(), rules.rectangles.end(), [&](const Rectangle& other) {
           return other.kind == Rectangle::Kind::copies && other.version == it.version &&
                  other.name == it.name;
         });
}

namespace {

// However wide the tuck is to be, no bare page may show beside the layer.
Rule reaches_past(const Rules& rules, std::size_t rectangle, const Piece& piece, Edge edge) {
  Rule rule;
  rule.choices = {{at_most(side_of(rules, rectangle, edge), 0)}};
  rule.says = fmt::format("{} reaches past {} at the {}", piece.name.value, piece.on.value, edge_name(edge));
  rule.spot = piece.tuck->spot;
  rule.version = rules.rectangles[rectangle].version;
  return rule;
}

}  // namespace

Rules with_all_inside(Rules rules, const Card& card) {
  std::map<std::pair<std::size_t, std::string>, std::vector<Sum>> written;  // by version and sentence
  for (const Rule& rule : rules.rules) {
    if (rule.origin != Origin::given || rule.choices.size() != 1) continue;
    for (const Relation& relation : rule.choices.front()) {
      if (!relation.equal) written[{rule.version, rule.says}].push_back(relation.sum);
    }
  }
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& it = rules.rectangles[i];
    if (!it.on || it.kind == Rectangle::Kind::thickness || stands_in_grid(rules, i)) continue;
    const bool artwork = it.kind == Rectangle::Kind::artwork;
    const Piece& piece = piece_of(card, it);
    Rule rule;
    rule.says = artwork ? fmt::format("the artwork of {} is never cut into", it.name)
                        : fmt::format("{} lies inside {}", it.name, piece.on.value);
    rule.spot = artwork ? piece.artwork->spot : Spot{};
    rule.version = it.version;
    const std::vector<Sum>& known = written[{it.version, rule.says}];
    for (const Edge edge : all_edges) {
      if (!artwork && may_reach_past(card, piece, it.version, edge)) {
        if (piece.tuck) rules.rules.push_back(reaches_past(rules, i, piece, edge));
        continue;
      }
      const Relation inside = at_least(side_of(rules, i, edge), 0);
      const bool is_known = std::any_of(known.begin(), known.end(), [&](const Sum& sum) {
        const Sum difference = sum - inside.sum;
        return difference.is_constant() && difference.constant() == 0;
      });
      if (is_known) continue;
      rule.choices = {{inside}};
      rules.rules.push_back(rule);
    }
  }
  return rules;
}

}  // namespace evenmat
