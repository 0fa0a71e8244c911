// What a list of cards tells of each: its open amounts, its paper, its sizes and looks; each fact with the
// two lines of a heading, a short cell for a column, and words for where there is none.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/explore_card.h"

namespace evenmat {

struct Fact {
  std::string above, below;  // the heading
  std::string cell;          // as short as can be, under that heading
  std::string words;         // "indigo 3 sheets": the same by itself; empty for what need not be told
};
using Facts = std::vector<Fact>;

// The signs that cells carry, and what they mean.
class PaperSigns {
 public:
  // "3", "3*": the sheets of a paper, with its signs; these are remembered.
  std::string sheets(const PaperCost& paper);
  // A line for each sign that was used; empty if none was.
  [[nodiscard]] std::string key() const;

 private:
  bool not_proven_ = false, costs_ = false, missing_ = false, never_ = false;
  std::set<std::string> troubles_;
};

// The amounts that differ among the cards listed.
Facts amount_facts(const std::vector<OpenAmount>& open, const Alternative& card, Unit unit);

// Sheets of each paper, what they cost where that is stated, and waste; `sweep`: also the cards that one
// sheet gives.
Facts paper_facts(const Card& card, const Alternative& alternative, bool sweep, PaperSigns& signs);

// Cut sizes, the narrowest border, what is seen of panels, thickness, envelope. As many for each alternative
// of one card.
Facts body_facts(const Card& card, const Alternative& alternative);

// The smallest envelope that takes the card, or which of those asked for do: "us A2"; empty where none is
// known.
std::string envelope_words(const SizedVersion& version);

}  // namespace evenmat
