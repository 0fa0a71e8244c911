// The card closed: leaves and layers from the eye inward, each in the closed card's frame. Seen from the
// front that is the frame itself; what looks away is mirrored into it, which changes no area.
#include "solver/body/closed_card.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <tuple>
#include <utility>

#include "model/faces.h"
#include "model/papers.h"
#include "solver/body/girth.h"
#include "solver/body/pile.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

// One sheet of the closed card.
struct Part {
  std::optional<std::size_t> piece;  // in `version.pieces`; none: a leaf
  std::string leaf;                  // its name
  std::size_t depth = 0;             // of its leaf
  bool toward = true;                // a layer on a face that looks the way the front does
  bool hangs = false;                // over the edge of one door of a gate, or above what does
  Sheet sheet;
};

Quad into_closed(const Face& face, Quad quad) {
  for (Point& p : quad) {
    if (face.turned == Turned::across) p.x = face.closed_left + face.whole.width - p.x;
    if (face.turned == Turned::down) p.y = face.closed_top + face.whole.height - p.y;
    // The other direction of a face with a frame of its own starts at its corner.
    if (face.turned == Turned::across) p.y = p.y + face.closed_top;
    if (face.turned == Turned::down) p.x = p.x + face.closed_left;
  }
  return quad;
}

Quad leaf_outline(const Face& face, const std::optional<Rational>& cut_back) {
  Rational left = face.closed_left;
  Rational top = face.closed_top;
  Rational width = face.whole.width;
  Rational height = face.whole.height;
  if (cut_back && face.trimmed) {
    if (*face.trimmed == Edge::left) left += *cut_back;
    if (*face.trimmed == Edge::top) top += *cut_back;
    (is_across(*face.trimmed) ? width : height) -= *cut_back;
  }
  return upright(left, top, width, height);
}

// The paper's thickness or grammage; what has none is named once in `unknown`.
Rational of_paper(const Card& card, const Maybe<std::string>& name, Maybe<Rational> Paper::*states,
                  std::vector<std::string>& unknown) {
  if (const Maybe<Rational> stated = stated_of_paper(card.papers, name, states)) return stated->value;
  const std::string told = name ? name->value : "";
  if (std::find(unknown.begin(), unknown.end(), told) == unknown.end()) unknown.push_back(told);
  return 0;
}

Rational of(const std::optional<StatedLength>& length) { return length ? length->value : Rational(0); }

bool is_upright(const Quad& quad) {
  return (quad[0].x == quad[1].x && quad[2].x == quad[3].x && quad[1].y == quad[2].y &&
          quad[3].y == quad[0].y) ||
         (quad[0].y == quad[1].y && quad[2].y == quad[3].y && quad[1].x == quad[2].x &&
          quad[3].x == quad[0].x);
}
bool is_upright(const Sheet& sheet) {
  return is_upright(sheet.outline) && std::all_of(sheet.openings.begin(), sheet.openings.end(),
                                                  [](const Quad& quad) { return is_upright(quad); });
}

Pad box_of(const Quad& quad, const Rational& thickness) {
  const auto by_x = [](const Point& a, const Point& b) { return a.x < b.x; };
  const auto by_y = [](const Point& a, const Point& b) { return a.y < b.y; };
  const auto [left, right] = std::minmax_element(quad.begin(), quad.end(), by_x);
  const auto [top, bottom] = std::minmax_element(quad.begin(), quad.end(), by_y);
  return {left->x, top->y, right->x - left->x, bottom->y - top->y, thickness};
}

