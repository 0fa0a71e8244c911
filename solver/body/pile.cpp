#include "solver/body/pile.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "model/faces.h"
#include "solver/tilt.h"

namespace evenmat {
namespace {

// A turn and a shift of the plane: x' = cos x - sin y + x0, y' = sin x + cos y + y0 (clockwise, y down).
struct Motion {
  Rational cos = 1, sin = 0;
  Point shift{0, 0};

  [[nodiscard]] Point operator()(const Point& p) const {
    return {cos * p.x - sin * p.y + shift.x, sin * p.x + cos * p.y + shift.y};
  }
};

// First `inner`, then `outer`.
Motion after(const Motion& outer, const Motion& inner) {
  return {outer.cos * inner.cos - outer.sin * inner.sin, outer.sin * inner.cos + outer.cos * inner.sin,
          outer(inner.shift)};
}

// A turn whose cosine and sine are rational and whose squares add up to 1, so that areas are kept: by the
// half angle's tangent t they are (1 - t^2) / (1 + t^2) and 2t / (1 + t^2).
Motion turn_by(const Rational& degrees) {
  const Rational turned = degrees - round_down(degrees, 360);
  const Rational quarters = round_down(turned, 90);
  const TiltBounds bounds = tilt_bounds(turned - quarters);
  const Rational t =
      round_down(bounds.sin / (1 + bounds.cos), Rational(1, 1'000'000) * Rational(1, 1'000'000'000));
  Motion turn{(1 - t * t) / (1 + t * t), 2 * t / (1 + t * t), {0, 0}};
  for (Rational quarter = 0; quarter < quarters; quarter += 90) {
    const Rational cos = turn.cos;
    turn.cos = -turn.sin;
    turn.sin = cos;
  }
  return turn;
}

Motion shift_by(const Rational& x, const Rational& y) { return {1, 0, {x, y}}; }

Quad moved(const Motion& motion, const Quad& quad) {
  return {motion(quad[0]), motion(quad[1]), motion(quad[2]), motion(quad[3])};
}

class Pile {
 public:
  Pile(const Design& design, const SizedVersion& version) : design_(design), version_(version) {
    for (std::size_t i = 0; i < version.pieces.size(); ++i) at_[version.pieces[i].piece->name.value] = i;
    for (std::size_t i = 0; i < version.pieces.size(); ++i) {
      const Piece& piece = *version.pieces[i].piece;
      if (piece.kind == Piece::Kind::layer) on_[ground_of(piece)].push_back(i);
    }
  }

  std::vector<Lying> on(const std::string& face) {
    add(face, {});
    lift();
    return std::move(lying_);
  }

 private:
  // The paper that a layer is glued to: a face or a layer; for one on a window what lies behind that.
  [[nodiscard]] std::string ground_of(const Piece& layer) const {
    if (layer.on.value == "reveal") return face_of(design_, "reveal");
    const auto below = at_.find(layer.on.value);
    if (below == at_.end()) return layer.on.value;
    const Piece& piece = *version_.pieces[below->second].piece;
    if (piece.kind == Piece::Kind::layer) return piece.name.value;
    const auto holder = at_.find(piece.on.value);
    return holder == at_.end() ? face_of(design_, piece.name.value)
                               : ground_of(*version_.pieces[holder->second].piece);
  }

  // The layers in whose windows a layer is seen: it lies beneath them.
  [[nodiscard]] std::vector<std::size_t> seen_through(const Piece& layer) const {
    std::vector<std::size_t> above;
    const Piece* piece = &layer;
    while (true) {
      const auto below = at_.find(piece->on.value);
      if (below == at_.end()) return above;
      piece = version_.pieces[below->second].piece;
      if (piece->kind == Piece::Kind::layer) return above;
      const auto holder = at_.find(piece->on.value);
      if (holder == at_.end()) return above;
      above.push_back(holder->second);
      piece = version_.pieces[holder->second].piece;
    }
  }

  // The layers on one ground from the lowest up: whatever must lie lower comes first, else file order.
  [[nodiscard]] std::vector<std::size_t> in_order(const std::vector<std::size_t>& layers) const {
    std::map<std::size_t, std::set<std::size_t>> lower;  // by layer: what lies beneath it
    for (const std::size_t layer : layers) {
      const Piece& piece = *version_.pieces[layer].piece;
      for (const Name& name : piece.over) {
        if (const auto other = at_.find(name.value); other != at_.end()) lower[layer].insert(other->second);
      }
      for (const std::size_t above : seen_through(piece)) lower[above].insert(layer);
    }
    std::vector<std::size_t> ordered;
    std::vector<std::size_t> left = layers;
    while (!left.empty()) {
      auto next = std::find_if(left.begin(), left.end(), [&](std::size_t layer) {
        return std::none_of(left.begin(), left.end(), [&](std::size_t other) {
          return other != layer && lower[layer].contains(other);
        });
      });
      if (next == left.end()) next = left.begin();  // each over the other: as they stand in the file
      ordered.push_back(*next);
      left.erase(next);
    }
    return ordered;
  }

  // Whether a layer is the other, or lies on it, on one that lies on it, ...
  [[nodiscard]] bool lies_on(std::size_t layer, std::size_t other) const {
    for (std::size_t depth = 0; depth <= version_.pieces.size(); ++depth) {
      if (layer == other) return true;
      const auto ground = at_.find(ground_of(*version_.pieces[layer].piece));
      if (ground == at_.end()) return false;
      layer = ground->second;
    }
    return false;
  }

  // A layer that is over one of another stack goes above that stack's part, with all that is on it.
  void lift() {
    const auto carried_by = [&](std::size_t layer) {
      return [this, layer](const Lying& lying) { return lies_on(lying.piece, layer); };
    };
    for (std::size_t round = 0; round < version_.pieces.size(); ++round) {
      bool changed = false;
      for (std::size_t layer = 0; layer < version_.pieces.size(); ++layer) {
        for (const Name& name : version_.pieces[layer].piece->over) {
          const auto lower = at_.find(name.value);
          if (lower == at_.end() || lies_on(lower->second, layer) || lies_on(layer, lower->second)) continue;
          const auto first = std::find_if(lying_.begin(), lying_.end(), carried_by(layer));
          const auto last = std::find_if(lying_.rbegin(), lying_.rend(), carried_by(lower->second));
          if (first == lying_.end() || last == lying_.rend() || last.base() <= first) continue;
          // What is lifted keeps its order, and so does what it is lifted over.
          std::stable_partition(first, last.base(),
                                [&](const Lying& lying) { return !lies_on(lying.piece, layer); });
          changed = true;
        }
      }
      if (!changed) return;
    }
  }

  // `motion`: how places on the ground, as they are told, lie on the face.
  void add(const std::string& ground, const Motion& motion) {
    const auto layers = on_.find(ground);
    if (layers == on_.end()) return;
    for (const std::size_t layer : in_order(layers->second)) {
      const PlacedPiece& placed = version_.pieces[layer];
      const Piece& piece = *placed.piece;
      const Rational& width = placed.width;
      const Rational& height = placed.height;
      const Motion turn = piece.tilt ? turn_by(piece.tilt->value) : Motion{};
      std::vector<Point> corners{{placed.left, placed.top}};
      Size box{placed.box_width, placed.box_height};
      if (!placed.copies.empty()) {
        corners.clear();
        for (const auto& [x, y] : placed.copies)
          corners.push_back({placed.left - placed.from_left + x, placed.top - placed.from_top + y});
        const TiltBounds bounds = tilt_bounds(piece.tilt ? piece.tilt->value : Rational(0));
        box = {bounds.cos * width + bounds.sin * height, bounds.cos * height + bounds.sin * width};
      }
      std::optional<Motion> first;
      for (const Point& corner : corners) {
        // Around the middle of its box, which is the middle of the layer: places on it are told from the
        // corner that it would have there if it were not turned.
        const Motion own =
            after(shift_by(corner.x + box.width / 2, corner.y + box.height / 2),
                  after(turn, shift_by(-corners.front().x - width / 2, -corners.front().y - height / 2)));
        const Motion on_face = after(motion, own);
        if (!first) first = on_face;
        Lying lying;
        lying.piece = layer;
        lying.sheet.outline = moved(on_face, upright(corners.front().x, corners.front().y, width, height));
        for (const Quad& window : windows_in(version_, piece.name.value))
          lying.sheet.openings.push_back(moved(on_face, window));
        lying_.push_back(std::move(lying));
      }
      add(piece.name.value, *first);
    }
  }

  const Design& design_;
  const SizedVersion& version_;
  std::map<std::string, std::size_t> at_;
  std::map<std::string, std::vector<std::size_t>> on_;  // by ground: the layers on it, in file order
  std::vector<Lying> lying_;
};

}  // namespace

std::vector<Lying> pile_on(const Design& design, const SizedVersion& version, const std::string& face) {
  return Pile(design, version).on(face);
}

std::vector<Quad> windows_in(const SizedVersion& version, const std::string& face) {
  std::vector<Quad> windows;
  for (const PlacedPiece& placed : version.pieces) {
    if (placed.piece->kind == Piece::Kind::window && placed.piece->on.value == face)
      windows.push_back(upright(placed.left, placed.top, placed.width, placed.height));
  }
  return windows;
}

}  // namespace evenmat
