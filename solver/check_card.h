// Can the card be built, and if not, why and what mends it: every smallest set of stated rules that cannot
// hold together, told as sums, with the changes of single numbers that mend it. What a report needs and
// nothing of how it was found.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// One step of a story: a sentence, and the running sum it comes to. Lengths in the card's unit.
struct StoryStep {
  std::string says;
  Spot spot;                       // of the wish that speaks; none for what is given
  std::optional<Rational> amount;  // what this step adds, or how much room there is
  std::optional<Rational> total;   // the sum so far
};

// A stated value written otherwise.
struct Change {
  Spot spot;
  std::string from, to;  // as the maker would write it
  Rational by;           // how far the number moves (more: positive)
  std::string says;
  bool mends_card = false;  // the whole card can be built with it, as written in the file
  bool on_marks = true;     // false: no value on the marks would do
};

// One smallest set of stated rules that cannot hold together: without any one of them the rest can.
struct Conflict {
  std::vector<Remark> rules;          // in file order; empty when what is given alone cannot hold
  std::vector<std::string> versions;  // in which it is: variants' names, "" for the plain card
  bool smallest = true;               // false when time ran out before that was known
  // How much longer the space would have to be, marks aside; negative: shorter, for what has to fill it.
  // Absent when only the marks stand in the way. Where several spaces fall short, of the one that lacks most.
  std::optional<Rational> short_by;
  std::optional<Rational> off_mark;  // then: how far the size is from the nearest mark
  std::vector<StoryStep> story;
  std::vector<std::string> hints;  // what may be meant: layers on one another and the like
  std::vector<Change> changes;     // the smallest first, then in file order
  bool changes_known = true;       // false when time ran out before all were tried
};

// How much a stated rule has to spare in the card as it is sized: 0 for one that is exact.
struct Spare {
  std::string says;
  Spot spot;
  Rational by;
};

struct CheckedCard {
  Verdict verdict = Verdict::buildable;
  std::vector<std::string> failing;  // conflict: the versions that cannot be built, "" for the plain card
  std::vector<Conflict> conflicts;   // in the order they are found, always the same
  bool all_conflicts = true;         // false: there may be more than were looked for
  // Conflict: the fewest changes that together mend the whole card, of those the least in total, of those
  // such that leave the earlier lines alone. Empty when no change of numbers does.
  std::vector<Change> mend;
  bool mend_known = true;  // false when time ran out
  // Buildable:
  std::optional<SizedCard> sized;  // the card as sized
  std::vector<Spare> spare;        // tightest first, then in file order
  std::vector<Remark> idle;        // rules that say nothing new beside the others
  std::vector<Remark> pulling;     // wishes that give way to others
  std::vector<Remark> warnings;
};

struct CheckOptions {
  double limit = 30;  // seconds
  unsigned seed = 0;  // of the solver; no answer depends on it
  std::size_t most_conflicts = 20;
  std::function<void(const Conflict&)> found;     // called with each conflict as soon as it is explained
  std::function<void(std::string_view)> at_work;  // called with what is being done when that may take long
};

// `text` is the file that `card` was read from: changes are tried in it. Throws std::exception only for a
// fault of its own; what `refusal` tells must have been refused before.
CheckedCard check_card(const Card& card, std::string_view text, const CheckOptions& options);

// The file with changes made: everything but the changed values as it was. Absent when one does not fit it.
std::optional<std::string> with_changes(std::string_view text, const std::vector<Change>& changes);

}  // namespace evenmat
