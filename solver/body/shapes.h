// The outlines and openings of sheets alike, and which sheets lie at a place among them: what every sweep
// over sheets needs, and no sweep.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <queue>
#include <vector>

#include "model/rational.h"
#include "solver/body/sheets.h"

namespace evenmat {

// An outline or an opening of a sheet.
struct Part {
  std::size_t sheet = 0;
  bool opening = false;
};

inline constexpr std::size_t nothing = std::numeric_limits<std::size_t>::max();

// The sheets that lie at the place a sweep has come to: within the outline, in no opening.
class Covering {
 public:
  explicit Covering(std::size_t sheets) : within_(sheets) {}

  // The sweep enters or leaves a part. 1 when its sheet lies there from now on, -1 when no longer, else 0.
  int change(const Part& part, bool enters) {
    const bool before = covers(part.sheet);
    (part.opening ? within_[part.sheet].openings : within_[part.sheet].outlines) += enters ? 1 : -1;
    const bool after = covers(part.sheet);
    if (after && !before) candidates_.push(part.sheet);
    count_ += static_cast<int>(after) - static_cast<int>(before);
    return static_cast<int>(after) - static_cast<int>(before);
  }
  [[nodiscard]] bool covers(std::size_t sheet) const {
    return within_[sheet].outlines > 0 && within_[sheet].openings == 0;
  }
  [[nodiscard]] bool any() const { return count_ > 0; }
  // The lowest number; `nothing` where none lies.
  std::size_t uppermost() {
    while (!candidates_.empty() && !covers(candidates_.top())) candidates_.pop();
    return candidates_.empty() ? nothing : candidates_.top();
  }

 private:
  struct Within {
    int outlines = 0;
    int openings = 0;
  };
  std::vector<Within> within_;
  int count_ = 0;
  // All that lie, and some that did: they are dropped when they come up.
  std::priority_queue<std::size_t, std::vector<std::size_t>, std::greater<>> candidates_;
};

struct Shape {
  Quad corners;  // in the order around that makes its area positive
  Part part;
};

// Of all outlines and openings with an area; of a sheet without one none.
std::vector<Shape> shapes_of(const std::vector<Sheet>& sheets);

// Positive for one order around, negative for the other.
Rational area(const Quad& quad);

bool all_upright(const std::vector<Shape>& shapes);

// Of all corners along x or y, from the lowest, each once.
std::vector<Rational> positions(const std::vector<Shape>& shapes, Rational Point::*axis);
// Which of those it is.
std::uint32_t rank(const std::vector<Rational>& sorted, const Rational& position);

// The least by which all values become whole, unless it has more bits than `most_bits`.
std::optional<Integer> common_denominator(const std::vector<Rational>& values, unsigned most_bits);

}  // namespace evenmat
