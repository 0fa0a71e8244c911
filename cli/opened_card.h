// The card file that a command was given, read and refused as every command does.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "model/card.h"

namespace evenmat {

struct OpenedCard {
  std::string name;  // as messages call it
  std::string text;
  std::optional<Card> card;
  Answer refused;                     // without a card: the whole answer
  std::vector<Remark> mistakes = {};  // without a card: what that tells

  // Good while this stands where it is.
  [[nodiscard]] Source source() const { return {name, text}; }
};

// `file`: a path, or "-" for standard input. `json`: whether mistakes are told in JSON too.
OpenedCard open_card(const std::string& file, bool json, const Style& err);

// The call asks for what cannot be: one sentence, with status 2.
Answer refused_call(const std::string& says, bool json);

}  // namespace evenmat
