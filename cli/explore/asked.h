// The card that a call asks about: the file's own, with what --set and --vary state put into its text.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "cli/explore_command.h"
#include "model/card.h"
#include "model/set_key.h"

namespace evenmat {

struct AskedCard {
  std::string text;
  std::optional<Card> card;
  std::string trouble;            // without a card: which change is wrong, and why, in a sentence
  std::vector<KeyChange> varied;  // the changes of --vary
};

// Pre: `file` reads well. The changes are made in the order given.
AskedCard asked_card(std::string_view file, const Card& card, const std::vector<CallChange>& changes);

// The names of `names` as the card declares them, or the sentence that says which is not there.
struct NamesReading {
  std::vector<std::string> names;
  std::string trouble;
};
NamesReading kept_names(const std::vector<std::string>& names, const Card& card);

}  // namespace evenmat
