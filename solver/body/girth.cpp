// Lines differ only in which boxes they cross, so few need to be looked at: those where no box can be added
// without another being left out. The section along one is a row of steps, and its convex outline is found
// from left to right (Andrew's monotone chain, 1979).
#include "solver/body/girth.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace evenmat {

namespace {

// A box as lines along `from` to `to` see it, which are those between `first` and `last`.
struct Step {
  Rational first, last;
  Rational from, to;
  Rational height;
};

std::vector<Step> steps_of(const std::vector<Pad>& pads, bool down) {
  std::vector<Step> steps;
  for (const Pad& pad : pads) {
    if (pad.width <= 0 || pad.height <= 0) continue;
    Step step{pad.top, pad.top + pad.height, pad.left, pad.left + pad.width, pad.thickness};
    if (down) {
      std::swap(step.first, step.from);
      std::swap(step.last, step.to);
    }
    steps.push_back(std::move(step));
  }
  return steps;
}

struct Corner {
  Rational along, up;
};

// Twice the area of the triangle, positive where the way over b turns left.
Rational turn(const Corner& a, const Corner& b, const Corner& c) {
  return (b.along - a.along) * (c.up - a.up) - (b.up - a.up) * (c.along - a.along);
}

// The upper side of the convex outline, from the foot on the left to the foot on the right.
std::vector<Corner> outline_over(const std::vector<const Step*>& crossed) {
  struct End {
    const Rational* along;
    const Rational* height;
    bool rises;
  };
  std::vector<End> ends;
  for (const Step* step : crossed) {
    ends.push_back({&step->from, &step->height, true});
    ends.push_back({&step->to, &step->height, false});
  }
  std::sort(ends.begin(), ends.end(), [](const End& a, const End& b) { return *a.along < *b.along; });

  std::vector<Corner> outline{{*ends.front().along, 0}};
  const auto add = [&](Corner corner) {
    while (outline.size() > 1 && turn(outline[outline.size() - 2], outline.back(), corner) >= 0) {
      outline.pop_back();
    }
    outline.push_back(std::move(corner));
  };
  Rational height;
  for (std::size_t i = 0; i < ends.size();) {
    const Rational& along = *ends[i].along;
    const Rational before = height;
    for (; i < ends.size() && *ends[i].along == along; ++i) {
      height += ends[i].rises ? *ends[i].height : Rational(-*ends[i].height);
    }
    add({along, std::max(before, height)});
  }
  add({*ends.back().along, 0});
  return outline;
}

// In units of 1/fine: never below the root of `square`, less than one unit above it, and exact where the root
// is rational.
Rational root_above(const Rational& square, const Integer& fine) {
  const Integer over = sqrt(numerator(square));
  const Integer under = sqrt(denominator(square));
  if (over * over == numerator(square) && under * under == denominator(square)) {
    return Rational(over) / Rational(under);
  }
  return Rational(sqrt(floor(square * (fine * fine))) + 1) / Rational(fine);
}

Rational half_around(const std::vector<Corner>& outline, const Integer& fine) {
  Rational around = outline.back().along - outline.front().along;
  for (std::size_t i = 1; i < outline.size(); ++i) {
    const Rational along = outline[i].along - outline[i - 1].along;
    const Rational up = outline[i].up - outline[i - 1].up;
    around += root_above(along * along + up * up, fine);
  }
  return around / 2;
}

}  // namespace

Rational half_girth(const std::vector<Pad>& pads, bool down, const Rational& within) {
  const std::vector<Step> steps = steps_of(pads, down);
  // An outline has at most two corners a step and two feet, so fewer roots than twice this; half of them
  // counts.
  const Integer fine = floor(Rational(steps.size() + 1) / within) + 1;

  std::vector<const Step*> by_first;
  std::vector<const Step*> by_last;
  for (const Step& step : steps) {
    by_first.push_back(&step);
    by_last.push_back(&step);
  }
  const auto earlier = [](Rational Step::*at) {
    return [at](const Step* a, const Step* b) { return a->*at < b->*at; };
  };
  std::stable_sort(by_first.begin(), by_first.end(), earlier(&Step::first));
  std::stable_sort(by_last.begin(), by_last.end(), earlier(&Step::last));

  Rational most;
  std::size_t met = 0;  // of by_first
  for (std::size_t left = 0; left < by_last.size() && met < by_first.size();) {
    // All that the lines before the next end can cross, and then, past it, all that ends before the next
    // start.
    const Rational& end = by_last[left]->last;
    while (met < by_first.size() && by_first[met]->first < end) ++met;
    std::vector<const Step*> crossed;
    for (std::size_t i = 0; i < met; ++i) {
      if (by_first[i]->last >= end) crossed.push_back(by_first[i]);
    }
    most = std::max(most, half_around(outline_over(crossed), fine));
    if (met == by_first.size()) break;
    while (left < by_last.size() && by_last[left]->last <= by_first[met]->first) ++left;
  }
  return most;
}

}  // namespace evenmat