// A sheet as upright boxes: what its openings leave of it, strip by strip, or the box around one that is
// turned.
std::vector<Pad> pads_of(const Sheet& sheet) {
  const Pad whole = box_of(sheet.outline, sheet.thickness);
  if (sheet.openings.empty() || !is_upright(sheet)) return {whole};
  std::vector<Pad> openings;
  std::set<Rational> lines{whole.top, whole.top + whole.height};
  for (const Quad& opening : sheet.openings) {
    openings.push_back(box_of(opening, 0));
    for (const Rational& line :
         {openings.back().top, Rational(openings.back().top + openings.back().height)}) {
      if (line > whole.top && line < whole.top + whole.height) lines.insert(line);
    }
  }
  std::vector<Pad> pads;
  for (auto line = lines.begin(); std::next(line) != lines.end(); ++line) {
    const Rational& top = *line;
    const Rational& bottom = *std::next(line);
    std::vector<std::pair<Rational, Rational>> cut;
    for (const Pad& opening : openings) {
      if (opening.top <= top && opening.top + opening.height >= bottom)
        cut.emplace_back(opening.left, opening.left + opening.width);
    }
    std::sort(cut.begin(), cut.end());
    Rational from = whole.left;
    const Rational end = whole.left + whole.width;
    const auto add = [&](const Rational& to) {
      if (to > from) pads.push_back({from, top, to - from, bottom - top, whole.thickness});
    };
    for (const auto& [left, right] : cut) {
      add(std::min(left, end));
      from = std::max(from, right);
    }
    add(end);
  }
  return pads;
}

// Of all copies of a layer together; `turned` when something that does not lie straight has a part in it.
struct Seen {
  Areas areas{0, 0};
  bool turned = false;
};

class Body {
 public:
  Body(const Card& card, const Design& design, const SizedVersion& version)
      : card_(card), design_(design), version_(version), faces_(faces(design.base)) {
    std::erase_if(faces_, [](const Face& face) { return face.name == "reveal"; });
    for (const Leaf& leaf : version.folding.leaves) add_leaf(leaf);
    // What a gate has on its whole front lies on what its doors have.
    const bool gate = design.base.fold.value == Fold::gate;
    for (const Face& face : faces_) {
      if (!gate || face.name != "front") add_layers(face);
    }
    if (gate) add_layers(faces_.front());
  }

  [[nodiscard]] std::vector<Shown> shown() const {
    std::vector<Seen> open(version_.pieces.size());
    std::vector<Seen> closed = open;
    for (const Face& face : faces_) {
      count(
          open, [&](const Part& part) { return part.piece && face_of_part(part) == face.name; },
          face.turned == Turned::no);
    }
    for (const bool toward : {true, false}) {
      std::vector<Seen> seen(version_.pieces.size());
      count(
          seen, [](const Part&) { return true; }, toward);
      for (std::size_t i = 0; i < seen.size(); ++i) {
        if (looks_toward(i) == toward) closed[i] = seen[i];
      }
    }
    std::vector<Shown> all;
    for (std::size_t i = 0; i < open.size(); ++i) all.push_back({share(open[i]), share(closed[i])});
    return all;
  }

  [[nodiscard]] std::vector<ClosedPaper> pile() const {
    std::vector<ClosedPaper> papers;
    for (const Part* part : from_the_eye(true))
      papers.push_back({part->piece, part->leaf, part->depth, part->toward, part->sheet});
    std::reverse(papers.begin(), papers.end());
    return papers;
  }

