#include "cli/explore/asked.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <set>
#include <utility>

#include "cli/printable.h"
#include "model/read_card.h"
#include "model/wish.h"
#include "model/words.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

std::string told(const CallChange& change, const std::string& says) {
  return fmt::format("{} \"{}\": {}", change.vary ? "--vary" : "--set", printable(change.words), says);
}

// Whether a wish leaves more than one value; not known of what is none.
std::optional<bool> leaves_several(std::string_view value, Unit unit) {
  if (trimmed(value).starts_with('{')) return true;
  const WishReading wish = read_wish(value, unit, {});
  if (!wish.wish) return std::nullopt;
  return !wish.wish->exact();
}

std::string one_value(const CallChange& change) {
  return told(change,
              "This is one value, and nothing varies. State one value with --set; --vary takes a "
              "range or a list, such as 1/16 to 1/4.");
}

// What is wrong with a card file, if anything is.
std::string first_mistake(const std::string& text) {
  const CardReading reading = read_card(text);
  if (!reading.card) return reading.mistakes.front().says;
  const std::optional<Remark> remark = refusal(*reading.card);
  return remark ? remark->says : "";
}

std::vector<std::string> names_of(const Design& design) {
  std::vector<std::string> names;
  for (const Piece& piece : design.pieces) names.push_back(piece.name.value);
  return names;
}

}  // namespace

AskedCard asked_card(std::string_view file, const Card& card, const std::vector<CallChange>& changes) {
  AskedCard asked;
  asked.text = std::string(file);
  std::vector<std::string> texts;  // after each change
  std::set<std::pair<std::string, std::string>> said;
  for (const CallChange& change : changes) {
    const KeyChangeReading reading = read_key_change(change.words, asked.text);
    if (!reading.change) {
      asked.trouble = told(change, reading.trouble);
      return asked;
    }
    if (!said.emplace(reading.change->name, reading.change->key).second) {
      asked.trouble = told(change, "The call states this already. Say it once, with --set or with --vary.");
      return asked;
    }
    if (change.vary && leaves_several(reading.change->value, card.unit) == false) {
      asked.trouble = one_value(change);
      return asked;
    }
    std::optional<std::string> text = with_key(asked.text, *reading.change);
    if (!text) {
      asked.trouble = told(change, "This cannot be written into the file.");
      return asked;
    }
    if (change.vary) asked.varied.push_back(*reading.change);
    asked.text = *text;
    texts.push_back(std::move(*text));
  }
  CardReading reading = read_card(asked.text);
  if (!reading.card || refusal(*reading.card)) {
    // Changes may need one another, so what the first of them makes is no mistake if a later one mends it.
    std::size_t guilty = texts.size() - 1;
    while (guilty > 0 && !first_mistake(texts[guilty - 1]).empty()) --guilty;
    asked.trouble = told(changes[guilty], first_mistake(asked.text));
    return asked;
  }
  for (std::size_t i = 0, varied = 0; i < changes.size(); ++i) {
    if (changes[i].vary && !leaves_several(asked.varied[varied++].value, card.unit)) {
      asked.trouble = one_value(changes[i]);
      return asked;
    }
  }
  asked.card = std::move(reading.card);
  return asked;
}

NamesReading kept_names(const std::vector<std::string>& names, const Card& card) {
  std::vector<std::string> known = names_of(card.design);
  for (const Variant& variant : card.variants) {
    for (std::string& name : names_of(variant.design)) {
      if (std::find(known.begin(), known.end(), name) == known.end()) known.push_back(std::move(name));
    }
  }
  NamesReading reading;
  for (const std::string& name : names) {
    const auto same = std::find_if(known.begin(), known.end(), [&](const std::string& other) {
      return plain_name(other) == plain_name(name);
    });
    if (same == known.end()) {
      reading.trouble =
          fmt::format("--keep-same: There is no layer or window {}.{}", in_quotes(name), offer(name, known));
      return reading;
    }
    reading.names.push_back(*same);
  }
  return reading;
}

}  // namespace evenmat
