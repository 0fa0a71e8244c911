// Only what certainly comes off as one rectangle counts. Where windows of both sides of a leaf lie over each
// other the later one gives nothing, one over both doors of a gate a piece of each; a mat's middle is known
// to be hidden only under a layer that is sure to be a rectangle.
#include "solver/batch/offcuts.h"

#include <algorithm>
#include <optional>

#include "model/faces.h"
#include "solver/batch/things.h"

namespace evenmat::batch {
namespace {

struct Box {
  Rational left, top, right, bottom;
  [[nodiscard]] Size size() const { return {right - left, bottom - top}; }
  [[nodiscard]] bool empty() const { return left >= right || top >= bottom; }
};

Box common(const Box& a, const Box& b) {
  return {std::max(a.left, b.left), std::max(a.top, b.top), std::min(a.right, b.right),
          std::min(a.bottom, b.bottom)};
}
bool overlap(const Box& a, const Box& b) { return !common(a, b).empty(); }

Box box_of(const PlacedPiece& placed) {
  return {placed.left, placed.top, placed.left + placed.box_width, placed.top + placed.box_height};
}

// From a face's own frame into that of the closed card.
Box in_closed(const Face& face, Box box) {
  if (face.turned == Turned::across) {
    const Rational edges = face.closed_left + face.whole.width;
    return {edges - box.right, box.top + face.closed_top, edges - box.left, box.bottom + face.closed_top};
  }
  if (face.turned == Turned::down) {
    const Rational edges = face.closed_top + face.whole.height;
    return {box.left + face.closed_left, edges - box.bottom, box.right + face.closed_left, edges - box.top};
  }
  return box;
}

// A leaf of the closed card, once it is cut back.
Box leaf_box(const Face& toward, const std::optional<Rational>& cut_back) {
  Box box{toward.closed_left, toward.closed_top, toward.closed_left + toward.whole.width,
          toward.closed_top + toward.whole.height};
  if (!cut_back || !toward.trimmed) return box;
  switch (*toward.trimmed) {
    case Edge::left:
      box.left += *cut_back;
      break;
    case Edge::right:
      box.right -= *cut_back;
      break;
    case Edge::top:
      box.top += *cut_back;
      break;
    case Edge::bottom:
      box.bottom -= *cut_back;
      break;
  }
  return box;
}

const Face* find_face(const std::vector<Face>& faces, const std::string& name) {
  const auto found =
      std::find_if(faces.begin(), faces.end(), [&](const Face& face) { return face.name == name; });
  return found == faces.end() ? nullptr : &*found;
}

// Whether a layer hides all that is under its box: one rectangle of paper without openings, not aslant.
bool covers_its_box(const SizedVersion& version, const Piece& layer) {
  if (layer.kind != Piece::Kind::layer || layer.stamped || layer.cut != Cut::trimmer) return false;
  if (layer.tilt && !is_multiple(layer.tilt->value, 90)) return false;
  if (layer.copies && layer.copies->value > 1) return false;
  return std::none_of(version.pieces.begin(), version.pieces.end(), [&](const PlacedPiece& placed) {
    return placed.piece->kind == Piece::Kind::window && placed.piece->on.value == layer.name.value;
  });
}

// Whether what else lies on the mat leaves it free to be cut away within the box, under the layer: only what
// is over the layer may lie there.
bool is_free(const SizedVersion& version, const Box& middle, const Piece& layer) {
  return std::none_of(version.pieces.begin(), version.pieces.end(), [&](const PlacedPiece& placed) {
    const Piece& other = *placed.piece;
    if (&other == &layer || other.on.value != layer.on.value || !overlap(middle, box_of(placed)))
      return false;
    return std::none_of(other.over.begin(), other.over.end(),
                        [&](const Name& name) { return name.value == layer.name.value; });
  });
}

class Offcuts {
 public:
  Offcuts(const std::vector<BatchCard>& cards, const std::string& paper) : cards_(cards), paper_(paper) {}

  void add_version(std::size_t card, std::size_t version, int count) {
    card_ = card;
    design_ = &design_of(cards_[card], version);
    version_ = &cards_[card].sized->versions[version];
    if (is_of(design_->base.paper)) {
      add_cut_back(count);
      add_windows_in_faces(count);
    }
    for (const PlacedPiece& placed : version_->pieces) {
      const Piece& piece = *placed.piece;
      if (!is_cut(piece) || !is_of(piece.paper)) continue;
      add_windows_in(piece, count * (piece.copies ? piece.copies->value : 1));
      // What lies on a layer with copies lies on the first of them.
      // The outline that a die or a hand gives it is not known.
      if (piece.hollow && piece.cut == Cut::trimmer) add_middles_of(piece, count);
    }
  }

  std::vector<CutSheet> found() { return std::move(found_); }

 private:
  [[nodiscard]] bool is_of(const Maybe<std::string>& paper) const { return paper && paper->value == paper_; }

