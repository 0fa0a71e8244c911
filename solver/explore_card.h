// Other cards that could be made within a card's wishes: what the card leaves open, how many cards that
// allows, the few that differ most, and what each costs in paper. What a report needs and nothing of how it
// was found.
//
// What is open is a list of amounts, each of which goes from mark to mark, its value in the card as sized
// among them (or through the list that the wish names); one that no card has on a mark goes in steps of a
// mark from that value:
//   - every wish with more than one value about a border, margin, frame, tuck, width, height, distance, gap
//   or
//     cut-back, where it is one amount on all the sides that it binds in the card as sized, which it then
//     stays;
//   - the border of a layer that states neither border nor size nor place, and the margin of artwork that
//     states none, likewise;
//   - the width and height of every layer and window that all those amounts do not settle, one for all
//     versions, where they are alike in the card as sized;
//   - which way an entry of `rules` with `or` holds.
// Another card is the card as `size` answers it with each of these amounts stated as one value. The card as
// sized is always one of them, but in a sweep of an amount that it does not have on all sides.
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

struct OpenAmount {
  std::string name;  // the layer or window; "base" of a cut-back; empty for an entry of `rules`
  std::string key;   // as the card file calls it: "border", "width", "from-left", "cut-back", "rules"
  std::string part;  // of a border or margin stated as a table: "left", "across", ...
  Spot spot;         // of the wish; none where nothing is stated
  std::vector<std::string> ways;  // of an entry of `rules`: as written, each side of an `or`
  Rational as_sized;              // of a way: its number, from 0
  Rational least, most;           // among the cards that were listed
};

// What one paper comes to for the whole batch.
struct PaperCost {
  std::string paper;
  int sheets = 0;       // the whole batch takes, more than there are among them
  int at_least = 0;     // no plan takes fewer (none at so low a cost, where costs are stated)
  bool proven = false;  // fewest sheets, or least cost where costs are stated
  int missing = 0;      // of `sheets`, so many are not there
  bool never = false;   // some piece is larger than every sheet; the figures above are 0 then
  std::optional<Rational> cost;
  Rational sheet_area, piece_area;   // of the sheets taken; of all pieces as cut
  std::optional<int> cards_a_sheet;  // from one sheet, where sheets are of one size and there is one version
  std::string trouble;               // why it could not be planned at all, in a sentence

  [[nodiscard]] bool is_planned() const { return !never && trouble.empty(); }
};

struct Costs {
  std::vector<PaperCost> papers;  // in the order in which the card states them
  int sheets = 0;                 // of all papers
  int missing = 0;
  bool enough = true;  // every paper could be planned, and none is missing
  bool proven = true;  // all of them are
  std::optional<Rational> cost;
  std::optional<Rational> waste;   // share of the sheets' area that becomes no piece; none without sheets
  std::optional<Rational> border;  // the narrowest above 0 of mats and panels; without those, of all layers
  std::optional<Rational>
      seen;  // the least share seen of a panel (without panels, of a layer), as it is looked at
  std::optional<Rational> thickness;  // closed, where the papers say it
};

struct Alternative {
  std::vector<Rational> amounts;  // by place in `open`
  bool as_sized = false;          // the card that `size` answers
  SizedCard sized;                // points into the card given; what was stated and what slides is left out
  Costs costs;
  bool unbeaten = false;  // no other of those compared is as good on every count and better on one
};

// In a sweep, from one row to the next.
struct Jump {
  std::size_t row = 0;  // the later of the two
  std::string paper;
  int sheets = 0;         // so many more (fewer: negative)
  int cards_a_sheet = 0;  // so many more on one sheet
};

// What the cards are put in order by: fewest sheets, least cost or waste, the widest narrowest border, the
// most seen of the panel that shows least, thinnest.
enum class Best { sheets, cost, waste, border, seen, thickness };

struct ExploreOptions {
  double limit = 30;                   // seconds
  std::size_t show = 8;                // so many, those that differ most; 0: all
  std::vector<std::string> keep_same;  // layers and windows that keep the size they have in the card as sized
  std::optional<Best> best;
  // Only this amount varies, everything else keeps to the choosing order; all its values are shown, in order.
  std::optional<std::pair<std::string, std::string>> sweep;  // name, and key with its part ("border.left")
  // Called with each card that will be shown, in order, as soon as its costs are known and all before it were
  // told; from any thread, never from two at once. Not called where `best` is asked for; `unbeaten` is not
  // known yet then.
  std::function<void(const struct ExploredCard& so_far, std::size_t which)> found = {};
  std::function<void(std::string_view)> at_work = {};
};

struct ExploredCard {
  Verdict verdict = Verdict::buildable;  // conflict: as stated no card can be built; undecided: not known
  std::vector<OpenAmount> open;
  std::size_t count = 0;  // so many cards there are, or more than so many
  bool complete = true;
  std::vector<Alternative> alternatives;  // as shown: by amounts, or the best first
  std::size_t compared = 0;               // so many cards were compared for `unbeaten` and `best`
  std::vector<Jump> jumps;                // of a sweep
  std::vector<Remark> no_costs;           // what is wrong with the papers, so that no sheets are told
  std::string nothing_open;               // a sentence, where the amount to sweep is settled
  bool time_ran_out = false;
};

// Pre: `refusal` is silent, and names to keep are there. Throws std::exception only for a fault of its own.
ExploredCard explore_card(const Card& card, const ExploreOptions& options);

// What a card file has to say so that an amount has this value: "1/8", or a way of an entry of `rules`.
std::string amount_text(const OpenAmount& open, const Rational& value, Unit unit);

// As many cards are listed and counted, and no more.
inline constexpr std::size_t most_counted = 10'000;

}  // namespace evenmat
