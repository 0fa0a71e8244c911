// A strip of paper folded by its scores, one after the other: where each leaf ends, which side of it is up
// and what lies over what. Follows the paper alone, and knows of no fold how it closes.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "model/folding.h"
#include "tests/catch.h"

namespace evenmat::testing {

struct StripLeaf {
  // A place u along the blank lies at `shift` + u, or turned over at `shift` - u.
  Rational shift = 0;
  bool turned_over = false;
  int level = 0;  // the larger the nearer to someone who looks down on it
  Rational from, to;

  [[nodiscard]] Rational at(const Rational& along_blank) const {
    return turned_over ? Rational(shift - along_blank) : Rational(shift + along_blank);
  }
};

// The leaf that a maker looks at who faces the closed card.
inline std::size_t front_leaf_of(const Folding& folding) {
  for (std::size_t i = 0; i < folding.leaves.size(); ++i) {
    const std::string& face = folding.leaves[i].toward;
    if (face == "front" || face == "left front" || face == "top front") return i;
  }
  FAIL("no leaf is the front");
  return 0;
}

// The strip closed and laid down with the front up, moved so that its first edge is at 0.
inline std::vector<StripLeaf> closed_strip(const Folding& folding) {
  std::vector<StripLeaf> strip(folding.leaves.size());
  std::vector<ScoreLine> folds;
  for (const ScoreLine& score : folding.scores) {
    if (!score.extra) folds.push_back(score);
  }
  REQUIRE(folds.size() + 1 == strip.size());
  for (std::size_t turn = 0; turn < folds.size(); ++turn) {
    const auto fold =
        std::find_if(folds.begin(), folds.end(), [&](const ScoreLine& one) { return one.turn == turn; });
    REQUIRE(fold != folds.end());
    const auto beyond = strip.begin() + (fold - folds.begin()) + 1;
    const StripLeaf before = *(beyond - 1);
    const Rational crease = before.at(fold->at);
    // What is beyond turns over about the crease, above or beneath all that is before it.
    const bool above = fold->up != before.turned_over;
    const auto by_level = [](const StripLeaf& a, const StripLeaf& b) { return a.level < b.level; };
    const int highest = std::max_element(strip.begin(), beyond, by_level)->level;
    const int lowest = std::min_element(strip.begin(), beyond, by_level)->level;
    const int top = std::max_element(beyond, strip.end(), by_level)->level;
    const int bottom = std::min_element(beyond, strip.end(), by_level)->level;
    for (auto leaf = beyond; leaf != strip.end(); ++leaf) {
      leaf->shift = 2 * crease - leaf->shift;
      leaf->turned_over = !leaf->turned_over;
      leaf->level = above ? highest + 1 + top - leaf->level : lowest - 1 - (leaf->level - bottom);
    }
  }
  const bool front_shows = strip[front_leaf_of(folding)].turned_over != folding.front_up;
  if (!front_shows) {
    for (StripLeaf& leaf : strip) {
      leaf.shift = -leaf.shift;
      leaf.turned_over = !leaf.turned_over;
      leaf.level = -leaf.level;
    }
  }
  for (std::size_t i = 0; i < strip.size(); ++i) {
    const Rational a = strip[i].at(folding.leaves[i].from);
    const Rational b = strip[i].at(folding.leaves[i].from + folding.leaves[i].length);
    strip[i].from = std::min(a, b);
    strip[i].to = std::max(a, b);
  }
  Rational first = strip.front().from;
  for (const StripLeaf& leaf : strip) first = std::min(first, leaf.from);
  for (StripLeaf& leaf : strip) {
    leaf.shift -= first;
    leaf.from -= first;
    leaf.to -= first;
  }
  return strip;
}

}  // namespace evenmat::testing
