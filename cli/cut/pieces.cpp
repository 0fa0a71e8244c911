#include "cli/cut/pieces.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

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

// A layer of one card file, in whichever of its versions it is cut alike.
struct Pile {
  PieceUse use;  // of the first version
  Size size;     // as it is cut, as the layer stands
  std::string way;
  int count = 0;
  std::vector<std::string> versions;  // with how many are for each
};

std::vector<Pile> piles_of(const CutTelling& telling, const PaperPlan& paper) {
  std::vector<Pile> piles;
  for (const CutPiece& piece : paper.pieces) {
    for (const PieceUse& use : piece.uses) {
      const Size size = cut_size(piece, use);
      auto pile = std::find_if(piles.begin(), piles.end(), [&](const Pile& one) {
        return one.use.card == use.card && one.use.layer == use.layer && one.use.rough == use.rough &&
               one.use.finished == use.finished && one.size == size;
      });
      if (pile == piles.end()) pile = piles.insert(pile, {use, size, way_to_lie(piece), 0, {}});
      pile->count += use.count;
      if (telling.cards[use.card].sized->versions.size() > 1) {
        pile->versions.push_back(
            fmt::format("{} {}", version_name(telling, use.card, use.version), use.count));
      }
    }
  }
  return piles;
}

// Told by its card only where there are several.
std::string layer_name(const CutTelling& telling, const PieceUse& use) {
  return telling.one_card() ? use.layer : fmt::format("{} ({})", use.layer, card_name(telling, use.card));
}

}  // namespace

std::string piles_text(const CutTelling& telling, const PaperPlan& paper) {
  const Unit unit = telling.unit();
  std::vector<Row> rows = {
      {.name = "To cut", .cells = {"width", "  height", "number"}, .note = "", .heading = true, .indent = 2}};
  for (const Pile& pile : piles_of(telling, paper)) {
    std::vector<std::string> notes;
    for (const std::string& note : {joined(pile.versions, ", "), rough_note(pile.use), pile.way}) {
      if (!note.empty()) notes.push_back(note);
    }
    rows.push_back({.name = layer_name(telling, pile.use),
                    .cells = {length_text(pile.size.width, unit), "x " + length_text(pile.size.height, unit),
                              fmt::format("{}", pile.count)},
                    .note = joined(notes, "; "),
                    .indent = 4});
  }
  return table(rows, telling.style);
}

std::string second_pass_text(const CutTelling& telling) {
  const Unit unit = telling.unit();
  std::vector<Row> rows = {{.name = "Second pass, once the rough pieces are cut", .heading = true}};
  for (const PaperPlan& paper : telling.batch.papers) {
    for (const Pile& pile : piles_of(telling, paper)) {
      if (pile.use.rough == Rough::none) continue;
      rows.push_back({.name = layer_name(telling, pile.use),
                      .cells = {size_words(pile.size, unit)},
                      .note = second_pass(pile.use, unit),
                      .indent = 2});
    }
  }
  return rows.size() > 1 ? "\n" + table(rows, telling.style) : "";
}

}  // namespace evenmat
