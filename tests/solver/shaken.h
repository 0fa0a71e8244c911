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
#include "model/folding.h"
#include "solver/rule.h"
#include "tests/model/cards.h"
#include "tests/model/strip.h"

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
    for (const char* more : {"first end", "last end", "first cut-back", "last cut-back"})
      names_.emplace_back(more);
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

  // How far the edges of a face are off, to the right or down as one looks at it.
  struct Off {
    Rational left, top, right, bottom;
  };
  static Rational& at_edge(Off& off, Edge edge) {
    return edge == Edge::left    ? off.left
           : edge == Edge::top   ? off.top
           : edge == Edge::right ? off.right
                                 : off.bottom;
  }
  static Rational place(const Rect& rect, Edge edge) {
    return edge == Edge::left    ? rect.left
           : edge == Edge::top   ? rect.top
           : edge == Edge::right ? rect.right
                                 : rect.bottom;
  }

  [[nodiscard]] Rect moved_face(const std::string& name, const Rect& face, const Errors& errors) const {
    const Off off = face_off(name, errors);
    return {face.left + off.left, face.top + off.top, face.right + off.right, face.bottom + off.bottom};
  }

  [[nodiscard]] Off face_off(const std::string& name, const Errors& errors) const {
    const Base& base = design_.base;
    if (base.fold.value == Fold::flat) {
      Off front;
      for (const Edge edge : all_edges)
        at_edge(front, edge) = off(errors, "base." + std::string(edge_name(edge)));
      return name == "front" ? front : Off{-front.right, front.top, -front.left, front.bottom};
    }
    const Folding folding = folding_of(base);
    if (name == "reveal") return reveal_off(folding, errors);
    for (std::size_t i = 0; i < folding.leaves.size(); ++i) {
      const Leaf& leaf = folding.leaves[i];
      if (leaf.toward == name) return leaf_off(folding, i, errors);
      if (leaf.away != name) continue;
      const Off seen = leaf_off(folding, i, errors);
      if (folding.across || name == "back") return {-seen.right, seen.top, -seen.left, seen.bottom};
      return {seen.left, -seen.bottom, seen.right, -seen.top};
    }
    return along_the_blank(folding, errors);  // the whole front of a gate, from fold to fold
  }

  // The two edges that run along the whole blank are cut once for all leaves.
  [[nodiscard]] Off along_the_blank(const Folding& folding, const Errors& errors) const {
    Off all;
    for (const Edge edge : all_edges) {
      if (is_across(edge) != folding.across)
        at_edge(all, edge) = off(errors, "base." + std::string(edge_name(edge)));
    }
    return all;
  }

  // A leaf on the closed card: it ends in folds, which are exact, or where the blank ends, which is cut.
  [[nodiscard]] Off leaf_off(const Folding& folding, std::size_t i, const Errors& errors) const {
    const Base& base = design_.base;
    const std::vector<StripLeaf> strip = closed_strip(folding);
    const Leaf& leaf = folding.leaves[i];
    Off found = along_the_blank(folding, errors);
    const Edge low = folding.across ? Edge::left : Edge::top;
    const auto end_at = [&](const Rational& on_blank) {
      return strip[i].at(on_blank) == strip[i].from ? low : opposite(low);
    };
    const bool in_front = leaf.toward == "front" || base.fold.value == Fold::gate;
    const bool cut = base.cut_back && in_front && leaf.toward != "inside";
    std::optional<Edge> cut_edge;
    if (cut) cut_edge = base.cut_back->edge;
    const bool first = i == 0;
    const bool last = i + 1 == folding.leaves.size();
    if (first || last) {
      const Edge end = end_at(first ? leaf.from : Rational(leaf.from + leaf.length));
      at_edge(found, end) = off(errors, first ? "first end" : "last end");
      if (cut && base.fold.value == Fold::gate) cut_edge = end;
    }
    if (cut_edge) at_edge(found, *cut_edge) = off(errors, first ? "first cut-back" : "last cut-back");
    return found;
  }

  // Each edge of the reveal is where a leaf in front ends, or the edge of the page that shows; or it lies in
  // a fold.
  [[nodiscard]] Off reveal_off(const Folding& folding, const Errors& errors) const {
    const Rect reveal = face_wanted("reveal");
    const std::string page = face_of(design_, "reveal");
    Off found;
    for (const Edge edge : all_edges) {
      if (place(face_wanted(page), edge) == place(reveal, edge)) {
        Off behind = face_off(page, errors);
        at_edge(found, edge) = at_edge(behind, edge);
      }
      for (std::size_t i = 0; i < folding.leaves.size(); ++i) {
        const Leaf& leaf = folding.leaves[i];
        if (leaf.depth > 0 || place(face_wanted(leaf.toward), opposite(edge)) != place(reveal, edge))
          continue;
        Off front = leaf_off(folding, i, errors);
        at_edge(found, edge) = at_edge(front, opposite(edge));
      }
    }
    return found;
  }

  [[nodiscard]] Rect face_wanted(const std::string& name) const {
    for (std::size_t i = 0; i < rules_.rectangles.size(); ++i) {
      const Rectangle& it = rules_.rectangles[i];
      if (it.kind != Rectangle::Kind::face || it.name != name) continue;
      return {sized_[4 * i], sized_[4 * i + 1], sized_[4 * i] + sized_[4 * i + 2],
              sized_[4 * i + 1] + sized_[4 * i + 3]};
    }
    FAIL("no face " << name);
    return {};
  }

  const Design& design_;
  const Rules& rules_;
  std::vector<Rational> sized_;
  std::vector<std::string> names_;
};

}  // namespace evenmat::testing
