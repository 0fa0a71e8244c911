// The whole list of a card's rules: the plain card first, then each variant with rectangles of its own.
// Versions share nothing but the preference for like sizes.
#include <map>
#include <string>
#include <vector>

#include "solver/rules/writer.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

void write_version(Rules& rules, const Card& card, const Design& design, std::size_t version, PileSet piles) {
  writing::Writer writer(rules, card, design, version);
  writing::write_faces(writer);
  writing::add_pieces(writer);
  for (const Piece& piece : design.pieces) {
    writing::write_sizes(writer, writer.thing(piece.name.value));
    writing::write_place(writer, writer.thing(piece.name.value));
  }
  writing::write_neighbours(writer);
  writing::write_shown(writer);
  writing::write_thickness(writer, piles);
  writing::write_statements(writer);
  writing::write_aims(writer);
}

// One setting of the trimmer serves every version whose layer has the same size.
void aim_alike(Rules& rules) {
  std::map<std::string, std::vector<std::size_t>> versions_of;
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    if (rules.rectangles[i].kind == Rectangle::Kind::layer)
      versions_of[rules.rectangles[i].name].push_back(i);
  }
  for (const auto& [name, same] : versions_of) {
    for (std::size_t i = 0; i < same.size(); ++i) {
      for (std::size_t j = i + 1; j < same.size(); ++j) {
        for (const Measure measure : {Measure::width, Measure::height}) {
          rules.aims.push_back({Step::alike,
                                Sum::of(variable(same[i], measure)) - Sum::of(variable(same[j], measure)),
                                {},
                                {}});
        }
      }
    }
  }
}

}  // namespace

Rules rules_of(const Card& card, PileSet piles) {
  Rules rules;
  rules.mark = card.mark;
  write_version(rules, card, card.design, 0, piles);
  for (std::size_t i = 0; i < card.variants.size(); ++i) {
    write_version(rules, card, card.variants[i].design, i + 1, piles);
  }
  aim_alike(rules);
  return rules;
}

}  // namespace evenmat
