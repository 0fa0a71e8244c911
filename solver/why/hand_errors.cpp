#include "solver/why/hand_errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "model/copies.h"
#include "model/faces.h"
#include "model/folding.h"

namespace evenmat {
namespace {

using Edges = HandErrors::Edges;

Sum& at(Edges& edges, Edge edge) { return edges[static_cast<std::size_t>(edge)]; }
const Sum& at(const Edges& edges, Edge edge) { return edges[static_cast<std::size_t>(edge)]; }

// Seen from the other side of the paper, turned round an upright axis or a level one.
Edges turned_over(const Edges& edges, bool upright) {
  const Rational across = upright ? -1 : 1;
  const Rational down = -across;
  Edges turned;
  for (const Edge edge : all_edges) {
    const bool moves = is_across(edge) == upright;
    at(turned, moves ? opposite(edge) : edge) = at(edges, edge) * (is_across(edge) ? across : down);
  }
  return turned;
}

// The edges of a tilted layer's box: with x cos - y sin across and x sin + y cos down (clockwise, y down),
// each lies at the corner that is then outermost.
Edges box_edges(const Edges& cut, const Rectangle& rectangle, const Rational& degrees) {
  const Rational turned = degrees - round_down(degrees, 360);
  const bool right_side_up = turned <= 90 || turned >= 270;  // cos >= 0
  const bool clockwise = turned <= 180;                      // sin >= 0
  const Rational cos = right_side_up ? rectangle.box_cos : -rectangle.box_cos;
  const Rational sin = clockwise ? rectangle.box_sin : -rectangle.box_sin;
  // The cut edge that is outermost where it counts by this factor, on the low or the high side.
  const auto outermost = [&](const Rational& factor, Edge low, Edge high, bool on_low_side) {
    return at(cut, (factor >= 0) == on_low_side ? low : high) * factor;
  };
  Edges box;
  for (const bool low : {true, false}) {
    at(box, low ? Edge::left : Edge::right) =
        outermost(cos, Edge::left, Edge::right, low) + outermost(-sin, Edge::top, Edge::bottom, low);
    at(box, low ? Edge::top : Edge::bottom) =
        outermost(sin, Edge::left, Edge::right, low) + outermost(cos, Edge::top, Edge::bottom, low);
  }
  return box;
}

// Where an edge of a face lies in its frame, before any cutting back.
Rational place(const Face& face, Edge edge) {
  switch (edge) {
    case Edge::left:
      return face.left;
    case Edge::right:
      return face.left + face.whole.width;
    case Edge::top:
      return face.top;
    case Edge::bottom:
      break;
  }
  return face.top + face.whole.height;
}

bool has_cut_edges(const Piece& piece) {
  return piece.cut != Cut::die && piece.cut != Cut::ready_made && !piece.stamped;
}

}  // namespace

// Writes the errors of one version of a card.
class HandErrors::Builder {
 public:
  Builder(HandErrors& errors, const Design& design, std::size_t version) : errors_(errors), design_(design) {
    const auto& rectangles = errors.rules_->rectangles;
    for (std::size_t i = 0; i < rectangles.size(); ++i) {
      if (rectangles[i].version == version) by_name_[{rectangles[i].kind, rectangles[i].name}] = i;
    }
    for (const Piece& piece : design.pieces) pieces_[piece.name.value] = &piece;
  }

  void build() {
    add_faces();
    for (const Piece& piece : design_.pieces) add_piece(piece);
  }

 private:
  Sum new_error(std::string name) {
    errors_.names_.push_back(std::move(name));
    return Sum::of(errors_.names_.size() - 1);
  }
  Sum cut_edge(Edge edge, const std::string& of) {
    return new_error(fmt::format("cutting the {} edge of {}", edge_name(edge), of));
  }
  Edges cut_edges(const std::string& of) {
    Edges edges;
    for (const Edge edge : all_edges) at(edges, edge) = cut_edge(edge, of);
    return edges;
  }

