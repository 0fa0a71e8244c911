// Which templates a card has, and what is drawn on each: at true size, in points from its own top left
// corner. Where they lie on pages is settled elsewhere.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

struct TemplateLine {
  At from, to;
  Stroke stroke;
};

// What is cut out of a piece, or may be.
struct TemplateHole {
  std::string words;  // "cut out: porthole, 1 x 1 1/2"
  Box box;
};

// A side of a leaf of the base that looks up.
struct TemplateFace {
  std::string name, note;
  Box box;
  std::optional<At> up = {};  // which way the card's front stands, where that is on the leaf; as long as 1
};

struct TemplatePiece {
  std::string name;
  std::vector<std::string> notes;  // a line each: its sizes, what it is, what it is cut from
  double width = 0, height = 0;
  std::vector<TemplateLine> lines;  // windows, artwork, scores; none reaches past its edges
  std::vector<TemplateHole> holes = {};
  std::vector<TemplateFace> faces = {};
};

// Every piece of paper once, the base first. Of versions those that have a piece alike share it, whatever
// paper they cut it from.
std::vector<TemplatePiece> template_pieces(const Card& card, const SizedCard& sized,
                                           const std::vector<std::size_t>& versions);

// Turned by a quarter clockwise: its words stay as they are. A base says that it is.
TemplatePiece turned(TemplatePiece piece);

// What of a line lies in a box; its ends are one point where none of it does.
TemplateLine clipped(TemplateLine line, const Box& box);
bool is_nothing(const TemplateLine& line);

Stroke template_edge();  // so fine that its middle can be cut along

}  // namespace evenmat