  ClosedCard closed() {
    ClosedCard closed;
    closed.front = design_.base.front.size;
    std::vector<Sheet> sheets;
    std::vector<const Part*> from_the_back = from_the_eye(true);
    std::reverse(from_the_back.begin(), from_the_back.end());
    std::vector<Pad> pads;
    for (const Part* part : from_the_back) {
      sheets.push_back(part->sheet);
      sheets.back().thickness = thickness_of(*part, closed.no_thickness);
      for (Pad& pad : pads_of(sheets.back())) pads.push_back(std::move(pad));
    }
    const Thickest thick = thickest(sheets);
    closed.thickness = thick.total;
    closed.thickest_at = thick.at;
    for (const std::size_t i : thick.sheets) tell_thick(*from_the_back[i], closed.thickest);
    closed.grams = grams(closed.no_weight);
    if (pads.empty()) return closed;  // all of it is cut out
    closed.over_all = over_all(pads);
    const Rational within(1, 1'000'000'000);
    closed.girth_across = half_girth(pads, false, within);
    closed.girth_down = half_girth(pads, true, within);
    return closed;
  }

 private:
  void add_leaf(const Leaf& leaf) {
    Part part;
    part.leaf = leaf.name;
    part.depth = leaf.depth;
    for (const Face& face : faces_) {
      const bool both_doors =
          face.name == "front" && design_.base.fold.value == Fold::gate && leaf.depth == 0;
      if (face.name == leaf.toward) part.sheet.outline = leaf_outline(face, version_.cut_back);
      if (face.name != leaf.toward && face.name != leaf.away && !both_doors) continue;
      for (const Quad& window : windows_in(version_, face.name))
        part.sheet.openings.push_back(into_closed(face, window));
    }
    parts_.push_back(std::move(part));
  }

  void add_layers(const Face& face) {
    bool hung = false;
    for (Lying& lying : pile_on(design_, version_, face.name)) {
      Part part;
      part.piece = lying.piece;
      part.depth = face.depth;
      part.toward = face.turned == Turned::no;
      hung = hung || hangs(*version_.pieces[lying.piece].piece);
      part.hangs = hung && design_.base.fold.value == Fold::gate;
      part.sheet = std::move(lying.sheet);
      part.sheet.outline = into_closed(face, part.sheet.outline);
      for (Quad& opening : part.sheet.openings) opening = into_closed(face, opening);
      parts_.push_back(std::move(part));
    }
  }

  // Whether a layer, or one that it is on, may reach past what that is on.
  [[nodiscard]] bool hangs(const Piece& layer) const {
    if (layer.overhang) return true;
    const auto below =
        std::find_if(version_.pieces.begin(), version_.pieces.end(),
                     [&](const PlacedPiece& placed) { return placed.piece->name.value == layer.on.value; });
    return below != version_.pieces.end() && hangs(*below->piece);
  }

  [[nodiscard]] const std::string& face_of_part(const Part& part) const {
    return version_.pieces[*part.piece].face;
  }
  [[nodiscard]] bool looks_toward(std::size_t piece) const {
    const auto face = std::find_if(faces_.begin(), faces_.end(),
                                   [&](const Face& one) { return one.name == version_.pieces[piece].face; });
    return face == faces_.end() || face->turned == Turned::no;
  }

  // All parts as someone sees them who looks at the front (or the back): leaf by leaf, on each the layers
  // that face the eye from the topmost down, the leaf itself, and the layers on its other side. What a gate
  // has on its whole front lies on what its doors have.
  [[nodiscard]] std::vector<const Part*> from_the_eye(bool at_front) const {
    std::vector<const Part*> order;
    for (const Part& part : parts_) order.push_back(&part);
    std::reverse(order.begin(), order.end());
    // 0: faces the eye, 1: the leaf, 2: looks away from it. Within each the last one put down is the topmost,
    // for layers that face the front; those on the other sides are met from below.
    const auto rank = [](const Part& part) { return !part.piece ? 1 : part.toward ? 0 : 2; };
    // What hangs over the edge of one door lies over what is on the other.
    const auto place = [&](const Part& part) {
      return std::tuple(part.depth, rank(part), rank(part) == 0 && !part.hangs ? 1 : 0);
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](const Part* a, const Part* b) { return place(*a) < place(*b); });
    // Layers that look away were put down onto the leaf from the other side.
    for (auto first = order.begin(); first != order.end();) {
      const auto same = [&](const Part* part) {
        return part->depth == (*first)->depth && rank(*part) == rank(**first);
      };
      const auto last = std::find_if_not(first, order.end(), same);
      if (rank(**first) == 2) std::reverse(first, last);
      first = last;
    }
    if (!at_front) std::reverse(order.begin(), order.end());
    return order;
  }

  template <typename Which>
  void count(std::vector<Seen>& into, const Which& counts, bool at_front) const {
    std::vector<Sheet> sheets;
    std::vector<std::optional<std::size_t>> pieces;
    for (const Part* part : from_the_eye(at_front)) {
      if (!counts(*part)) continue;
      sheets.push_back(part->sheet);
      pieces.push_back(part->piece);
    }
    const std::vector<Areas> found = areas(sheets);
    bool turned = false;
    for (std::size_t i = 0; i < found.size(); ++i) {
      turned = turned || !is_upright(sheets[i]);
      if (!pieces[i]) continue;
      Seen& seen = into[*pieces[i]];
      seen.areas.paper += found[i].paper;
      seen.areas.seen += found[i].seen;
      seen.turned = seen.turned || turned;
    }
  }

