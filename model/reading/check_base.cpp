// What the keys of a base mean together: leaves that make its front, an edge that opens, what a cut-back
// leaves, scores on the blank. Reading each key is elsewhere.
#include <algorithm>

#include "model/faces.h"
#include "model/folding.h"
#include "model/reading/parts.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

const Rational& along(const Size& size, bool across) { return across ? size.width : size.height; }

// True if the base can open at the stated edge.
bool check_opens(const Base& base, Context& context) {
  const bool opens_across = is_across(base.opens->value);
  std::string trouble;
  if (base.fold.value == Fold::flat) {
    trouble = "A flat base does not open. Take the key out, or state a fold.";
  } else if (base.fold.value == Fold::side && !opens_across) {
    trouble = "A side fold opens left or right. Write one of these, or fold = \"top\" for the other way.";
  } else if (base.fold.value == Fold::top && opens_across) {
    trouble =
        "A top fold opens at the top or bottom. Write one of these, or fold = \"side\" for the other way.";
  }
  if (trouble.empty()) return true;
  context.mistake(base.opens->spot, trouble);
  return false;
}

std::string trouble_with_count(const Base& base) {
  const std::string stated = std::to_string(base.leaves.size());
  switch (base.fold.value) {
    case Fold::flat:
      return "A flat base has no leaves. Take the key out, or state a fold.";
    case Fold::side:
    case Fold::top:
      if (base.leaves.size() == 2) return {};
      return "A base folded once has 2 leaves, and here are " + stated + ". State two.";
    case Fold::gate:
    case Fold::z:
    case Fold::tri:
      break;
  }
  if (base.leaves.size() == 3) return {};
  return "This fold has 3 leaves, and here are " + stated +
         ". State each of them, in the order in which they lie on the blank.";
}

// The usual leaves leave no card only where so much is allowed for that nothing is left of the doors or flap.
Remark trouble_with_usual_leaves(const Base& base, const Stock& stock, Unit unit) {
  const bool across = folds_across(base);
  const std::string front = length_with_unit(along(base.front.size, across), unit);
  const char* measure = across ? " wide" : " tall";
  const StatedAllowance& stated = stock.allowance;
  if (base.fold.value == Fold::gate && stated.doors) {
    return {stated.doors->spot, "With " + length_with_unit(stated.doors->value, unit) +
                                    " between them nothing is left of the doors: the card is " + front +
                                    measure + ". Leave less between them, or state a larger front."};
  }
  if (base.fold.value == Fold::tri && stated.flap) {
    return {stated.flap->spot, "Shorter by " + length_with_unit(stated.flap->value, unit) +
                                   ", nothing is left of the flap: the card is " + front + measure +
                                   ". Make it shorter by less, or state a larger front."};
  }
  return {base.front.spot, trouble_with_leaves(base, unit)};
}

void check_fold_allowance(const Base& base, const Stock& stock, Context& context) {
  const std::vector<Rational> lengths = leaf_lengths(base);
  const Rational shortest = *std::min_element(lengths.begin(), lengths.end());
  if (!stock.allowance.fold || base.allowance.fold < shortest) return;
  context.mistake(
      stock.allowance.fold->spot,
      "A fold takes up no more than paper is thick, a few times over, and the shortest leaf here is " +
          length_with_unit(shortest, context.unit) + " long. State a smaller allowance.");
}

// True if the leaves make the front, as far as that is known.
bool check_leaves(const Base& base, const BaseSpots& spots, bool front_known, const Stock& stock,
                  Context& context) {
  if (spots.leaves) {
    if (std::string trouble = trouble_with_count(base); !trouble.empty()) {
      context.mistake(*spots.leaves, std::move(trouble));
      return false;
    }
  }
  if (!front_known) return true;
  std::string trouble = trouble_with_leaves(base, context.unit);
  if (trouble.empty()) {
    check_fold_allowance(base, stock, context);
    return true;
  }
  context.mistakes.push_back(spots.leaves ? Remark{*spots.leaves, std::move(trouble)}
                                          : trouble_with_usual_leaves(base, stock, context.unit));
  return false;
}

// The least that a wish leaves.
std::optional<Rational> least(const Wish& wish) {
  if (!wish.one_of.empty()) return wish.one_of.front();
  return wish.at_least;
}

// The shortest of the leaves in front: of a gate the narrower door.
Rational front_leaf(const Base& base) {
  const Folding folding = folding_of(base);
  std::optional<Rational> shortest;
  for (const Leaf& leaf : folding.leaves)
    if (leaf.depth == 0 && (!shortest || leaf.length < *shortest)) shortest = leaf.length;
  return shortest.value_or(0);
}

