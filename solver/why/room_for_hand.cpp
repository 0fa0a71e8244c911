#include "solver/why/room_for_hand.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "solver/why/hand_errors.h"

namespace evenmat {
namespace {

// How a rule is told once it leaves room for the hand, alone and in a sum.
void tell_room(Rule& rule) {
  Amount& amount = rule.amount;
  if (amount.of.empty()) {
    amount.of = fmt::format("the room for the hand, so that {},", rule.says);
    amount.rectangle = rule.choices.front().front().sum.terms().back().variable / 4;
  } else {
    amount.of += " with room for the hand";
  }
  rule.says += ", with room for the hand";
}

// Whether two sums without their constants are the same, or the negative of one another.
bool same_lengths(const Sum& a, const Sum& b, bool negative) {
  if (a.terms().size() != b.terms().size()) return false;
  return std::equal(a.terms().begin(), a.terms().end(), b.terms().begin(), [&](const Term& s, const Term& t) {
    return s.variable == t.variable && s.factor == (negative ? Rational(-t.factor) : t.factor);
  });
}

std::set<std::pair<std::size_t, Spot>> alignments_of(const Card& card) {
  std::set<std::pair<std::size_t, Spot>> found;  // by version
  const auto take = [&](const Design& design, std::size_t version) {
    for (const Piece& piece : design.pieces) {
      if (piece.align) found.emplace(version, piece.align->spot);
    }
  };
  take(card.design, 0);
  for (std::size_t i = 0; i < card.variants.size(); ++i) take(card.variants[i].design, i + 1);
  return found;
}

// A layer aligned to an edge is as near it as its border allows: where that border now leaves room, so does
// the place. One whose border is exact stays.
void align_anew(Rules& rules, const Card& card) {
  const auto alignments = alignments_of(card);
  for (std::size_t i = 0; i < rules.rules.size(); ++i) {
    Rule& aligned = rules.rules[i];
    if (aligned.origin != Origin::stated || !aligned.amount.side ||
        !alignments.contains({aligned.version, aligned.spot})) {
      continue;
    }
    Sum& sum = aligned.choices.front().front().sum;  // the distance from the edge less what it is to be
    Rational more = 0;
    bool exact = false;
    for (std::size_t j = 0; j < rules.rules.size(); ++j) {
      const Rule& other = rules.rules[j];
      if (i == j || other.choices.size() != 1) continue;
      for (const Relation& relation : other.choices.front()) {
        if (relation.equal && same_lengths(relation.sum, sum, false)) exact = true;
        if (relation.equal || !same_lengths(relation.sum, sum, true)) continue;
        more = std::max(more, Rational(relation.sum.constant() + sum.constant()));
      }
    }
    if (!exact) sum -= Sum(more);
  }
}

}  // namespace

Rules tightened(Rules rules, const Card& card, const Rational& error) {
  const HandErrors errors(card, rules);
  for (Rule& rule : rules.rules) {
    if (!is_up_to_the_hand(rule)) continue;
    bool leaves_room = false;
    for (auto& choice : rule.choices) {
      for (Relation& relation : choice) {
        if (relation.equal) continue;
        const Rational more = reach_of(errors.in(relation.sum)) * error;
        relation.sum += Sum(more);
        leaves_room = leaves_room || more > 0;
      }
    }
    if (leaves_room) tell_room(rule);
  }
  align_anew(rules, card);
  return rules;
}

}  // namespace evenmat
