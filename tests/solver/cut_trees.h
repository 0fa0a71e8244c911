// Cut trees to test with: put together from their parts, or generated.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "solver/cutting/part.h"
#include "tests/solver/dice.h"

namespace evenmat::testing {

using cutting::Layout;
using cutting::Measure;
using cutting::Part;

inline Part piece(Measure width, Measure height, std::size_t kind = 0) {
  Part part;
  part.what = Part::What::piece;
  part.width = width;
  part.height = height;
  part.kind = kind;
  return part;
}

inline Part waste(Measure width, Measure height) {
  Part part;
  part.width = width;
  part.height = height;
  return part;
}

// Parts one below another; beside one another.
inline Part cut_across(std::vector<Part> parts, Measure blade = 0) {
  Part cut;
  cut.what = Part::What::cut;
  cut.across = true;
  cut.width = parts.front().width;
  cut.height = blade * static_cast<Measure>(parts.size() - 1);
  for (const Part& part : parts) cut.height += part.height;
  cut.parts = std::move(parts);
  return cut;
}
inline Part cut_down(std::vector<Part> parts, Measure blade = 0) {
  Part cut;
  cut.what = Part::What::cut;
  cut.height = parts.front().height;
  cut.width = blade * static_cast<Measure>(parts.size() - 1);
  for (const Part& part : parts) cut.width += part.width;
  cut.parts = std::move(parts);
  return cut;
}

inline std::vector<Part> so_many(std::size_t count, const Part& part) { return {count, part}; }

inline std::vector<Part> operator+(std::vector<Part> parts, const Part& last) {
  parts.push_back(last);
  return parts;
}

// Layouts of one paper as a planner might give them, in any order of parts. Some have a trimmed edge, some a
// blade loss; some parts are cut alike, some only look alike.
class CutTrees {
 public:
  explicit CutTrees(unsigned seed) : dice_(seed), blade(dice_.one_in(3) ? dice_.between(1, 2) : 0) {
    for (int count = dice_.between(1, 5); count > 0; --count) {
      Layout layout;
      layout.times = dice_.between(1, 4);
      layout.root =
          dice_.one_in(4) ? trimmed_sheet() : any(dice_.between(20, 200), dice_.between(20, 200), 5);
      layouts.push_back(layout);
    }
    for (std::size_t i = 0; i < kinds_.size(); ++i) first.push_back(dice_.one_in(4));
    hold = dice_.between(0, 20);
  }

 private:
  Dice dice_;
  std::map<std::pair<Measure, Measure>, std::size_t> kinds_;

 public:
  Measure blade = 0, hold = 0;
  std::vector<Layout> layouts;
  std::vector<bool> first;

 private:
  Part trimmed_sheet() {
    const int width = dice_.between(20, 200);
    Part sheet =
        cut_across({any(width, dice_.between(20, 200), 4), waste(width, dice_.between(1, 8))}, blade);
    sheet.order_matters = true;
    return sheet;
  }

  Part leaf(Measure width, Measure height) {
    if (dice_.one_in(4)) return waste(width, height);
    Part part = piece(width, height);
    if (const auto other = kinds_.find({height, width}); other != kinds_.end() && width != height) {
      part.kind = other->second;
      part.turned = true;
    } else {
      part.kind = kinds_.emplace(std::pair(width, height), kinds_.size()).first->second;
    }
    return part;
  }

  Part any(Measure width, Measure height, int depth) {
    return dice_.one_in(2) ? any(width, height, depth, true) : any(width, height, depth, false);
  }

  Part any(Measure width, Measure height, int depth, bool across) {
    const Measure whole = across ? height : width;
    const std::vector<Measure> sizes = depth == 0 || dice_.one_in(6) ? std::vector{whole} : cut_up(whole);
    if (sizes.size() < 2) return leaf(width, height);
    Part cut;
    cut.what = Part::What::cut;
    cut.width = width;
    cut.height = height;
    cut.across = across;
    for (const Measure size : sizes) {
      const Part* like = nullptr;
      for (const Part& part : cut.parts) {
        if (cutting::reach(part, across) == size && !dice_.one_in(3)) like = &part;
      }
      if (like != nullptr) {
        cut.parts.emplace_back(*like);
      } else if (size == 0) {
        cut.parts.push_back(across ? waste(width, 0) : waste(0, height));
      } else {
        cut.parts.push_back(across ? any(width, size, depth - 1, false) : any(size, height, depth - 1, true));
      }
    }
    return cut;
  }

  // Into few sizes, most of them several times, in any order.
  std::vector<Measure> cut_up(Measure whole) {
    std::vector<Measure> sizes;
    const std::vector<Measure> usual{3, 8, 21, 34, 55, dice_.between(2, 40)};
    while (true) {
      const Measure size = dice_.any_of(usual);
      const int most = dice_.between(1, 4);
      int count = 0;
      for (; count < most && whole > size + blade; ++count) {
        sizes.push_back(size);
        whole -= size + blade;
      }
      if (count == 0 || dice_.one_in(3)) break;
    }
    sizes.push_back(whole);
    dice_.shuffle(sizes);
    // At times the last cut leaves nothing but what the blade takes.
    if (blade > 0 && sizes.back() > blade && dice_.one_in(8)) {
      sizes.back() -= blade;
      sizes.push_back(0);
    }
    return sizes;
  }
};

}  // namespace evenmat::testing
