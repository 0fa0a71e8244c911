// The sizes within a card's wishes with which its batch comes out of the paper on hand, or takes the fewest
// sheets, or gives the most cards: sizes and cutting decided together. What a report needs and nothing of how
// it was found.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "solver/explore_card.h"

namespace evenmat {

struct FitOptions {
  double limit = 30;                   // seconds
  bool most = false;                   // the most cards that the paper gives, instead of the batch
  std::vector<std::string> keep_same;  // as in ExploreOptions
  std::function<void(std::string_view)> at_work = {};
};

// A wish that, written otherwise, lets the batch come out.
struct Loosening {
  std::string name, key, part;  // as in OpenAmount
  Spot spot;
  std::string from, to;  // as the maker would write it
  Rational by;           // by so much the amount leaves what was wished (more: positive)
  Costs costs;           // of the card that comes out then
};

struct FitCard {
  Verdict verdict = Verdict::buildable;  // conflict: as stated no card can be built
  std::vector<OpenAmount> open;
  Alternative as_sized;
  Alternative best;  // of equals the one that differs least from the card as sized
  // Most cards, where they are asked for or the batch does not come out: as sized, and with the best sizes.
  std::optional<int> most_as_sized, most;
  // No sizes within the wishes take fewer sheets (cost less, leave fewer missing), or give more cards.
  bool proven = false;
  int at_least = 0;       // sheets of all papers, whatever the sizes
  std::size_t count = 0;  // cards within the wishes, or more than so many
  bool complete = true;
  std::vector<Loosening>
      loosen;                    // where it does not come out: each wish that alone would do, the least first
  bool loosen_known = true;      // false when time ran out, or the cards were too many to list
  std::vector<Remark> no_costs;  // what is wrong with the papers, so that nothing can be fitted
  bool time_ran_out = false;
};

// Pre: as of explore_card.
FitCard fit_card(const Card& card, const FitOptions& options);

}  // namespace evenmat
