#include "model/faces.h"

namespace evenmat {
namespace {

constexpr const char* closed = "closed";  // the frame of the closed card

// Where an edge of the front is on the front's own back, seen facing it as the card stands open: the
// front was turned over around its fold, so edges along the fold change sides and the others do not.
Edge turned_over(Edge edge, bool fold_upright) {
  return is_across(edge) == fold_upright ? opposite(edge) : edge;
}

}  // namespace

Edge free_edge(const Base& base) {
  if (base.opens) return base.opens->value;
  return base.fold.value == Fold::top ? Edge::bottom : Edge::right;
}

std::vector<Face> faces(const Base& base) {
  const Size whole = base.front.size;
  const Fold fold = base.fold.value;
  if (fold == Fold::flat)
    return {{"front", closed, whole, std::nullopt}, {"back", "back", whole, std::nullopt}};
  if (fold != Fold::side && fold != Fold::top) return {};
  std::optional<Edge> on_front, on_inside_front;
  if (base.cut_back) {
    on_front = base.cut_back->edge;
    on_inside_front = turned_over(base.cut_back->edge, fold == Fold::side);
  }
  std::vector<Face> all{{"front", closed, whole, on_front},
                        {"inside", closed, whole, std::nullopt},
                        {"inside front", "inside front", whole, on_inside_front},
                        {"back", "back", whole, std::nullopt}};
  if (base.cut_back) all.push_back({"reveal", closed, whole, std::nullopt});
  return all;
}

std::vector<std::string> face_names(const Base& base) {
  std::vector<std::string> names;
  switch (base.fold.value) {
    case Fold::flat:
      return {"front", "back"};
    case Fold::side:
    case Fold::top:
      names = {"front", "inside", "inside front", "back"};
      break;
    case Fold::gate:
      names = {"front", "left front", "right front", "inside", "inside left front", "inside right front",
               "back"};
      break;
    case Fold::z:
      names = {"front", "inside front", "inside", "inside middle", "inside back", "back"};
      break;
    case Fold::tri:
      names = {"front", "inside front", "inside", "flap", "inside flap", "back"};
      break;
  }
  if (base.cut_back) names.emplace_back("reveal");
  return names;
}

std::string face_of(const Design& design, const std::string& on) {
  if (on == "reveal") return "inside";
  for (const Piece& piece : design.pieces) {
    if (piece.name.value != on) continue;
    const bool opens_front = piece.kind == Piece::Kind::window && piece.on.value == "front" &&
                             design.base.fold.value != Fold::flat;
    return opens_front ? "inside" : face_of(design, piece.on.value);
  }
  return on;
}

}  // namespace evenmat
