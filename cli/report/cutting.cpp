#include "cli/report/cutting.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

std::string turn_words(const Rational& degrees) {
  const Rational size = degrees < 0 ? Rational(-degrees) : degrees;
  return fmt::format("tilted {} {} {}", length_text(size, Unit::millimetre), size == 1 ? "degree" : "degrees",
                     degrees < 0 ? "anticlockwise" : "clockwise");
}

Row size_row(std::string name, std::string width, const std::string& height, std::string note) {
  return {.name = std::move(name),
          .cells = {std::move(width), "x " + height},
          .note = std::move(note),
          .indent = 2};
}

Row base_row(const Telling& telling) {
  const Folding& folding = telling.version.folding;
  const Base& base = telling.design.base;
  std::vector<std::string> parts;
  if (base.paper) parts.push_back(base.paper->value);
  std::vector<std::string> scores;
  for (const ScoreLine& score : folding.scores) scores.push_back(telling.ruler.number(score.at));
  if (!scores.empty()) {
    parts.push_back(
        fmt::format("score {} from its {}", joined(scores, ", "), folding.across ? "left" : "top"));
  }
  return size_row("base", telling.ruler.number(folding.blank.width),
                  telling.ruler.number(folding.blank.height), joined(parts, ", "));
}

// The front as it is once it is cut back; of a gate each door.
std::vector<Row> cut_back_rows(const Telling& telling) {
  const SizedVersion& version = telling.version;
  const Base& base = telling.design.base;
  Ruler& ruler = telling.ruler;
  const bool stated = version.cut_back_stated;
  const auto row = [&](const std::string& name, const Size& size, bool across, const std::string& off) {
    return size_row(name + ", cut back", ruler.number(size.width, stated || !across),
                    ruler.number(size.height, stated || across),
                    fmt::format("once folded, {} off {}", ruler.number(*version.cut_back, stated), off));
  };
  if (base.fold.value != Fold::gate) {
    const Edge edge = base.cut_back->edge;
    return {row("front", version.front, is_across(edge), fmt::format("its {} edge", edge_name(edge)))};
  }
  std::vector<Row> rows;
  for (const Leaf& leaf : version.folding.leaves) {
    if (leaf.depth > 0) continue;
    Size door = base.front.size;
    (version.folding.across ? door.width : door.height) = leaf.length - *version.cut_back;
    rows.push_back(row(leaf.name, door, version.folding.across, "where the doors meet"));
  }
  return rows;
}

Row piece_row(const Telling& telling, const PlacedPiece& placed) {
  return size_row(placed.piece->name.value, telling.ruler.number(placed.width, placed.width_stated),
                  telling.ruler.number(placed.height, placed.height_stated),
                  cutting_note(placed, telling.design.base));
}

}  // namespace

std::string cutting_note(const PlacedPiece& placed, const Base& base) {
  const Piece& piece = *placed.piece;
  std::vector<std::string> parts;
  if (piece.kind == Piece::Kind::window) parts.push_back("window in " + name_of_below(piece, base));
  if (piece.stamped) parts.emplace_back("stamped on, not cut");
  if (!placed.copies.empty()) parts.push_back(fmt::format("{} alike", placed.copies.size()));
  if (piece.paper) parts.push_back(piece.paper->value);
  if (piece.cut == Cut::by_hand) parts.emplace_back("by hand");
  if (piece.cut == Cut::die) parts.emplace_back("die");
  if (piece.cut == Cut::ready_made) parts.emplace_back("ready-made");
  if (piece.tilt && piece.tilt->value != 0) parts.push_back(turn_words(piece.tilt->value));
  if (piece.raised) parts.push_back("raised " + piece.raised->text);
  return joined(parts, ", ");
}

std::string cutting_text(const Telling& telling, const Pieces& pieces, bool with_base) {
  std::vector<Row> rows = {{.name = "To cut", .cells = {"width", "  height"}, .note = "", .heading = true}};
  if (with_base && !telling.version.folding.leaves.empty()) {
    rows.push_back(base_row(telling));
    if (telling.version.cut_back && telling.design.base.cut_back) {
      for (Row& row : cut_back_rows(telling)) rows.push_back(std::move(row));
    }
  }
  for (const PlacedPiece* placed : pieces) rows.push_back(piece_row(telling, *placed));
  return rows.size() > 1 ? "\n" + table(rows, telling.style) : "";
}

}  // namespace evenmat
