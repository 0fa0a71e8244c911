#include "cli/on_blank.h"

#include <algorithm>

#include "model/faces.h"

namespace evenmat {
namespace {

const Face* find_face(const std::vector<Face>& all, const std::string& name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Face& face) { return face.name == name; });
  return found == all.end() ? nullptr : &*found;
}

// From a face's own frame into the closed card's.
Patch out_of(const Face& face, Patch patch) {
  if (face.turned == Turned::no) return patch;
  patch.left += face.closed_left;
  patch.top += face.closed_top;
  if (face.turned == Turned::across) {
    patch.left = 2 * face.closed_left + face.whole.width - patch.left - patch.size.width;
  } else {
    patch.top = 2 * face.closed_top + face.whole.height - patch.top - patch.size.height;
  }
  return patch;
}

Patch into(const Face& face, Patch patch) {
  if (face.turned == Turned::no) return patch;
  patch.left -= face.closed_left;
  patch.top -= face.closed_top;
  if (face.turned == Turned::across) {
    patch.left = face.whole.width - patch.left - patch.size.width;
  } else {
    patch.top = face.whole.height - patch.top - patch.size.height;
  }
  return patch;
}

// What of a patch is on a leaf, closed, along the way the leaves follow each other; nothing: no length.
Patch clipped(const Leaf& leaf, bool across, Patch patch) {
  Rational& from = across ? patch.left : patch.top;
  Rational& length = across ? patch.size.width : patch.size.height;
  const Rational end = std::min(Rational(from + length), Rational(leaf.closed_from + leaf.length));
  from = std::max(from, leaf.closed_from);
  length = std::max(Rational(0), Rational(end - from));
  return patch;
}

}  // namespace

Patch patch_of(const PlacedPiece& placed) {
  return {placed.left, placed.top, {placed.box_width, placed.box_height}};
}

std::vector<OnBlank> on_blank(const Design& design, const Folding& folding, const std::string& face,
                              const Patch& patch) {
  const std::vector<Face> all = faces(design.base);
  const std::string name = face == "reveal" ? face_of(design, face) : face;
  const bool doors = design.base.fold.value == Fold::gate && name == "front";
  const Face* own = find_face(all, name);
  std::vector<OnBlank> parts;
  if (own == nullptr) return parts;
  for (const Leaf& leaf : folding.leaves) {
    if (doors ? leaf.depth != 0 : leaf.toward != name && leaf.away != name) continue;
    const Face* up = find_face(all, leaf.toward_up ? leaf.toward : leaf.away);
    if (up == nullptr) continue;
    Patch lies = patch;
    if (doors) lies = clipped(leaf, folding.across, lies);
    if (own->name != up->name) lies = into(*up, out_of(*own, lies));
    lies.left -= up->left;
    lies.top -= up->top;
    (folding.across ? lies.left : lies.top) += leaf.from;
    if (lies.size.width > 0 && lies.size.height > 0) parts.push_back({&leaf, lies});
  }
  return parts;
}

}  // namespace evenmat
