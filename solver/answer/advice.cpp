#include "solver/answer/advice.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "model/faces.h"
#include "model/words.h"

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

void blank_off_marks(const Card& card, const Design& design, const SizedVersion& sized,
                     std::vector<Remark>& found) {
  const Folding& folding = sized.folding;
  if (folding.scores.empty()) return;
  std::vector<std::string> off;
  const Rational& along = folding.across ? folding.blank.width : folding.blank.height;
  if (!is_multiple(along, card.mark)) {
    off.push_back(
        fmt::format("the blank's {} of {}", folding.across ? "width" : "height", length(card, along)));
  }
  for (const ScoreLine& score : folding.scores) {
    if (!is_multiple(score.at, card.mark)) off.push_back("the score at " + length(card, score.at));
  }
  if (off.empty()) return;
  found.push_back(
      {design.base.fold.spot,
       fmt::format("Between the {} marks of your trimmer: {}. Measure by hand, or state leaves that fall on "
                   "the marks.",
                   length(card, card.mark), fmt::join(off, ", "))});
}

bool takes(const Size& sheet, const Size& blank) {
  return (sheet.width >= blank.width && sheet.height >= blank.height) ||
         (sheet.width >= blank.height && sheet.height >= blank.width);
}

// A base that no sheet of its paper takes; a paper of which no sheet is stated is not judged. Another file
// may bring a sheet that does.
void larger_than_every_sheet(const Card& card, const Design& design, const SizedVersion& sized,
                             std::vector<Remark>& found) {
  if (!design.base.paper) return;
  const Size& blank = sized.folding.blank;
  std::optional<Size> largest;
  for (const Paper& paper : card.papers) {
    if (paper.name.value != design.base.paper->value || !paper.sheet) continue;
    const Size& sheet = paper.sheet->size;
    if (takes(sheet, blank)) return;
    if (!largest || sheet.width * sheet.height > largest->width * largest->height) largest = sheet;
  }
  if (!largest) return;
  const auto size = [&](const Size& one) {
    return fmt::format("{} x {}", length_text(one.width, card.unit), length(card, one.height));
  };
  found.push_back(
      {design.base.paper->spot,
       fmt::format("The base is cut from one piece of {}, and the largest sheet of {} is {}. State a "
                   "larger sheet, or a front that takes less paper.",
                   size(blank), in_quotes(design.base.paper->value), size(*largest))});
}

// Where an extra score runs in a face, along, in the face's own frame.
std::optional<Rational> score_in(const Folding& folding, const Face& face, const ScoreLine& score) {
  for (const Leaf& leaf : folding.leaves) {
    if (leaf.toward != face.name && leaf.away != face.name) continue;
    const Rational from_start = score.at - leaf.from;
    if (from_start <= 0 || from_start >= leaf.length) return std::nullopt;
    const Rational closed = leaf.toward_up ? from_start : Rational(leaf.length - from_start);
    const bool mirrored = face.turned == (folding.across ? Turned::across : Turned::down);
    const Rational in_face = mirrored ? Rational(leaf.length - closed) : closed;
    return in_face + (folding.across ? face.left : face.top);
  }
  return std::nullopt;
}

const PlacedPiece* find_piece(const SizedVersion& sized, const std::string& name) {
  const auto found = std::find_if(sized.pieces.begin(), sized.pieces.end(), [&](const PlacedPiece& placed) {
    return placed.piece->name.value == name;
  });
  return found == sized.pieces.end() ? nullptr : &*found;
}

// Whether a layer is glued to a leaf and to no other layer. Behind a window it is on what the window's layer
// is on.
bool is_glued_to_leaf(const SizedVersion& sized, const Piece& layer) {
  const PlacedPiece* under = find_piece(sized, layer.on.value);
  if (under == nullptr) return true;
  if (under->piece->kind == Piece::Kind::layer) return false;
  const PlacedPiece* holder = find_piece(sized, under->piece->on.value);
  return holder == nullptr || is_glued_to_leaf(sized, *holder->piece);
}

// A layer glued over a score would keep it from folding: an easel's front is glued on one side of its score.
// What lies on another layer stays within that; the whole front of a gate has the scores of both doors.
void across_a_score(const Design& design, const SizedVersion& sized, std::vector<Remark>& found) {
  const bool gate = design.base.fold.value == Fold::gate;
  for (const ScoreLine& score : sized.folding.scores) {
    if (!score.extra) continue;
    for (const Face& face : faces(design.base)) {
      const auto at = score_in(sized.folding, face, score);
      if (!at) continue;
      for (const PlacedPiece& placed : sized.pieces) {
        const bool whole_front =
            gate && placed.face == "front" && face.depth == 0 && face.turned == Turned::no;
        const bool on_face = placed.piece->kind == Piece::Kind::layer && !placed.piece->stamped &&
                             (placed.face == face.name || whole_front) &&
                             is_glued_to_leaf(sized, *placed.piece);
        const Rational& low = sized.folding.across ? placed.left : placed.top;
        const Rational high = low + (sized.folding.across ? placed.box_width : placed.box_height);
        if (!on_face || *at <= low || *at >= high) continue;
        found.push_back(
            {placed.piece->name.spot,
             fmt::format("{} lies across a score of the {}. Glue it down on one side of the score only, "
                         "so that the base can fold there.",
                         placed.piece->name.value, face.name)});
      }
    }
  }
}

// Glued to both doors it would keep the card shut.
void over_both_doors(const Design& design, const SizedVersion& sized, std::vector<Remark>& found) {
  if (design.base.fold.value != Fold::gate) return;
  const Folding& folding = sized.folding;
  const Rational& first_end = folding.leaves.front().length;
  const Rational& second_start = folding.leaves.back().closed_from;
  for (const PlacedPiece& placed : sized.pieces) {
    if (placed.piece->kind != Piece::Kind::layer || placed.piece->on.value != "front") continue;
    const Rational& low = folding.across ? placed.left : placed.top;
    const Rational high = low + (folding.across ? placed.box_width : placed.box_height);
    if (low >= first_end || high <= second_start) continue;
    found.push_back(
        {placed.piece->name.spot,
         fmt::format("{} lies over both doors. Glue it to one of them only, so that the card opens.",
                     placed.piece->name.value)});
  }
}

// Common practice, no source: paper narrower than that tears or bends when a window is cut.
void weak_frames(const Card& card, const SizedVersion& sized, std::vector<Remark>& found) {
  const Rational least = card.unit == Unit::inch ? Rational(1, 4) : Rational(6);
  for (const PlacedPiece& placed : sized.pieces) {
    if (placed.piece->kind != Piece::Kind::window || placed.piece->frame) continue;
    const Rational narrow =
        std::min({placed.from_left, placed.from_right, placed.from_top, placed.from_bottom});
    if (narrow >= least) continue;
    found.push_back(
        {placed.piece->name.spot,
         fmt::format("Only {} of paper is left beside the window {}, which tears easily. State a frame "
                     "of at least {}, or one that you trust.",
                     length(card, narrow), placed.piece->name.value, length(card, least))});
  }
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
  blank_off_marks(card, design, sized, found);
  larger_than_every_sheet(card, design, sized, found);
  across_a_score(design, sized, found);
  over_both_doors(design, sized, found);
  weak_frames(card, sized, found);
  nearly_level(card, sized, found);
  for (const PlacedPiece& placed : sized.pieces) left_to_fill(placed, found);
  over_a_window(sized, found);
  std::stable_sort(found.begin(), found.end(),
                   [](const Remark& a, const Remark& b) { return a.spot < b.spot; });
  return found;
}

}  // namespace evenmat
