// `evenmat explore FILE`: what else could be made within the card's wishes, what it costs in paper, which
// sizes come out of the paper on hand, and what the same design comes to on other bases.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "solver/explore_card.h"

namespace evenmat {

// NAME.key=VALUE, as the call has it.
struct CallChange {
  bool vary = false;  // --vary; else --set
  std::string words;
};

struct WriteCall {
  std::size_t number = 0;  // of the list that is shown
  std::string path;
};

struct ExploreCall {
  std::string file;                 // "-": standard input
  std::vector<CallChange> changes;  // in the order given
  std::vector<std::string> keep_same;
  std::optional<std::size_t> show;  // 0: all
  std::optional<Best> best;
  bool fit = false;
  bool most = false;              // with `fit`
  std::optional<std::string> on;  // sizes, with commas between
  std::optional<WriteCall> write;
  std::optional<std::string> draw;  // the cards shown, side by side: a name that says the format
  bool force = false;               // write over them
  bool json = false;
  bool csv = false;
  double limit = 30;  // seconds

  // One number against all others.
  [[nodiscard]] bool is_sweep() const;
};

// Cards are told through `meanwhile` as they are found, unless the answer is in JSON, for a spreadsheet, or
// in an order that is known only in the end.
Answer explore_command(const ExploreCall& call, const Style& out, const Style& err,
                       const Meanwhile& meanwhile);

}  // namespace evenmat
