#include "model/grain.h"

#include "model/folding.h"

namespace evenmat {
namespace {

Integer pieces_along(const Rational& sheet, const Rational& piece) { return floor(Rational(sheet / piece)); }

Integer blanks(const Size& sheet, const Rational& width, const Rational& height) {
  return pieces_along(sheet.width, width) * pieces_along(sheet.height, height);
}

}  // namespace

std::optional<GrainAtFold> grain_at_fold(const Card& card, const Base& base) {
  if (base.fold.value == Fold::flat || !base.paper) return std::nullopt;
  const Folding folding = folding_of(base);
  const Size& blank = folding.blank;
  for (const Paper& paper : card.papers) {
    if (paper.name.value != base.paper->value || !paper.sheet || !paper.grain) continue;
    const Size& sheet = paper.sheet->size;
    const Integer upright = blanks(sheet, blank.width, blank.height);
    const Integer turned = blanks(sheet, blank.height, blank.width);
    if (upright == turned) {
      if (upright == 0) continue;
      return GrainAtFold::either;
    }
    // The grain on the blank as it is scored: that of the sheet, turned with it.
    const bool long_side_across = sheet.width > sheet.height;
    const bool across_sheet = long_side_across == (paper.grain->value == "long");
    const bool across_blank = across_sheet == (upright > turned);
    // Scores of leaves side by side run from top to bottom.
    return across_blank == folding.across ? GrainAtFold::across : GrainAtFold::along;
  }
  return std::nullopt;
}

}  // namespace evenmat
