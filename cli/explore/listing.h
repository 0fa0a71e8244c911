// The list of cards within the wishes as a maker reads it, row by row as they are found, and what follows the
// last: how the sizes differ, which cards are unbeaten, whether these are all.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "cli/explore/columns.h"
#include "cli/explore/facts.h"
#include "model/card.h"
#include "solver/explore_card.h"

namespace evenmat {

struct ListCall {
  const Source& source;
  const Card& card;
  std::size_t most = 0;  // so many cards are shown, or fewer
  bool sweep = false;
  std::optional<Best> best;
};

class CardList {
 public:
  CardList(const ListCall& call, const Style& out) : call_(call), out_(out) {}

  // The next card of the list, behind the head of the list if it is the first.
  std::string next(const ExploredCard& so_far, std::size_t which);

  // All that was not told yet.
  std::string rest(const ExploredCard& explored);

 private:
  [[nodiscard]] Facts first_facts(const ExploredCard& explored, std::size_t which);
  [[nodiscard]] std::string head(const ExploredCard& explored) const;
  std::string in_order(const ExploredCard& explored, std::vector<std::string>& alike);
  [[nodiscard]] std::string bodies(const ExploredCard& explored, std::vector<std::string> alike) const;
  [[nodiscard]] std::string no_sheets(const ExploredCard& explored) const;

  ListCall call_;
  const Style& out_;
  std::optional<Columns> columns_;
  PaperSigns signs_;
  std::size_t told_ = 0;
};

// "These are all 23 cards.", "8 of more than 10,000 cards, those that differ most.", and the like.
std::string count_sentence(const ExploredCard& explored, std::optional<Best> best);

}  // namespace evenmat
