#include "model/faces.h"

#include <algorithm>

#include "model/folding.h"

namespace evenmat {
namespace {

constexpr const char* closed = "closed";  // the frame of the closed card

// Where an edge of a leaf is on its other side, seen facing that: leaves are turned over around their folds,
// so edges along the fold change sides and the others do not.
Edge turned_over(Edge edge, bool across) { return is_across(edge) == across ? opposite(edge) : edge; }

bool is_front(const Leaf& leaf) { return leaf.depth == 0; }

// The edge of a front leaf that a cut-back moves: of a gate the doors' meeting edges.
std::optional<Edge> trimmed_edge(const Base& base, const Folding& folding, const Leaf& leaf) {
  if (!base.cut_back || !is_front(leaf)) return std::nullopt;
  if (base.fold.value != Fold::gate) return base.cut_back->edge;
  const bool low = &leaf == &folding.leaves.front();
  if (folding.across) return low ? Edge::right : Edge::left;
  return low ? Edge::bottom : Edge::top;
}

Face face_toward(const Base& base, const Folding& folding, const Leaf& leaf) {
  Face face;
  face.name = leaf.toward;
  face.frame = closed;
  face.whole = base.front.size;
  (folding.across ? face.whole.width : face.whole.height) = leaf.length;
  (folding.across ? face.left : face.top) = leaf.closed_from;
  face.closed_left = face.left;
  face.closed_top = face.top;
  face.trimmed = trimmed_edge(base, folding, leaf);
  face.depth = leaf.depth;
  return face;
}

Face face_away(const Base& base, const Folding& folding, const Leaf& leaf) {
  Face face = face_toward(base, folding, leaf);
  face.name = leaf.away;
  face.frame = leaf.away;
  face.left = face.top = 0;
  // To look at the back the whole card is turned over sideways, whatever its fold.
  const bool sideways = leaf.away == "back" || folding.across;
  face.turned = sideways ? Turned::across : Turned::down;
  if (face.trimmed) face.trimmed = turned_over(*face.trimmed, sideways);
  return face;
}

// What the front leaves open of what is behind it, along, before any cutting back.
struct Opening {
  Rational from, to;
};
Opening opening_of(const Base& base, const Folding& folding) {
  const Rational& whole = folding.across ? base.front.size.width : base.front.size.height;
  if (base.fold.value == Fold::flat) return {whole, whole};
  if (base.fold.value == Fold::gate)
    return {folding.leaves.front().length, folding.leaves.back().closed_from};
  const auto front = std::find_if(folding.leaves.begin(), folding.leaves.end(), is_front);
  const Rational end = front->closed_from + front->length;
  const Edge free = free_edge(base);
  const bool free_low = free == Edge::left || free == Edge::top;
  // A z may be open beyond the fold of its front too, and a front that is cut back is open at its free edge.
  const bool beyond_fold = !base.cut_back && base.fold.value == Fold::z;
  if (free_low != (beyond_fold && (free_low ? end < whole : front->closed_from > 0)))
    return {0, front->closed_from};
  return {end, whole};
}

// The strip of the page behind that the front lays open, as it is before any cutting back.
Face reveal_face(const Base& base, const Folding& folding) {
  const Opening open = opening_of(base, folding);
  Face face;
  face.name = "reveal";
  face.frame = closed;
  face.whole = base.front.size;
  const bool across_the_fold = base.cut_back && is_across(base.cut_back->edge) != folding.across;
  if (across_the_fold) {
    // Another edge than the free one is cut back, of a front that is as long as what is behind it.
    const Edge edge = base.cut_back->edge;
    (folding.across ? face.whole.height : face.whole.width) = 0;
    if (edge == Edge::right) face.left = base.front.size.width;
    if (edge == Edge::bottom) face.top = base.front.size.height;
    face.trimmed = opposite(edge);
  } else {
    (folding.across ? face.whole.width : face.whole.height) = open.to - open.from;
    (folding.across ? face.left : face.top) = open.from;
    if (base.cut_back && base.fold.value != Fold::gate) face.trimmed = opposite(base.cut_back->edge);
  }
  face.closed_left = face.left;
  face.closed_top = face.top;
  return face;
}

// The foremost leaf behind the front leaves that covers some of a stretch along (a point, if it has no
// length).
const Leaf* leaf_behind(const Folding& folding, const Rational& from, const Rational& to, std::size_t depth) {
  const Leaf* found = nullptr;
  for (const Leaf& leaf : folding.leaves) {
    if (leaf.depth <= depth || leaf.closed_from > to || leaf.closed_from + leaf.length < from) continue;
    if (from < to && (leaf.closed_from == to || leaf.closed_from + leaf.length == from)) continue;
    if (found == nullptr || leaf.depth < found->depth) found = &leaf;
  }
  return found;
}

std::string page_of_reveal(const Base& base) {
  const Folding folding = folding_of(base);
  const Opening open = opening_of(base, folding);
  const Leaf* leaf = leaf_behind(folding, open.from, open.to, 0);
  return leaf == nullptr ? "inside" : leaf->toward;
}

}  // namespace

Edge free_edge(const Base& base) {
  const bool gate = base.fold.value == Fold::gate;
  if (base.opens && !gate) return base.opens->value;
  if (gate && base.opens) return is_across(base.opens->value) ? Edge::right : Edge::bottom;
  if (base.fold.value == Fold::top) return Edge::bottom;
  return base.fold.value == Fold::z ? Edge::left : Edge::right;
}

bool has_reveal(const Base& base) {
  if (base.fold.value == Fold::flat) return false;
  if (base.cut_back) return true;
  const Opening open = opening_of(base, folding_of(base));
  return open.from < open.to;
}

std::vector<Edge> edges_at_front(const Base& base) {
  const Folding folding = folding_of(base);
  if (base.fold.value == Fold::gate) {
    if (folding.across) return {Edge::left, Edge::right};
    return {Edge::top, Edge::bottom};
  }
  if (base.cut_back) return {opposite(base.cut_back->edge)};
  const bool opens_low = opening_of(base, folding).from == 0;
  if (folding.across) return {opens_low ? Edge::right : Edge::left};
  return {opens_low ? Edge::bottom : Edge::top};
}

std::vector<Face> faces(const Base& base) {
  const Folding folding = folding_of(base);
  std::vector<Face> all;
  if (base.fold.value == Fold::gate) {
    Face front;
    front.name = "front";
    front.frame = closed;
    front.whole = base.front.size;
    all.push_back(std::move(front));
  }
  std::vector<const Leaf*> leaves;
  for (const Leaf& leaf : folding.leaves) leaves.push_back(&leaf);
  std::stable_sort(leaves.begin(), leaves.end(),
                   [](const Leaf* a, const Leaf* b) { return a->depth < b->depth; });
  for (const Leaf* leaf : leaves) all.push_back(face_toward(base, folding, *leaf));
  for (const Leaf* leaf : leaves) all.push_back(face_away(base, folding, *leaf));
  if (has_reveal(base)) all.push_back(reveal_face(base, folding));
  return all;
}

std::vector<std::string> face_names(const Base& base) {
  const auto gate = [](const std::string& low, const std::string& high) {
    return std::vector<std::string>{"front",
                                    low + " front",
                                    high + " front",
                                    "inside",
                                    "inside " + low + " front",
                                    "inside " + high + " front",
                                    "back"};
  };
  std::vector<std::string> names;
  switch (base.fold.value) {
    case Fold::flat:
      return {"front", "back"};
    case Fold::side:
    case Fold::top:
      names = {"front", "inside", "inside front", "back"};
      break;
    case Fold::gate:
      names = folds_across(base) ? gate("left", "right") : gate("top", "bottom");
      break;
    case Fold::z:
      names = {"front", "inside front", "inside", "inside middle", "inside back", "back"};
      break;
    case Fold::tri:
      names = {"front", "inside front", "inside", "flap", "inside flap", "back"};
      break;
  }
  if (has_reveal(base)) names.emplace_back("reveal");
  return names;
}

std::string face_behind(const Base& base, const std::string& face) {
  const Folding folding = folding_of(base);
  if (base.fold.value == Fold::gate && face == "front") return "inside";
  const auto leaf = std::find_if(folding.leaves.begin(), folding.leaves.end(),
                                 [&](const Leaf& one) { return one.toward == face; });
  if (leaf == folding.leaves.end()) return face;
  const Leaf* behind = leaf_behind(folding, leaf->closed_from, leaf->closed_from + leaf->length, leaf->depth);
  return behind == nullptr ? face : behind->toward;
}

std::string face_of(const Design& design, const std::string& on) {
  if (on == "reveal") return page_of_reveal(design.base);
  for (const Piece& piece : design.pieces) {
    if (piece.name.value != on) continue;
    const std::string face = face_of(design, piece.on.value);
    const bool in_a_face = face == piece.on.value;
    return piece.kind == Piece::Kind::window && in_a_face ? face_behind(design.base, face) : face;
  }
  return on;
}

}  // namespace evenmat
