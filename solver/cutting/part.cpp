// What follows from a cut tree by itself: where its parts lie and what they give. Nothing of how it is made.
#include "solver/cutting/part.h"

#include <algorithm>

namespace evenmat::cutting {

namespace {

void count_pieces(const Part& part, std::vector<int>& counts) {
  if (part.what == Part::What::piece) ++counts[part.kind];
  for (const Part& inner : part.parts) count_pieces(inner, counts);
}

}  // namespace

void place_parts(Part& root, Measure blade) {
  Measure x = root.x, y = root.y;
  for (Part& part : root.parts) {
    part.x = x;
    part.y = y;
    place_parts(part, blade);
    if (root.across) {
      y += part.height + blade;
    } else {
      x += part.width + blade;
    }
  }
}

std::vector<int> pieces_in(const Part& root, std::size_t kinds) {
  std::vector<int> counts(kinds, 0);
  count_pieces(root, counts);
  return counts;
}

bool gives_any(const Part& root, const std::vector<bool>& kinds) {
  if (root.what == Part::What::piece) return kinds[root.kind];
  return std::any_of(root.parts.begin(), root.parts.end(),
                     [&](const Part& part) { return gives_any(part, kinds); });
}

}  // namespace evenmat::cutting
