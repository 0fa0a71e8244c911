#include "solver/why/hand_errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "model/copies.h"
#include "model/faces.h"

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

  // A fold leaves one blank with outer edges along the fold's two ends, which front and back share, and one
  // edge of each of the two where the card opens.
  void add_faces() {
    const Base& base = design_.base;
    if (base.fold.value == Fold::flat) {
      const Edges front = cut_edges("the base");
      set_face("front", front);
      set_face("back", turned_over(front, true));
      return;
    }
    const Edge free = free_edge(base);
    Edges inside;
    for (const Edge edge : all_edges) {
      if (is_across(edge) != is_across(free)) at(inside, edge) = cut_edge(edge, "the base");
    }
    Edges front = inside;
    at(inside, free) = cut_edge(free, "the inside");
    if (!base.cut_back || base.cut_back->edge != free) at(front, free) = cut_edge(free, "the front");
    if (base.cut_back) {
      const Sum back = new_error("cutting the front back");
      at(front, base.cut_back->edge) = back;
      Edges reveal = inside;
      at(reveal, opposite(base.cut_back->edge)) = back;
      set_face("reveal", reveal);
    }
    set_face("front", front);
    set_face("inside", inside);
    set_face("inside front", turned_over(front, is_across(free)));
    set_face("back", turned_over(inside, true));
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