  void set(Rectangle::Kind kind, const std::string& name, const Moved& moved) {
    if (const auto found = by_name_.find({kind, name}); found != by_name_.end()) {
      errors_.moved_[found->second] = moved;
    }
  }
  void set_face(const std::string& name, const Edges& edges) {
    set(Rectangle::Kind::face, name, {edges, edges});
  }

  // A leaf has two edges along the whole blank, which all leaves share, and at most one more that is cut:
  // where the blank ends. Its other edges are folds.
  void add_faces() {
    const Base& base = design_.base;
    const Folding folding = folding_of(base);
    if (base.fold.value == Fold::flat) {
      const Edges front = cut_edges("the base");
      set_face("front", front);
      set_face("back", turned_over(front, true));
      return;
    }
    Edges shared;
    for (const Edge edge : all_edges) {
      if (is_across(edge) != folding.across) at(shared, edge) = cut_edge(edge, "the base");
    }
    if (base.fold.value == Fold::gate) set_face("front", shared);
    std::map<std::string, Edges> toward;
    // From the blank's end on, as its edges are told: the page behind before the front.
    for (std::size_t i = folding.leaves.size(); i-- > 0;) {
      const Leaf& leaf = folding.leaves[i];
      Edges edges = shared;
      const std::optional<Edge> end = blank_end(folding, i);
      if (end && !is_cut_back(leaf, *end)) at(edges, *end) = cut_edge(*end, "the " + leaf.toward);
      toward[leaf.toward] = edges;
    }
    if (base.cut_back) cut_back(folding, toward);
    for (const Leaf& leaf : folding.leaves) {
      const Edges& edges = toward[leaf.toward];
      set_face(leaf.toward, edges);
      set_face(leaf.away, turned_over(edges, leaf.away == "back" || folding.across));
    }
    if (has_reveal(base)) set_face("reveal", reveal_edges(folding, toward));
  }

  // The edge of a leaf, closed, seen facing the front, at which the blank ends.
  static std::optional<Edge> blank_end(const Folding& folding, std::size_t i) {
    const bool first = i == 0;
    if (!first && i + 1 != folding.leaves.size()) return std::nullopt;
    // A leaf that is turned over to close has its ends the other way round.
    const bool turned = !folding.leaves[i].toward_up;
    const bool low = first != turned;
    if (folding.across) return low ? Edge::left : Edge::right;
    return low ? Edge::top : Edge::bottom;
  }

  [[nodiscard]] bool is_cut_back(const Leaf& leaf, Edge edge) const {
    const Base& base = design_.base;
    if (!base.cut_back || leaf.depth > 0) return false;
    return base.fold.value == Fold::gate || base.cut_back->edge == edge;
  }

  void cut_back(const Folding& folding, std::map<std::string, Edges>& toward) {
    const Base& base = design_.base;
    for (std::size_t i = 0; i < folding.leaves.size(); ++i) {
      const Leaf& leaf = folding.leaves[i];
      if (leaf.depth > 0) continue;
      const bool gate = base.fold.value == Fold::gate;
      const Edge edge = gate ? *blank_end(folding, i) : base.cut_back->edge;
      at(toward[leaf.toward], edge) =
          new_error(gate ? fmt::format("cutting the {} back", leaf.name) : "cutting the front back");
    }
  }

  // Where the page that shows ends before the reveal does, that ends in a fold.
  Edges reveal_edges(const Folding& folding, std::map<std::string, Edges>& toward) {
    const std::string behind = face_of(design_, "reveal");
    const std::vector<Face> all = faces(design_.base);
    const auto page =
        std::find_if(all.begin(), all.end(), [&](const Face& face) { return face.name == behind; });
    const Face& open = all.back();
    Edges reveal = toward[behind];
    for (const Edge edge : all_edges) {
      if (is_across(edge) == folding.across && place(*page, edge) != place(open, edge)) at(reveal, edge) = {};
    }
    for (const Edge edge : edges_at_front(design_.base)) {
      const bool low = edge == Edge::left || edge == Edge::top;
      const auto front = design_.base.fold.value == Fold::gate
                             ? (low ? folding.leaves.begin() : std::prev(folding.leaves.end()))
                             : std::find_if(folding.leaves.begin(), folding.leaves.end(),
                                            [](const Leaf& leaf) { return leaf.depth == 0; });
      at(reveal, edge) = at(toward[front->toward], opposite(edge));
    }
    return reveal;
  }