  void add(CutSheet::From from, const Size& size, int have, const Name& of) {
    const Unit unit = unit_of(cards_);
    const Unit own = cards_[card_].card->unit;
    CutSheet sheet;
    sheet.from = from;
    sheet.size = {convert(size.width, own, unit), convert(size.height, own, unit)};
    const Rational least = usual(cards_[card_], unit, Rational(1, 2), 12);
    if (sheet.size.width < least || sheet.size.height < least || have <= 0) return;
    sheet.have = have;
    sheet.file = cards_[card_].file;
    sheet.spot = of.spot;
    sheet.comes_of = of.value;
    // The same of another version; of a gate the other door's.
    for (CutSheet& other : found_) {
      if (other.from == from && other.size == sheet.size && other.file == sheet.file &&
          other.comes_of == sheet.comes_of) {
        *other.have += have;
        return;
      }
    }
    found_.push_back(std::move(sheet));
  }

  // Of a gate both doors' strips.
  void add_cut_back(int count) {
    if (!version_->cut_back) return;
    for (const Face& face : faces(design_->base)) {
      if (!face.trimmed || face.depth > 0 || face.turned != Turned::no || face.name == "reveal") continue;
      Size strip = face.whole;
      (is_across(*face.trimmed) ? strip.width : strip.height) = *version_->cut_back;
      add(CutSheet::From::cut_back, strip, count, {"front", design_->base.front.spot});
    }
  }

  void add_windows_in_faces(int count) {
    const std::vector<Face> all = faces(design_->base);
    for (const Leaf& leaf : version_->folding.leaves) {
      const Face* toward = find_face(all, leaf.toward);
      if (toward == nullptr) continue;
      const Box paper = leaf_box(*toward, version_->cut_back);
      std::vector<Box> cut;
      for (const PlacedPiece& placed : version_->pieces) {
        const Piece& window = *placed.piece;
        const std::string& in = window.on.value;
        const bool both_doors = in == "front" && design_->base.fold.value == Fold::gate && leaf.depth == 0;
        if (window.kind != Piece::Kind::window || (in != leaf.toward && in != leaf.away && !both_doors))
          continue;
        const Face* face = find_face(all, in);
        const Box out = common(paper, in_closed(*face, box_of(placed)));
        if (out.empty() || std::any_of(cut.begin(), cut.end(), [&](const Box& b) { return overlap(out, b); }))
          continue;
        cut.push_back(out);
        add(CutSheet::From::window, out.size(), count, window.name);
      }
    }
  }

  void add_windows_in(const Piece& layer, int count) {
    for (const PlacedPiece& placed : version_->pieces) {
      if (placed.piece->kind == Piece::Kind::window && placed.piece->on.value == layer.name.value)
        add(CutSheet::From::window, {placed.width, placed.height}, count, placed.piece->name);
    }
  }

  void add_middles_of(const Piece& mat, int count) {
    for (const HiddenMiddle& middle : hidden_middles(*version_, mat, cards_[card_].card->unit))
      add(CutSheet::From::hollow, middle.size, count, mat.name);
  }

  const std::vector<BatchCard>& cards_;
  const std::string& paper_;
  std::size_t card_ = 0;
  const Design* design_ = nullptr;
  const SizedVersion* version_ = nullptr;
  std::vector<CutSheet> found_;
};

}  // namespace

// Common practice, no source: a lip of 1/4 in (6 mm) stays, to glue the layer to.
std::vector<HiddenMiddle> hidden_middles(const SizedVersion& version, const Piece& mat, Unit unit) {
  const Rational lip = unit == Unit::inch ? Rational(1, 4) : Rational(6);
  std::vector<HiddenMiddle> middles;
  for (const PlacedPiece& placed : version.pieces) {
    if (placed.piece->on.value != mat.name.value || !covers_its_box(version, *placed.piece)) continue;
    // A layer that reaches past the mat leaves that a lip of its own.
    const auto inside = [&](const Rational& from_edge) {
      return from_edge < 0 ? Rational(lip - from_edge) : lip;
    };
    Box middle = box_of(placed);
    middle.left += inside(placed.from_left);
    middle.top += inside(placed.from_top);
    middle.right -= inside(placed.from_right);
    middle.bottom -= inside(placed.from_bottom);
    if (middle.empty() || !is_free(version, middle, *placed.piece)) continue;
    middles.push_back({placed.from_left + inside(placed.from_left), placed.from_top + inside(placed.from_top),
                       middle.size()});
  }
  return middles;
}

std::vector<CutSheet> offcuts_of(const std::vector<BatchCard>& cards, const Counts& counts,
                                 const std::string& paper) {
  Offcuts offcuts(cards, paper);
  for (std::size_t c = 0; c < cards.size(); ++c) {
    for (std::size_t v = 0; v < counts[c].size(); ++v) {
      if (counts[c][v] > 0) offcuts.add_version(c, v, counts[c][v]);
    }
  }
  return offcuts.found();
}

}  // namespace evenmat::batch
