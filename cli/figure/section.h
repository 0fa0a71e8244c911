// The closed card from the side: a section through where it is thickest, with heights drawn larger than they
// are.
#pragma once

#include <string>
#include <vector>

#include "cli/drawing/flow.h"
#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// A paper, or the foam under one, where the section meets it. Across in the card's unit from the left of the
// closed card; up likewise, 0 at the table.
struct SectionBar {
  std::string name;  // "the foam under lantern" of foam
  bool leaf = false, foam = false;
  Role role = Role::none;
  bool stamped = false;
  double left = 0, right = 0, low = 0, high = 0;
  std::string thickness;  // as told; "not stated"
};

struct Section {
  Rational at;                   // from the top of the closed card
  std::vector<SectionBar> bars;  // from the table up
};

// Through where the card is thickest, of such places where most of its papers are met. A paper whose
// thickness is not stated is as thick as the thinnest that is, or 0.01 in. No bars of a card that is not
// known closed.
Section section_of(const Card& card, const Design& design, const SizedVersion& version);

struct SectionFigure {
  std::vector<Mark> marks;
  Box room;
};
// In the top left of the room.
SectionFigure section_figure(const Section& section, Unit unit, const Box& room);

// On the page in hand or a new one, as tall as its names want; nothing where there are no bars.
void add_section(Flow& flow, const Section& section, Unit unit, double below);

}  // namespace evenmat
