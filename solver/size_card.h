// The main job: from a Card to the exact size and place of every layer, in one call.
// What a report needs and nothing of how it was found.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/card.h"
#include "model/folding.h"
#include "model/grain.h"
#include "solver/body/closed_card.h"
#include "solver/body/mail.h"
#include "solver/rule.h"

namespace evenmat {

enum class Verdict { buildable, conflict, undecided };

// The worse of two verdicts: what cannot be built is worse than what is not settled yet.
Verdict worse(Verdict a, Verdict b);

// A layer or window with its size and place. Lengths in the card's unit; frame of its face, origin top
// left, x right, y down, seen facing the face. `left` .. `box_height` are of the bounding box, rounded
// outward to 1e-9 of the unit where the piece is tilted.
struct PlacedPiece {
  const Piece* piece = nullptr;  // in the Card given to size_card, which must outlive this
  std::string face;
  Rational left, top, box_width, box_height;
  Rational from_left, from_top, from_right, from_bottom;  // to the edges of what it is on
  Rational width, height;                                 // cut size
  // Settled by what was stated alone (true), or chosen (false).
  bool width_stated = false, height_stated = false;
  bool left_stated = false, top_stated = false, right_stated = false, bottom_stated = false;
  // Corner distances of each copy from what it is on, first copy first; empty unless `copies` is stated.
  std::vector<std::pair<Rational, Rational>> copies;
  // Where the artwork lies in the layer, from the layer's left and top edge.
  std::optional<std::pair<Rational, Rational>> artwork_at;
  Shown shown;  // how much of a layer is seen; of a window 0
};

// What can still move without touching any stated wish, sizes as they are.
struct Slide {
  std::vector<std::string> names;  // pieces that move together
  bool across = true;              // left and right; else up and down
  Rational low;                    // how far left (or up) it can go from where it is
  Rational high;                   // how far right (or down)
};

struct Range {
  std::string layer;
  std::string what;  // "width", "height", "from left", "from top"
  Rational least, most;
};

struct SizedVersion {
  std::string name;  // empty for the plain card
  int cards = 1;
  Verdict verdict = Verdict::buildable;
  std::vector<PlacedPiece> pieces;  // file order; left-out layers absent
  Size front;                       // the front after cutting back
  std::optional<Rational> cut_back;
  bool cut_back_stated = true;
  Folding folding;
  std::optional<GrainAtFold> grain;
  std::optional<ClosedCard> closed;  // absent while no card is found
  std::vector<MailNote> mail;
  std::vector<Slide> slides;
  std::vector<Range> ranges;  // when asked for
  std::vector<Remark> warnings;
};

// One rule of a set that cannot hold together.
struct ClashingRule {
  std::string says;
  Spot spot;
};

struct SizedCard {
  Verdict verdict = Verdict::buildable;  // the worst of the versions
  std::vector<SizedVersion> versions;    // the plain card, then the variants in order
  std::vector<ClashingRule> clash;       // conflict: one smallest set of stated rules that cannot hold
  bool clash_is_smallest = true;         // false when time ran out before that was known
  std::string clash_of;                  // conflict: the version it is in; empty for the plain card
  std::string off_marks;                 // conflict: a sentence, when only the marks stand in the way
  std::vector<Rational> lengths;         // of the versions that can be built, by variable of `rules_of(card)`
  bool time_ran_out =
      false;  // undecided: the time is why; else what some layer is to show of itself is not settled
  bool freedom_known = true;  // false when time ran out before it was known what was stated and what chosen
};

struct SizeOptions {
  double limit = 30;  // seconds
  unsigned seed = 0;  // of the solver; no answer depends on it
  bool ranges = false;
};

// Throws std::exception only for a fault of its own; what `refusal` tells must have been refused before.
SizedCard size_card(const Card& card, const SizeOptions& options);

// Of a thickness limit, which piles of paper and foam the rules are about: those that certainly come to one
// place unless they are laid apart, as far as no other says so; every one of those, which says more once
// numbers are changed; or also those of which that is not certain.
enum class PileSet { certain, every_certain, all };

// The rules a card gives, for `--smt2` and for checking. The same rectangles and numbers whatever the piles.
Rules rules_of(const Card& card, PileSet piles = PileSet::certain);
// A sentence when a card cannot be sized: more than `most_side_by_side` layers lie on one thing, or its
// versions have more than `most_in_all` together.
std::optional<Remark> refusal(const Card& card);
inline constexpr std::size_t most_side_by_side = 100;
inline constexpr std::size_t most_in_all = 3000;  // layers and windows of all versions together

// The rules as SMT-LIB 2 text (logic QF_LIRA, `check-sat` at the end); preferences are left out.
std::string smt2_text(const Rules& rules);

}  // namespace evenmat