  // How a thing moves on its face with what it lies on: nothing does that lies on a face.
  const Shift& carried_on(const std::string& on) {
    static const Shift still;
    const auto piece = pieces_.find(on);
    if (piece == pieces_.end()) return still;
    const Piece& under = *piece->second;
    if (under.kind == Piece::Kind::layer) return shift_of(under);
    // Behind a window in the front of a folded card is a face, behind one in a layer what the layer is on.
    const auto holder = pieces_.find(under.on.value);
    return holder == pieces_.end() ? still : carried_on(holder->second->on.value);
  }

  // A window moves with what it is cut in, a layer by its own placement too.
  const Shift& shift_of(const Piece& piece) {
    if (const auto known = shifts_.find(&piece); known != shifts_.end()) return known->second;
    Shift shift;
    if (piece.kind == Piece::Kind::window) {
      const auto holder = pieces_.find(piece.on.value);
      if (holder != pieces_.end()) shift = shift_of(*holder->second);
    } else {
      shift = placed(piece);
    }
    return shifts_.emplace(&piece, std::move(shift)).first->second;
  }

  Shift placed(const Piece& piece) {
    Shift shift = carried_on(piece.on.value);
    const std::string name = fmt::format("{} {}{}", piece.stamped ? "stamping" : "placing",
                                         is_several(piece) ? "a copy of " : "", piece.name.value);
    shift.across += new_error(name);
    shift.down += new_error(name);
    return shift;
  }

  static bool is_several(const Piece& piece) { return piece.copies && piece.copies->value > 1; }

  static Moved shifted(Moved moved, const Shift& shift) {
    for (Edges* edges : {&moved.box, &moved.own}) {
      for (const Edge edge : all_edges) at(*edges, edge) += is_across(edge) ? shift.across : shift.down;
    }
    return moved;
  }

  Moved cut_and_shifted(const Piece& piece, const Rectangle& cell, const Shift& shift) {
    const bool cut = piece.kind == Piece::Kind::window || has_cut_edges(piece);
    const std::string of = (is_several(piece) ? "a copy of " : "") + piece.name.value;
    const Edges own = cut ? cut_edges(of) : Edges{};
    return shifted({box_edges(own, cell, piece.tilt ? piece.tilt->value : Rational(0)), own}, shift);
  }

  void add_piece(const Piece& piece) {
    const std::string& name = piece.name.value;
    const bool window = piece.kind == Piece::Kind::window;
    const std::size_t cell = by_name_.at({window ? Rectangle::Kind::window : Rectangle::Kind::layer, name});
    const Rectangle& rectangle = errors_.rules_->rectangles[cell];
    errors_.moved_[cell] = cut_and_shifted(piece, rectangle, shift_of(piece));
    if (const auto body = by_name_.find({Rectangle::Kind::copies, name}); body != by_name_.end()) {
      const Grid grid = grid_of(piece);
      errors_.grids_[body->second] = {cell, grid.columns, grid.rows, errors_.moved_[cell],
                                      cut_and_shifted(piece, rectangle, placed(piece))};
    }
    if (const auto art = by_name_.find({Rectangle::Kind::artwork, name}); art != by_name_.end()) {
      const std::string placing = "placing the artwork of " + name;
      Shift shift = shift_of(piece);
      shift.across += new_error(placing);
      shift.down += new_error(placing);
      errors_.moved_[art->second] = shifted({}, shift);
    }
  }

