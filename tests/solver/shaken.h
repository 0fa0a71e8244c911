// A hand that is off, played through: every cut edge and every placement of a card moved by so much, and
// where all its rectangles lie then. Geometry worked out from the card, by corners, and not from its rules.
#pragma once

#include <array>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "model/faces.h"
#include "solver/rule.h"
#include "tests/model/cards.h"

namespace evenmat::testing {

// What the hand can do wrong, by name, and by how much it is off.
using Errors = std::map<std::string, Rational>;

// Of a card without copies and variants.
class Shaken {
 public:
  Shaken(const Card& card, const Rules& rules, std::vector<Rational> sized)
      : design_(card.design), rules_(rules), sized_(std::move(sized)) {
    const auto edges = [&](const std::string& of) {
      for (const char* edge : {"left", "right", "top", "bottom"}) names_.push_back(of + "." + edge);
    };
    edges("base");
    for (const char* more : {"free edge of inside", "cut-back"}) names_.emplace_back(more);
    for (const Piece& piece : design_.pieces) {
      const std::string& name = piece.name.value;
      if (piece.kind == Piece::Kind::layer) {
        names_.push_back(name + ".across");
        names_.push_back(name + ".down");
      }
      edges(name);
      if (piece.artwork) {
        names_.push_back(name + ".artwork across");
        names_.push_back(name + ".artwork down");
      }
    }
  }

  [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

  // What a sum over the rectangles comes to with these errors.
  [[nodiscard]] Rational at(const Sum& sum, const Errors& errors) const {
    Rational total = sum.constant();
    for (const Term& term : sum.terms()) {
      const std::size_t i = term.variable / 4;
      total += term.factor * measures(i, is_held_in(sum, i), errors)[term.variable % 4];
    }
    return total;
  }

 private:
  struct Rect {
    Rational left, top, right, bottom;
  };

  static Rational off(const Errors& errors, const std::string& name) {
    const auto found = errors.find(name);
    return found == errors.end() ? Rational(0) : found->second;
  }

  // Whether the sum places something on the rectangle in it: what lies on a tilted layer turns with it.
  [[nodiscard]] bool is_held_in(const Sum& sum, std::size_t rectangle) const {
    return std::any_of(sum.terms().begin(), sum.terms().end(), [&](const Term& term) {
      return term.variable % 4 < 2 && rules_.rectangles[term.variable / 4].on == rectangle;
    });
  }

  [[nodiscard]] std::array<Rational, 4> measures(std::size_t i, bool own, const Errors& errors) const {
    const Rectangle& it = rules_.rectangles[i];
    const Rational width = sized_[4 * i + 2];
    const Rational height = sized_[4 * i + 3];
    const Rect wanted{sized_[4 * i], sized_[4 * i + 1], sized_[4 * i] + width, sized_[4 * i + 1] + height};
    if (it.kind == Rectangle::Kind::face) {
      const Rect face = moved_face(it.name, wanted, errors);
      return {face.left, face.top, face.right - face.left, face.bottom - face.top};
    }
    const Piece& piece = *find_piece(design_, it.name);
    auto [across, down] =
        piece.kind == Piece::Kind::window ? carried(piece.on.value, errors) : carried(it.name, errors);
    if (it.kind == Rectangle::Kind::artwork) {
      across += off(errors, it.name + ".artwork across");
      down += off(errors, it.name + ".artwork down");
      return {wanted.left + across, wanted.top + down, width, height};
    }
    const bool cut = piece.kind == Piece::Kind::window ||
                     (piece.cut != Cut::die && piece.cut != Cut::ready_made && !piece.stamped);
    Rect paper = wanted;  // its own edges, before it is turned
    if (cut) {
      paper.left += off(errors, it.name + ".left");
      paper.top += off(errors, it.name + ".top");
      paper.right += off(errors, it.name + ".right");
      paper.bottom += off(errors, it.name + ".bottom");
    }
    const Rational new_width = paper.right - paper.left;
    const Rational new_height = paper.bottom - paper.top;
    if (own || !piece.tilt) return {paper.left + across, paper.top + down, new_width, new_height};
    // Turned round the middle of what was wanted, which lies in the middle of the box.
    const double angle = static_cast<double>(piece.tilt->value) * 3.14159265358979 / 180;
    const Rational cos = std::cos(angle) < 0 ? Rational(-it.box_cos) : it.box_cos;
    const Rational sin = std::sin(angle) < 0 ? Rational(-it.box_sin) : it.box_sin;
    const Rational middle_x = wanted.left + width / 2;
    const Rational middle_y = wanted.top + height / 2;
    const Rational box_x = wanted.left + (width * it.box_cos + height * it.box_sin) / 2;
    const Rational box_y = wanted.top + (height * it.box_cos + width * it.box_sin) / 2;
    Rational left, top;
    bool first = true;
    for (const Rational& x : {paper.left, paper.right}) {
      for (const Rational& y : {paper.top, paper.bottom}) {
        const Rational turned_x = box_x + (x - middle_x) * cos - (y - middle_y) * sin;
        const Rational turned_y = box_y + (x - middle_x) * sin + (y - middle_y) * cos;
        if (first || turned_x < left) left = turned_x;
        if (first || turned_y < top) top = turned_y;
        first = false;
      }
    }
    return {left + across, top + down, new_width, new_height};
  }

  // How far a thing has moved on its face, with all that it lies on.
  [[nodiscard]] std::pair<Rational, Rational> carried(const std::string& name, const Errors& errors) const {
    const Piece* piece = find_piece(design_, name);
    if (piece == nullptr) return {0, 0};
    if (piece->kind == Piece::Kind::layer) {
      auto [across, down] = carried(piece->on.value, errors);
      return {across + off(errors, name + ".across"), down + off(errors, name + ".down")};
    }
    // What lies on a window lies behind what it is cut in.
    const Piece* holder = find_piece(design_, piece->on.value);
    return holder == nullptr ? std::pair<Rational, Rational>(0, 0) : carried(holder->on.value, errors);
  }

  // The front, the inside and the reveal, which share a frame. Of a folded base the two ends of the fold are
  // cut once for both leaves.
  [[nodiscard]] Rect moved_face(const std::string& name, Rect face, const Errors& errors) const {
    const Base& base = design_.base;
    const bool flat = base.fold.value == Fold::flat;
    const Edge fold = flat ? Edge::left : opposite(free_edge(base));
    const auto edge_of = [&](Edge edge) -> Rational {
      const bool inside = name == "inside" || name == "reveal";
      if (name == "reveal" && edge == opposite(base.cut_back->edge)) return off(errors, "cut-back");
      if (name == "front" && base.cut_back && edge == base.cut_back->edge) return off(errors, "cut-back");
      if (!flat && edge == fold) return 0;
      if (inside && edge == free_edge(base)) return off(errors, "free edge of inside");
      return off(errors, "base." + std::string(edge_name(edge)));
    };
    face.left += edge_of(Edge::left);
    face.right += edge_of(Edge::right);
    face.top += edge_of(Edge::top);
    face.bottom += edge_of(Edge::bottom);
    return face;
  }

  const Design& design_;
  const Rules& rules_;
  std::vector<Rational> sized_;
  std::vector<std::string> names_;
};

}  // namespace evenmat::testing