  // Exact, but where something turned has a part in it: that is told rounded down to 1e-9.
  static Rational share(const Seen& seen) {
    if (seen.areas.paper == 0) return 0;
    const Rational exact = seen.areas.seen / seen.areas.paper;
    return seen.turned ? round_down(exact, Rational(1, 1'000'000'000)) : exact;
  }

  Rational thickness_of(const Part& part, std::vector<std::string>& unknown) const {
    if (!part.piece) return of_paper(card_, design_.base.paper, &Paper::thickness, unknown);
    const Piece& piece = *version_.pieces[*part.piece].piece;
    if (piece.stamped) return 0;
    return of_paper(card_, piece.paper, &Paper::thickness, unknown) + of(piece.raised) + of(piece.adhesive);
  }

  void tell_thick(const Part& part, std::vector<ThickPart>& told) const {
    std::vector<std::string> known;
    using Kind = ThickPart::Kind;
    const auto tell = [&](std::string what, const Rational& thickness, Kind kind) {
      if (thickness > 0) told.push_back({std::move(what), thickness, kind});
    };
    if (!part.piece) {
      return tell("the " + part.leaf, of_paper(card_, design_.base.paper, &Paper::thickness, known),
                  Kind::leaf);
    }
    const Piece& piece = *version_.pieces[*part.piece].piece;
    const std::string& name = piece.name.value;
    const auto first = static_cast<std::ptrdiff_t>(told.size());
    tell("the adhesive under " + name, of(piece.adhesive), Kind::layer);
    tell("the foam under " + name, of(piece.raised), Kind::foam);
    tell(name, of_paper(card_, piece.paper, &Paper::thickness, known), Kind::layer);
    // Under a layer that looks away they are nearer to the front than its paper.
    if (!part.toward) std::reverse(told.begin() + first, told.end());
  }

  static Size over_all(const std::vector<Pad>& pads) {
    Rational left = pads.front().left;
    Rational top = pads.front().top;
    Rational right = left;
    Rational bottom = top;
    for (const Pad& pad : pads) {
      left = std::min(left, pad.left);
      top = std::min(top, pad.top);
      right = std::max(right, Rational(pad.left + pad.width));
      bottom = std::max(bottom, Rational(pad.top + pad.height));
    }
    return {right - left, bottom - top};
  }

  // Foam and adhesive are not weighed; what each fold takes up of the blank is.
  [[nodiscard]] Rational grams(std::vector<std::string>& unknown) const {
    const Rational to_metre = convert(1, card_.unit, Unit::millimetre) / 1000;
    const auto weighed = [&](const Maybe<std::string>& paper, const Rational& area) {
      return Rational(of_paper(card_, paper, &Paper::grams_per_square_metre, unknown) * area * to_metre *
                      to_metre);
    };
    const Size& front = design_.base.front.size;
    Rational in_folds =
        version_.folding.across ? version_.folding.blank.width : version_.folding.blank.height;
    for (const Leaf& leaf : version_.folding.leaves) in_folds -= leaf.length;
    Rational total =
        weighed(design_.base.paper, in_folds * (version_.folding.across ? front.height : front.width));
    for (const Part& part : parts_) {
      const Rational area = areas({part.sheet}).front().paper;
      if (!part.piece) {
        total += weighed(design_.base.paper, area);
      } else if (const Piece& piece = *version_.pieces[*part.piece].piece; !piece.stamped) {
        total += weighed(piece.paper, area);
      }
    }
    return total;
  }

  const Card& card_;
  const Design& design_;
  const SizedVersion& version_;
  std::vector<Face> faces_;
  std::vector<Part> parts_;
};

}  // namespace

std::vector<Shown> shown_of(const Card& card, const Design& design, const SizedVersion& version) {
  return Body(card, design, version).shown();
}

std::vector<ClosedPaper> closed_pile(const Card& card, const Design& design, const SizedVersion& version) {
  return Body(card, design, version).pile();
}

ClosedCard closed_card_of(const Card& card, const Design& design, const SizedVersion& version) {
  return Body(card, design, version).closed();
}

}  // namespace evenmat