// Which edge cannot be cut back, and why; empty if the stated one can.
std::string trouble_with_cut_edge(const Base& base) {
  const Edge edge = base.cut_back->edge;
  const Edge free = free_edge(base);
  if (base.fold.value == Fold::gate) {
    if (is_across(edge) == is_across(free)) return {};
    return "The doors of a gate card are cut back where they meet. Write edge = " +
           in_quotes(edge_name(free)) + ", or leave the edge out.";
  }
  if (edge != opposite(free)) return {};
  return "The " + std::string(edge_name(edge)) + " edge of the front is at the fold. Cut back another edge.";
}

// Of a front leaf that is shorter than the card.
std::string trouble_with_short_front(const Base& base) {
  const Edge free = free_edge(base);
  if (base.fold.value == Fold::z) {
    return "The front leaf of this z is shorter than the card, so what is behind it shows beside it as it "
           "is. "
           "Take cut-back out, and state a shorter front leaf if more is to show.";
  }
  if (base.cut_back->edge == free) return {};
  return "The front leaf is shorter than the card and shows what is behind it at the " +
         std::string(edge_name(free)) + ". Cut back that edge, or state a front leaf as long as the card.";
}

// `shaped`: whether the leaves are known and make the front.
void check_cut_back(const Base& base, const BaseSpots& spots, bool shaped, Context& context) {
  const CutBack& cut = *base.cut_back;
  const Spot edge_spot = spots.cut_edge.value_or(cut.by.spot);
  if (base.fold.value == Fold::flat) {
    return context.mistake(
        cut.by.spot,
        "A flat base has no fold, so nothing opens that could be cut back. State a smaller front.");
  }
  if (std::string trouble = trouble_with_cut_edge(base); !trouble.empty())
    return context.mistake(edge_spot, std::move(trouble));
  if (!shaped) return;
  const bool gate = base.fold.value == Fold::gate;
  const bool from_free_edge = is_across(cut.edge) == folds_across(base);
  const Rational leaf = front_leaf(base);
  if (!gate && leaf < along(base.front.size, folds_across(base))) {
    if (std::string trouble = trouble_with_short_front(base); !trouble.empty())
      return context.mistake(base.fold.value == Fold::z ? cut.by.spot : edge_spot, std::move(trouble));
  }
  const Rational& whole = from_free_edge ? leaf : along(base.front.size, is_across(cut.edge));
  const auto cut_least = least(cut.by);
  if (!cut_least || *cut_least < whole) return;
  context.mistake(cut.by.spot, "Cut back by " + in_quotes(cut.by.text) + ", nothing is left of " +
                                   (gate             ? "a door that is "
                                    : from_free_edge ? "a front leaf that is "
                                                     : "a front that is ") +
                                   length_with_unit(whole, context.unit) +
                                   (is_across(cut.edge) ? " wide" : " tall") + ". Cut back less.");
}

void check_scores(const Base& base, Context& context) {
  Base unscored = base;
  unscored.scores.clear();
  const Folding folding = folding_of(unscored);
  const Rational& length = along(folding.blank, folding.across);
  const auto told = [&](const Rational& at) { return length_with_unit(at, context.unit); };
  for (std::size_t i = 0; i < base.scores.size(); ++i) {
    const Stated<Rational>& score = base.scores[i];
    const auto begin = base.scores.begin();
    const bool twice = std::any_of(begin, begin + static_cast<std::ptrdiff_t>(i),
                                   [&](const auto& other) { return other.value == score.value; });
    const bool on_fold = std::any_of(
        folding.scores.begin(), folding.scores.end(),
        [&](const ScoreLine& fold) { return 2 * abs(score.value - fold.at) <= base.allowance.fold; });
    if (score.value <= 0 || score.value >= length) {
      context.mistake(score.spot, "A score at " + told(score.value) + " is not on the blank, which is " +
                                      told(length) + (folding.across ? " wide" : " tall") +
                                      ". State one between its edges, from the " +
                                      (folding.across ? "left" : "top") + " one.");
    } else if (on_fold) {
      context.mistake(score.spot, "At " + told(score.value) +
                                      " the base folds, and is scored for it anyway. Take this score out, or "
                                      "state another place.");
    } else if (twice) {
      context.mistake(score.spot,
                      "A score at " + told(score.value) + " is stated twice. Take one of them out.");
    }
  }
}

}  // namespace

bool check_base(Base& base, const BaseSpots& spots, const Stock& stock, Context& context) {
  if (base.opens && !check_opens(base, context)) base.opens.reset();
  if (base.cut_back && !spots.cut_edge) base.cut_back->edge = free_edge(base);
  const bool front_known = base.front.size.width > 0;
  const bool leaves_fit = spots.leaves_known && check_leaves(base, spots, front_known, stock, context);
  const bool shaped = leaves_fit && front_known;
  if (base.cut_back) {
    check_cut_back(base, spots, shaped, context);
    // Both doors are cut back, whichever of their meeting edges is named.
    if (base.fold.value == Fold::gate) base.cut_back->edge = free_edge(base);
  }
  if (shaped) check_scores(base, context);
  return leaves_fit && (front_known || !spots.leaves);
}

}  // namespace evenmat::reading
