// Explored cards made by hand, for tests of what is told of them: a mat with an open border and a panel on
// it, two papers. Lengths are in sixteenths.
#pragma once

#include <string>
#include <vector>

#include "cli/excerpt.h"
#include "model/card.h"
#include "solver/explore_card.h"
#include "solver/fit_card.h"
#include "tests/cli/cut_reports.h"

namespace evenmat::testing {

inline Rational sixteenths(int count) { return Rational(count) / 16; }

inline PaperCost paper_cost(const std::string& name, int sheets, std::optional<int> cards_a_sheet = {}) {
  PaperCost cost;
  cost.paper = name;
  cost.sheets = cost.at_least = sheets;
  cost.proven = true;
  cost.cards_a_sheet = cards_a_sheet;
  return cost;
}

struct MadeCard {
  Card card;
  std::string text = "[base]\nfront = \"us A2\"\n[[layer]]\nname = \"plum mat\"\nborder = \"1/16 to 1/4\"\n";

  MadeCard() {
    card.mark = sixteenths(1);
    card.cards = 12;
    card.design.base.front.size = {Rational(17) / 4, Rational(11) / 2};
    for (const char* name : {"plum mat", "fern panel"}) {
      Piece& piece = card.design.pieces.emplace_back();
      piece.name.value = name;
      piece.on.value = "front";
    }
    card.design.pieces.back().role = Role::panel;
  }
  [[nodiscard]] Source source() const { return {"card.toml", text}; }

  // With the border at so many sixteenths.
  [[nodiscard]] Alternative at(int border, int plum_sheets, int cards_a_sheet) const {
    Alternative one;
    one.amounts = {sixteenths(border)};
    SizedVersion& version = one.sized.versions.emplace_back();
    const Size& front = card.design.base.front.size;
    for (std::size_t i = 0; i < 2; ++i) {
      PlacedPiece& placed = version.pieces.emplace_back();
      placed.piece = &card.design.pieces[i];
      placed.face = "front";
      placed.from_left = placed.from_top = placed.left = placed.top =
          sixteenths(border) + sixteenths(static_cast<int>(i));
      placed.width = front.width - 2 * placed.left;
      placed.height = front.height - 2 * placed.top;
      placed.shown.open = 1;
    }
    version.front = front;
    version.closed.emplace().front = front;
    one.costs.papers = {paper_cost("plum", plum_sheets, cards_a_sheet), paper_cost("fern", 2, 6)};
    one.costs.sheets = plum_sheets + 2;
    one.costs.waste = Rational(1) / (plum_sheets + 1);
    one.costs.border = sixteenths(1);
    one.costs.seen = 1;
    return one;
  }

  static OpenAmount border() {
    OpenAmount open;
    open.name = "plum mat";
    open.key = "border";
    open.spot = {5, 10};
    open.as_sized = sixteenths(2);
    open.least = sixteenths(1);
    open.most = sixteenths(4);
    return open;
  }

  // Borders of 1/16 (2 sheets of plum) to 1/4 (1 sheet).
  [[nodiscard]] ExploredCard explored() const {
    ExploredCard all;
    all.open = {border()};
    for (const int border : {1, 2, 3, 4})
      all.alternatives.push_back(at(border, border < 4 ? 2 : 1, border < 3 ? 6 : 9));
    all.alternatives[1].as_sized = true;
    all.alternatives[0].unbeaten = all.alternatives[3].unbeaten = true;
    all.count = all.compared = 4;
    return all;
  }
};

// Its lines within the page, and all of them as one.
inline std::string on_one_page(const std::string& text) {
  for (const std::string& line : lines(text)) {
    INFO(line);
    CHECK(columns(line) <= 80);
  }
  return text;
}

}  // namespace evenmat::testing
