// Steps of assembly to ask which comes first; and, worked out apart from the program, what a layer is glued
// to.
#pragma once

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "cli/worksheet/assembly.h"
#include "model/faces.h"

namespace evenmat::testing {

using Kind = AssemblyStep::Kind;
using Steps = std::vector<AssemblyStep>;

inline bool is_glued(const AssemblyStep& step) {
  return step.kind != Kind::stamp && step.kind != Kind::cut_out;
}

struct Order {
  const Design& design;
  const SizedVersion& version;
  Steps steps;

  // Where a layer is glued; none: nowhere.
  [[nodiscard]] std::optional<std::size_t> glued(const std::string& name) const {
    for (std::size_t i = 0; i < steps.size(); ++i) {
      if (is_glued(steps[i]) && version.pieces[steps[i].piece].piece->name.value == name) return i;
    }
    return std::nullopt;
  }
  [[nodiscard]] const Piece* piece(const std::string& name) const {
    for (const PlacedPiece& placed : version.pieces) {
      if (placed.piece->name.value == name) return placed.piece;
    }
    return nullptr;
  }
  [[nodiscard]] bool comes_before(const std::string& one, const std::string& other) const {
    const auto first = glued(one);
    const auto second = glued(other);
    return first && second && *first < *second;
  }
};

inline const PlacedPiece& placed(const Order& order, const std::string& name) {
  return *std::find_if(order.version.pieces.begin(), order.version.pieces.end(),
                       [&](const PlacedPiece& one) { return one.piece->name.value == name; });
}

inline bool is_flat(const Piece& piece) { return !piece.raised || piece.raised->value == 0; }

inline bool is_within(const PlacedPiece& inner, const PlacedPiece& outer) {
  return inner.left >= outer.left && inner.left + inner.box_width <= outer.left + outer.box_width &&
         inner.top >= outer.top && inner.top + inner.box_height <= outer.top + outer.box_height;
}

// The layer whose window a layer is seen through, if that lies flat and on no window of its own.
inline const Piece* flat_holder(const Order& order, const Piece& layer) {
  const Piece* opening = order.piece(layer.on.value);
  if (opening == nullptr || opening->kind == Piece::Kind::layer) return nullptr;
  const Piece* holder = order.piece(opening->on.value);
  if (holder == nullptr || !is_flat(*holder)) return nullptr;
  const Piece* beneath = order.piece(holder->on.value);
  return beneath != nullptr && beneath->kind == Piece::Kind::window ? nullptr : holder;
}

// Whether it goes into the opening once that lies; whether it is glued to the back of what the opening is in.
inline bool goes_in(const Order& order, const Piece& layer) {
  return flat_holder(order, layer) != nullptr &&
         is_within(placed(order, layer.name.value), placed(order, layer.on.value));
}
inline bool goes_behind(const Order& order, const Piece& layer) {
  const Piece* holder = flat_holder(order, layer);
  return holder != nullptr && !goes_in(order, layer) && is_flat(layer) &&
         is_within(placed(order, layer.name.value), placed(order, holder->name.value));
}

// The paper a layer touches: through openings to what is behind, or the back of what the opening is in.
inline std::string ground(const Order& order, const Piece& layer) {
  const Piece* below = order.piece(layer.on.value);
  if (goes_behind(order, layer)) return below->on.value;
  if (below == nullptr) return face_of(order.design, layer.on.value);
  if (below->kind == Piece::Kind::layer) return below->stamped ? ground(order, *below) : below->name.value;
  const Piece* holder = order.piece(below->on.value);
  return holder == nullptr ? face_of(order.design, below->name.value) : ground(order, *holder);
}

// All that a layer lies on, down to its face.
inline std::set<std::string> carriers(const Order& order, const Piece& layer) {
  std::set<std::string> all;
  const Piece* piece = &layer;
  while (piece != nullptr) {
    const std::string below = ground(order, *piece);
    all.insert(below);
    piece = order.piece(below);
  }
  return all;
}

}  // namespace evenmat::testing