  HandErrors& errors_;
  const Design& design_;
  std::map<std::pair<Rectangle::Kind, std::string>, std::size_t> by_name_;
  std::map<std::string, const Piece*> pieces_;
  std::map<const Piece*, Shift> shifts_;
};

HandErrors::HandErrors(const Card& card, const Rules& rules)
    : rules_(&rules), moved_(rules.rectangles.size()) {
  Builder(*this, card.design, 0).build();
  for (std::size_t i = 0; i < card.variants.size(); ++i)
    Builder(*this, card.variants[i].design, i + 1).build();
}

void HandErrors::add_copies(const Copies& copies, const std::array<Rational, 4>& own, Factors& all,
                            Sum& errors) const {
  const Rectangle& cell = rules_->rectangles[copies.cell];
  for (const bool across : {true, false}) {
    const auto place = static_cast<std::size_t>(across ? Measure::left : Measure::top);
    const auto size = static_cast<std::size_t>(across ? Measure::width : Measure::height);
    const auto other_size = static_cast<std::size_t>(across ? Measure::height : Measure::width);
    const Edge low = across ? Edge::left : Edge::top;
    const Edge high = across ? Edge::right : Edge::bottom;
    const int count = across ? copies.columns : copies.rows;
    // The grid less so many copies as stand in it is all the gaps: each lies between two copies.
    const auto one = all.find(copies.cell);
    if (count > 1 && own[place] == 0 && own[size] != 0 && one != all.end() &&
        one->second[size] == -count * own[size] * cell.box_cos &&
        one->second[other_size] == -count * own[size] * cell.box_sin) {
      const Rational gaps = own[size] * (count - 1);
      errors.add(at(copies.last.box, low) - at(copies.first.box, high), gaps);
      one->second[size] = one->second[other_size] = 0;
      continue;
    }
    const Rational from_low = own[place] - own[size];
    const Rational& from_high = own[size];
    // The outermost edges of one row or column can be different copies' where both go outward; where both go
    // inward, that of any one copy bounds them.
    const bool different = count > 1 || (from_low < 0 && from_high > 0);
    errors.add(at(copies.first.box, low), from_low);
    errors.add(at((different ? copies.last : copies.first).box, high), from_high);
  }
}

Sum HandErrors::in(const Sum& sum) const {
  Factors factors;
  for (const Term& term : sum.terms()) {
    auto& own = factors.try_emplace(term.variable / 4).first->second;
    own[term.variable % 4] = term.factor;
  }
  const auto holds_another = [&](std::size_t rectangle) {
    return std::any_of(factors.begin(), factors.end(), [&](const auto& other) {
      const bool has_place = other.second[0] != 0 || other.second[1] != 0;
      return has_place && rules_->rectangles[other.first].on == rectangle;
    });
  };
  Sum errors;
  for (const auto& [rectangle, copies] : grids_) {
    const auto own = factors.find(rectangle);
    if (own != factors.end()) add_copies(copies, own->second, factors, errors);
  }
  for (const auto& [rectangle, own] : factors) {
    if (grids_.contains(rectangle)) continue;
    const Moved& moved = moved_[rectangle];
    const Edges& place = holds_another(rectangle) ? moved.own : moved.box;
    errors.add(at(place, Edge::left), own[0]);
    errors.add(at(place, Edge::top), own[1]);
    errors.add(at(moved.own, Edge::right) - at(moved.own, Edge::left), own[2]);
    errors.add(at(moved.own, Edge::bottom) - at(moved.own, Edge::top), own[3]);
  }
  return errors;
}

Rational reach_of(const Sum& errors) {
  Rational reach = 0;
  for (const Term& term : errors.terms()) reach += abs(term.factor);
  return reach;
}

bool is_up_to_the_hand(const Rule& rule) {
  if (rule.origin != Origin::given || rule.choices.size() != 1) return true;
  return std::none_of(rule.choices.front().begin(), rule.choices.front().end(), [](const Relation& relation) {
    const auto& terms = relation.sum.terms();
    return terms.size() == 1 && terms.front().variable % 4 >= static_cast<std::size_t>(Measure::width);
  });
}

}  // namespace evenmat
