#include "cli/cut/pieces.h"

#include <fmt/format.h>

#include <vector>

#include "cli/table.h"

namespace evenmat {
namespace {

// As the layer stands, whichever way its kind was counted.
Size cut_size(const CutPiece& piece, const PieceUse& use) {
  return use.turned ? turned(piece.size) : piece.size;
}

std::string rough_note(const PieceUse& use) {
  switch (use.rough) {
    case Rough::die:
      return "rough, for the die";
    case Rough::by_hand:
      return "rough, cut out by hand";
    case Rough::stamp_first:
      return "rough, to be stamped first";
    case Rough::none:
      break;
  }
  return {};
}

std::string way_to_lie(const CutPiece& piece) {
  if (piece.upright && piece.turned) return {};
  return piece.upright ? "may not turn" : "lies turned";
}

std::string second_pass(const PieceUse& use, Unit unit) {
  const std::string size = size_words(use.finished, unit);
  switch (use.rough) {
    case Rough::die:
      return fmt::format("the die cuts it to {}", size);
    case Rough::by_hand:
      return fmt::format("cut out by hand to {}", size);
    case Rough::stamp_first:
      return fmt::format("stamp or print it, let it dry, then trim to {}, the work in its middle", size);
    case Rough::none:
      break;
  }
  return {};
}

}  // namespace

std::string piles_text(const CutTelling& telling, const PaperPlan& paper) {
  const Unit unit = telling.unit();
  std::vector<Row> rows = {
      {.name = "To cut", .cells = {"width", "  height", "number"}, .note = "", .heading = true, .indent = 2}};
  for (const CutPiece& piece : paper.pieces) {
    for (const PieceUse& use : piece.uses) {
      const Size size = cut_size(piece, use);
      const std::string rough = rough_note(use), way = way_to_lie(piece);
      rows.push_back({.name = pile_name(telling, use),
                      .cells = {length_text(size.width, unit), "x " + length_text(size.height, unit),
                                fmt::format("{}", use.count)},
                      .note = rough + (rough.empty() || way.empty() ? "" : ", ") + way,
                      .indent = 4});
    }
  }
  return table(rows, telling.style);
}

std::string second_pass_text(const CutTelling& telling) {
  const Unit unit = telling.unit();
  std::vector<Row> rows = {{.name = "Second pass, once the rough pieces are cut", .heading = true}};
  for (const PaperPlan& paper : telling.batch.papers) {
    for (const CutPiece& piece : paper.pieces) {
      for (const PieceUse& use : piece.uses) {
        if (use.rough == Rough::none) continue;
        rows.push_back({.name = pile_name(telling, use),
                        .cells = {size_words(cut_size(piece, use), unit)},
                        .note = second_pass(use, unit),
                        .indent = 2});
      }
    }
  }
  return rows.size() > 1 ? "\n" + table(rows, telling.style) : "";
}

}  // namespace evenmat
