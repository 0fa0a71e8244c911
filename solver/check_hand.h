// What an unsteady hand does to a card that can be built, and how a measured card meets its rules.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/check_card.h"
#include "solver/size_card.h"

namespace evenmat {

// A rule that may fail although the card is right on paper.
struct Slip {
  std::string says;
  Spot spot;                        // of the wish, or of the name of the layer that is about
  Rational spare;                   // what the rule has to spare in the card as sized
  Rational worst;                   // how far the errors can eat into it, all against it at once
  std::vector<std::string> errors;  // which: "cutting the left edge of band", "placing band"
};

// A border that is to be as wide on one side as on the other, and may come out uneven.
struct Unevenness {
  std::string says;  // "the border of indigo mat, left and right"
  Spot spot;
  Rational wished;     // each side as sized
  Rational narrowest;  // what either side may come out as: below 0 where a layer sticks out
  Rational widest;
  bool looks_even = true;  // the narrowest keeps at least half of the widest
  Rational safe;           // the least border on the marks that would look even still
};

// A size that keeps every rule whatever the hand does within the error.
struct SafeSize {
  std::string layer;  // a layer or window, or "reveal" where how far the front is cut back is open
  Rational width, height;
  std::string version;  // the variant it is for; empty for the plain card
};

// Where a layer goes whose size is safe as it is and whose place is not: from the corner of what it is on.
struct SafePlace {
  std::string layer;
  Rational from_left, from_top;
  std::string version;
};

struct HandCheck {
  Verdict verdict = Verdict::buildable;       // of the card itself; no lists below unless buildable
  std::vector<Slip> slips;                    // what misses by most first, then in file order
  std::vector<Unevenness> borders;            // in file order
  std::optional<std::vector<SafeSize>> safe;  // what has another size when it is safe; absent when none is
  std::vector<SafePlace> safe_places;         // beside these sizes
  // None is safe: which rules leave the hand no room, what mends each, and the fewest changes that mend all.
  std::vector<Conflict> in_the_way;
  bool all_in_the_way = true;  // false: there may be more than were looked for
  std::vector<Change> mend;
  bool mend_known = true;  // false when time ran out
  bool safe_known = true;  // false when time ran out before it was known what is safe
};

// Worst case, exact: each cut edge and each placement may be off by up to `error` (card's unit, > 0); which
// they are is told in why/hand_errors.h. `text` is the file that `card` was read from. Throws std::exception
// only for a fault of its own; what `refusal` tells must have been refused before.
HandCheck check_hand(const Card& card, std::string_view text, const Rational& error,
                     const CheckOptions& options);

// A rule held against a card whose every size is stated.
struct Measured {
  std::string says;
  Spot spot;     // of the wish, or of the name of the layer that is about
  Rational off;  // 0: met
};
struct MeasuredCard {
  // conflict: some rule is off by more than the tolerance; undecided: time ran out, or nothing was measured.
  Verdict verdict = Verdict::buildable;
  std::vector<std::string> not_stated;  // "the width of band": sizes not stated exactly; no rules then
  std::vector<Measured> rules;  // in file order: each stated rule, and what is given where it is not kept
};
// What is taken as measured, and where what was not measured is taken to lie, is told in check_measured.cpp.
MeasuredCard check_measured(const Card& card, const Rational& tolerance, const CheckOptions& options);

}  // namespace evenmat
