#include "cli/report/placing.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "cli/quantities.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// "on the front", "behind porthole".
std::string where(const Piece& piece, const Design& design) {
  const std::string below = name_of_below(piece, design.base);
  if (piece.kind == Piece::Kind::window) return "cut in " + below;
  const bool in_window = std::any_of(design.pieces.begin(), design.pieces.end(), [&](const Piece& other) {
    return other.kind == Piece::Kind::window && other.name.value == piece.on.value;
  });
  return (!in_window ? "on " : piece.tuck ? "behind " : "in the opening of ") + below;
}

std::string numbers(const std::set<Rational>& lengths, bool stated, Ruler& ruler) {
  std::vector<std::string> texts;
  texts.reserve(lengths.size());
  for (const Rational& length : lengths) texts.push_back(ruler.number(length, stated));
  return joined(texts, ", ");
}

// Copies, a tilted box, the artwork and what is hidden, on lines of their own below the piece.
std::vector<std::string> details(const Telling& telling, const PlacedPiece& placed) {
  Ruler& ruler = telling.ruler;
  const Piece& piece = *placed.piece;
  std::vector<std::string> lines;
  if (!placed.copies.empty()) {
    std::set<Rational> lefts;
    std::set<Rational> tops;
    for (const auto& [left, top] : placed.copies) {
      lefts.insert(left);
      tops.insert(top);
    }
    lines.push_back(fmt::format("{} alike: {} from the left, {} from the top", placed.copies.size(),
                                numbers(lefts, placed.left_stated, ruler),
                                numbers(tops, placed.top_stated, ruler)));
  }
  if (piece.tilt && piece.tilt->value != 0) {
    lines.push_back(fmt::format("to its outermost corners, {} x {} as it lies",
                                ruler.number(placed.box_width), ruler.number(placed.box_height)));
  }
  if (placed.artwork_at && piece.artwork) {
    lines.push_back(fmt::format("artwork {}: {} from its left, {} from its top",
                                ruler.size(piece.artwork->size), ruler.number(placed.artwork_at->first),
                                ruler.number(placed.artwork_at->second)));
  }
  if (piece.kind == Piece::Kind::layer && telling.version.closed) {
    const std::string seen = seen_words(placed.shown);
    if (!seen.empty()) lines.push_back(seen);
  }
  return lines;
}

}  // namespace

std::string seen_words(const Shown& shown) {
  const bool closed_differs = shown.closed > 0 && share_text(shown.closed) != share_text(shown.open);
  const std::string closed = share_text(shown.closed) + (shown.open < 1 ? "" : " seen") + " when closed";
  if (shown.open == 1) return closed_differs ? closed : "";
  return share_text(shown.open) + " seen" + (closed_differs ? ", " + closed : "");
}

std::string placing_text(const Telling& telling, const Pieces& pieces) {
  if (pieces.empty()) return {};
  std::vector<Row> rows = {{.name = "To place, from the edges of what it lies on", .heading = true},
                           {.name = "", .cells = {"left", "right", "top", "bottom"}}};
  Ruler& ruler = telling.ruler;
  std::string group;
  for (const PlacedPiece* placed : pieces) {
    const Piece& piece = *placed->piece;
    const std::string heading = where(piece, telling.design);
    if (heading != group) rows.push_back({.name = heading, .indent = 2});
    group = heading;
    rows.push_back({.name = piece.name.value,
                    .cells = {ruler.number(placed->from_left, placed->left_stated),
                              ruler.number(placed->from_right, placed->right_stated),
                              ruler.number(placed->from_top, placed->top_stated),
                              ruler.number(placed->from_bottom, placed->bottom_stated)},
                    .indent = 4});
    for (std::string& line : details(telling, *placed))
      rows.push_back({.name = std::move(line), .indent = 6});
  }
  return "\n" + table(rows, telling.style);
}

}  // namespace evenmat
