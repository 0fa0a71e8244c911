// Every fold is written down once, in its natural order (opening right or down; a z to the left or up), with
// places along the way its leaves follow each other; a base that opens the other way is its mirror image.
#include "model/folding.h"

#include <algorithm>
#include <utility>

#include "model/faces.h"
#include "model/words.h"

namespace evenmat {
namespace {

const Rational& along(const Size& size, bool across) { return across ? size.width : size.height; }

// Whether the base opens the other way than its fold usually does.
bool is_mirrored(const Base& base) {
  const Edge edge = free_edge(base);
  const bool opens_low = edge == Edge::left || edge == Edge::top;
  switch (base.fold.value) {
    case Fold::side:
    case Fold::top:
    case Fold::tri:
      return opens_low;
    case Fold::z:
      return !opens_low;
    case Fold::flat:
    case Fold::gate:
      break;
  }
  return false;
}

std::vector<Rational> usual_lengths(const Base& base, const Rational& whole) {
  switch (base.fold.value) {
    case Fold::flat:
      return {whole};
    case Fold::side:
    case Fold::top:
      return {whole, whole};
    case Fold::gate: {
      const Rational door = (whole - base.allowance.doors) / 2;
      return {door, whole, door};
    }
    case Fold::z:
      return {whole, whole, whole};
    case Fold::tri:
      break;
  }
  return {whole, whole, whole - base.allowance.flap};
}

std::vector<Rational> in_natural_order(const Base& base) {
  std::vector<Rational> lengths = leaf_lengths(base);
  if (is_mirrored(base)) std::reverse(lengths.begin(), lengths.end());
  return lengths;
}

// The leaves in their natural order, closed; where they lie on the blank is not settled yet.
std::vector<Leaf> natural_leaves(const Base& base, const std::vector<Rational>& w) {
  const bool across = folds_across(base);
  const Rational& whole = along(base.front.size, across);
  const auto leaf = [&](std::size_t i, std::string name, std::string toward, std::string away, bool toward_up,
                        const Rational& closed_from, std::size_t depth) {
    return Leaf{std::move(name), std::move(toward), std::move(away), 0, w[i], toward_up, closed_from, depth};
  };
  switch (base.fold.value) {
    case Fold::flat:
      return {leaf(0, "card", "front", "back", true, 0, 0)};
    case Fold::side:
    case Fold::top:
      return {leaf(0, "front", "front", "inside front", false, 0, 0),
              leaf(1, "back leaf", "inside", "back", true, 0, 1)};
    case Fold::gate: {
      const std::string low = across ? "left" : "top";
      const std::string high = across ? "right" : "bottom";
      return {leaf(0, low + " door", low + " front", "inside " + low + " front", false, 0, 0),
              leaf(1, "back leaf", "inside", "back", true, 0, 1),
              leaf(2, high + " door", high + " front", "inside " + high + " front", false, whole - w[2], 0)};
    }
    case Fold::z:
      return {leaf(0, "front", "front", "inside front", true, w[1] - w[0], 0),
              leaf(1, "middle leaf", "inside", "inside middle", false, 0, 1),
              leaf(2, "back leaf", "inside back", "back", true, 0, 2)};
    case Fold::tri:
      break;
  }
  return {leaf(0, "front", "front", "inside front", false, 0, 0),
          leaf(1, "back leaf", "inside", "back", true, 0, 2),
          leaf(2, "flap", "flap", "inside flap", false, w[1] - w[2], 1)};
}

// The folds between the leaves, in natural order: which way what lies beyond them turns, and when.
std::vector<ScoreLine> natural_folds(Fold fold) {
  switch (fold) {
    case Fold::flat:
      return {};
    case Fold::side:
    case Fold::top:
      return {{0, true, false, 0}};
    case Fold::gate:
      return {{0, true, false, 0}, {0, true, false, 1}};
    case Fold::z:
      return {{0, false, false, 1}, {0, true, false, 0}};
    case Fold::tri:
      break;
  }
  return {{0, true, false, 1}, {0, true, false, 0}};
}

// An extra score turns against the fold beside it: an easel's front stands against its back.
void add_extra_scores(Folding& folding, const Base& base) {
  const std::vector<ScoreLine> folds = folding.scores;
  std::size_t turn = folds.size();
  for (const Stated<Rational>& extra : base.scores) {
    // Of two as near the one that is folded first, so that a mirror image stays one.
    const auto nearest = std::min_element(folds.begin(), folds.end(), [&](const auto& a, const auto& b) {
      return std::pair(Rational(abs(a.at - extra.value)), a.turn) <
             std::pair(Rational(abs(b.at - extra.value)), b.turn);
    });
    folding.scores.push_back({extra.value, nearest != folds.end() && !nearest->up, true, turn++});
  }
  std::stable_sort(folding.scores.begin(), folding.scores.end(),
                   [](const ScoreLine& a, const ScoreLine& b) { return a.at < b.at; });
}

}  // namespace

bool folds_across(const Base& base) {
  if (base.fold.value == Fold::top) return false;
  if (base.fold.value == Fold::side || base.fold.value == Fold::flat) return true;
  return is_across(free_edge(base));
}

std::vector<Rational> leaf_lengths(const Base& base) {
  std::vector<Rational> lengths = usual_lengths(base, along(base.front.size, folds_across(base)));
  if (base.leaves.size() == lengths.size()) {
    std::transform(base.leaves.begin(), base.leaves.end(), lengths.begin(),
                   [](const Stated<Rational>& leaf) { return leaf.value; });
    return lengths;
  }
  if (is_mirrored(base)) std::reverse(lengths.begin(), lengths.end());
  return lengths;
}

Folding folding_of(const Base& base) {
  Folding folding;
  folding.across = folds_across(base);
  folding.front_up = base.fold.value == Fold::z || base.fold.value == Fold::flat;
  folding.leaves = natural_leaves(base, in_natural_order(base));
  folding.scores = natural_folds(base.fold.value);
  if (is_mirrored(base)) {
    const Rational& whole = along(base.front.size, folding.across);
    std::reverse(folding.leaves.begin(), folding.leaves.end());
    std::reverse(folding.scores.begin(), folding.scores.end());
    for (Leaf& leaf : folding.leaves) leaf.closed_from = whole - leaf.closed_from - leaf.length;
  }
  Rational reached = 0;
  for (std::size_t i = 0; i < folding.leaves.size(); ++i) {
    if (i > 0) {
      folding.scores[i - 1].at = reached + base.allowance.fold / 2;
      reached += base.allowance.fold;
    }
    folding.leaves[i].from = reached;
    reached += folding.leaves[i].length;
  }
  folding.blank = base.front.size;
  (folding.across ? folding.blank.width : folding.blank.height) = reached;
  add_extra_scores(folding, base);
  return folding;
}

std::string trouble_with_leaves(const Base& base, Unit unit) {
  const bool across = folds_across(base);
  const Rational& whole = along(base.front.size, across);
  const std::vector<Rational> w = in_natural_order(base);
  const auto told = [&](const Rational& length) { return length_with_unit(length, unit); };
  if (std::any_of(w.begin(), w.end(), [](const Rational& length) { return length <= 0; })) {
    return base.leaves.empty()
               ? "The front is too narrow to be folded so. State a larger front, or leaves of "
                 "your own."
               : "A leaf of 0 or less is no leaf. State how long each one is.";
  }
  const auto closes_to = [&](const Rational& reach) {
    return "Closed, a base with these leaves is " + told(reach) + (across ? " wide" : " tall") +
           ", and the front is stated as " + in_quotes(base.front.text) +
           ". State leaves of which the longest is " + told(whole) + ", or another front.";
  };
  switch (base.fold.value) {
    case Fold::flat:
      return {};
    case Fold::side:
    case Fold::top: {
      const Rational reach = std::max(w[0], w[1]);
      return reach == whole ? std::string() : closes_to(reach);
    }
    case Fold::gate:
      if (w[1] != whole) return closes_to(w[1]);
      if (w[0] + w[2] > whole) {
        return "The two doors together are " + told(w[0] + w[2]) +
               ", wider than the card they close over, which is " + told(whole) +
               ": they would lie over each other by " + told(w[0] + w[2] - whole) + ". State narrower doors.";
      }
      return {};
    case Fold::z: {
      if (w[0] > w[1]) {
        return "The front of this z is " + told(w[0]) + " and the leaf it folds back on " + told(w[1]) +
               ", so it would stick out past the fold. State a shorter front leaf.";
      }
      const Rational reach = std::max(w[1], w[2]);
      return reach == whole ? std::string() : closes_to(reach);
    }
    case Fold::tri:
      break;
  }
  const Rational reach = std::max(w[0], w[1]);
  if (reach != whole) return closes_to(reach);
  if (w[2] > w[1]) {
    return "The flap is " + told(w[2]) + " and folds in on a page of " + told(w[1]) +
           ", so the card would not close. State a shorter flap.";
  }
  return {};
}

}  // namespace evenmat
