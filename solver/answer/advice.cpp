#include "solver/answer/advice.h"

#include <fmt/format.h>

#include <algorithm>

namespace evenmat {
namespace {

std::string length(const Card& card, const Rational& value) { return length_with_unit(value, card.unit); }

void front_off_marks(const Card& card, const Design& design, const SizedVersion& sized,
                     std::vector<Remark>& found) {
  const auto tell = [&](const Rational& measure, const char* what) {
    if (is_multiple(measure, card.mark)) return;
    found.push_back(
        {design.base.front.spot,
         fmt::format("The front is {} {}, between the {} marks of your trimmer: measure it by hand.",
                     length(card, measure), what, length(card, card.mark))});
  };
  tell(sized.front.width, "wide");
  tell(sized.front.height, "tall");
}

// A strip inside and a layer on the front whose edges nearly line up look like a slip of the hand.
void nearly_level(const Card& card, const SizedVersion& sized, std::vector<Remark>& found) {
  if (!sized.cut_back) return;
  const auto tell = [&](const PlacedPiece& strip, const PlacedPiece& front, const Rational& a,
                        const Rational& b, const char* edge) {
    const Rational apart = abs(a - b);
    if (apart == 0 || apart > 2 * card.mark) return;
    found.push_back(
        {strip.piece->name.spot,
         fmt::format("The {} of {}, seen beside the front, is {} off the {} of {}. Level them, or set "
                     "them clearly apart.",
                     edge, strip.piece->name.value, length(card, apart), edge, front.piece->name.value)});
  };
  for (const PlacedPiece& strip : sized.pieces) {
    if (strip.piece->on.value != "reveal") continue;
    for (const PlacedPiece& front : sized.pieces) {
      if (front.piece->on.value != "front" || front.piece->kind != Piece::Kind::layer) continue;
      tell(strip, front, strip.top, front.top, "top");
      tell(strip, front, strip.top + strip.box_height, front.top + front.box_height, "bottom");
    }
  }
}

void left_to_fill(const PlacedPiece& placed, std::vector<Remark>& found) {
  const Piece& piece = *placed.piece;
  if (piece.role != Role::strip && piece.role != Role::image) return;
  if (piece.size || piece.width || piece.height || piece.ratio || piece.artwork || piece.border.any() ||
      piece.copies) {
    return;
  }
  if (placed.width_stated && placed.height_stated) return;
  found.push_back(
      {piece.name.spot,
       fmt::format("Nothing says how big {} is, so it fills what is free on {}. State a width or a "
                   "height if it should be smaller.",
                   piece.name.value, piece.on.value)});
}

void over_a_window(const SizedVersion& sized, std::vector<Remark>& found) {
  for (const PlacedPiece& layer : sized.pieces) {
    if (layer.piece->kind != Piece::Kind::layer) continue;
    for (const PlacedPiece& window : sized.pieces) {
      if (window.piece->kind != Piece::Kind::window || window.piece->on.value != layer.piece->on.value)
        continue;
      const bool apart =
          layer.left + layer.box_width <= window.left || window.left + window.width <= layer.left ||
          layer.top + layer.box_height <= window.top || window.top + window.height <= layer.top;
      if (apart) continue;
      found.push_back({layer.piece->name.spot,
                       fmt::format("{} lies over the window {}. Cut a window in it too, or move one of them.",
                                   layer.piece->name.value, window.piece->name.value)});
    }
  }
}

}  // namespace

std::vector<Remark> advice(const Card& card, const Design& design, const SizedVersion& sized) {
  std::vector<Remark> found;
  front_off_marks(card, design, sized, found);
  nearly_level(card, sized, found);
  for (const PlacedPiece& placed : sized.pieces) left_to_fill(placed, found);
  over_a_window(sized, found);
  std::stable_sort(found.begin(), found.end(),
                   [](const Remark& a, const Remark& b) { return a.spot < b.spot; });
  return found;
}

}  // namespace evenmat
