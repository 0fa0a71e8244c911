// From the text of a card file to a Card, or to every mistake in it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "model/spot.h"

namespace evenmat {

// Either `card` is there and `mistakes` is empty, or the other way round. Mistakes come in file order.
struct CardReading {
  std::optional<Card> card;
  std::vector<Remark> mistakes;
};

// `text` is the whole file (TOML 1.0, UTF-8). Throws nothing.
CardReading read_card(std::string_view text);

// Whether a card file states a key of its top, such as `spare`, at all. False of text that is no TOML.
bool states_at_top(std::string_view text, std::string_view key);

}  // namespace evenmat
