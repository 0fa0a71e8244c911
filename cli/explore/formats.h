// The same design on other bases, `evenmat explore FILE --on "us A2, us A7, iso A6"`: which of them it can be
// built on with every wish kept, what it comes to there, and why it cannot be on the others.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "model/card.h"
#include "model/length.h"
#include "solver/check_card.h"

namespace evenmat {

// A base as the call names it.
struct Format {
  std::string text;  // "us A7 turned"
  Size size;         // in the card's unit
};

// Sizes as a card file has them, with commas between. `refused`: the whole answer where one cannot be read;
// `formats` is empty then, and else never.
struct FormatReading {
  std::vector<Format> formats;
  Answer refused;
};
FormatReading read_formats(std::string_view list, Unit unit, bool json, const Style& err);

struct TriedFormat {
  Format format;
  std::string text;                    // the card file with this base
  std::unique_ptr<const Card> card;    // read from that; none where it holds mistakes
  std::vector<Remark> mistakes;        // then
  std::optional<CheckedCard> checked;  // points into the card; there if the card is
};

struct FormatOptions {
  double limit = 30;  // seconds, for all of them together
  std::function<void(std::string_view)> at_work = {};
};

// In the order of the list. `file`: a card file that reads well. Throws std::exception only for a fault of
// its own.
std::vector<TriedFormat> try_formats(std::string_view file, const std::vector<Format>& formats,
                                     const FormatOptions& options);

// Done; cannot be built, where none can; or the limit reached before it was known of each.
Status status_of(const std::vector<TriedFormat>& tried);

// Each of these tells the same, of the card as its file has it: a table for a page of 80 columns, one JSON
// object, and rows of values with commas between (RFC 4180). Each ends with a line end.
std::string formats_text(const Card& card, const std::vector<TriedFormat>& tried, const Style& style);
std::string formats_json(const Card& card, const std::vector<TriedFormat>& tried);
std::string formats_csv(const Card& card, const std::vector<TriedFormat>& tried);

}  // namespace evenmat
