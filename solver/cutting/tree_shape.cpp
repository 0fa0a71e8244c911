#include "solver/cutting/tree_shape.h"

#include <algorithm>
#include <utility>

#include "solver/cutting/filled_sheet.h"

namespace evenmat::cutting {

void join_waste(Part& part, Measure blade) {
  if (part.what != Part::What::cut) return;
  std::vector<Part> kept;
  Part waste;
  bool some = false;
  for (Part& one : part.parts) {
    if (one.what != Part::What::waste) {
      kept.push_back(std::move(one));
    } else if (!some) {
      waste = one;
      some = true;
    } else if (part.across) {
      waste.height += one.height + blade;
    } else {
      waste.width += one.width + blade;
    }
  }
  if (kept.empty()) {
    part.what = Part::What::waste;
    part.parts.clear();
    return;
  }
  if (some) kept.push_back(std::move(waste));
  part.parts = std::move(kept);
}

namespace {

void give_up(Part& part, std::vector<int>& counts, Measure blade) {
  if (part.what == Part::What::piece) {
    if (counts[part.kind] > 0) {
      --counts[part.kind];
    } else {
      part.what = Part::What::waste;
      part.turned = false;
    }
  }
  for (Part& one : part.parts) give_up(one, counts, blade);
  join_waste(part, blade);
}

bool keeps(const Part& part, const Job& job, const CutLimits& limits) {
  if (part.what == Part::What::waste) return part.width >= 0 && part.height >= 0;
  if (part.width <= 0 || part.height <= 0) return false;
  if (part.what != Part::What::cut) return true;
  if ((part.across ? part.width : part.height) + job.blade > limits.longest) return false;
  Measure room = reach(part, part.across) + job.blade;
  for (const Part& one : part.parts) {
    const Measure length = reach(one, part.across) + job.blade;
    if (one.what == Part::What::waste && !limits.is_trim(length)) return false;
    if (reach(one, !part.across) != reach(part, !part.across)) return false;
    room -= length;
    if (!keeps(one, job, limits)) return false;
  }
  return room == 0;
}

void sign(const Part& part, std::vector<Measure>& out) {
  out.push_back(part.what == Part::What::cut     ? (part.across ? -1 : -2)
                : part.what == Part::What::piece ? static_cast<Measure>(part.kind)
                                                 : -3);
  out.push_back(part.width);
  out.push_back(part.height);
  std::vector<std::vector<Measure>> inner;
  for (const Part& one : part.parts) inner.push_back(signature(one));
  std::sort(inner.begin(), inner.end());
  for (const std::vector<Measure>& one : inner) out.insert(out.end(), one.begin(), one.end());
  if (!inner.empty()) out.push_back(-4);
}

}  // namespace

void give_up_pieces(Part& root, std::vector<int>& counts, Measure blade) {
  give_up(root, counts, blade);
  place_parts(root, blade);
}

bool keeps_limits(const Part& root, const Job& job) { return keeps(root, job, limits_of(job)); }

std::vector<Measure> signature(const Part& root) {
  std::vector<Measure> out;
  sign(root, out);
  return out;
}

}  // namespace evenmat::cutting
