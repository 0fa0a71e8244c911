#include "model/wish.h"

#include <algorithm>

#include "model/number_scan.h"
#include "model/words.h"

namespace evenmat {
namespace {

// A number of the wish, with the view of the text that it takes.
struct Place {
  NumberPart part;
  Rational value;
  std::string_view where;
};

struct Part {
  Wish wish;
  std::string trouble;
  std::vector<Place> places;
};

// If `text` begins with `phrase` and ends there or goes on after a blank, what comes after.
std::optional<std::string_view> after_phrase(std::string_view text, std::string_view phrase) {
  if (small_letters(text.substr(0, phrase.size())) != phrase) return std::nullopt;
  const std::string_view rest = text.substr(phrase.size());
  const std::string_view bare = trimmed(rest);
  if (bare.size() == rest.size() && !rest.empty()) return std::nullopt;
  return bare;
}

bool is_plain_length(std::string_view text, Unit unit) { return read_length(text, unit).value.has_value(); }

// Parts between commas; a quoted name after `same as` may hold commas itself.
std::vector<std::string_view> parts_of(std::string_view text) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::string_view start = trimmed(text);
    std::size_t from = 0;
    if (const auto name = after_phrase(start, "same as"); name && name->starts_with("'")) {
      const std::size_t end = text.find('\'', static_cast<std::size_t>(name->data() - text.data()) + 1);
      if (end != std::string_view::npos) from = end + 1;
    }
    const std::size_t comma = text.find(',', from);
    parts.push_back(trimmed(text.substr(0, comma)));
    if (comma == std::string_view::npos) return parts;
    text.remove_prefix(comma + 1);
  }
}

// A keyword with its length: the length, or why there is none.
LengthReading length_after(std::string_view phrase, std::string_view text, Unit unit) {
  if (!text.empty()) return read_length(text, unit);
  return {std::nullopt, in_quotes(phrase) + " names no length. Write one after it, such as 1/8."};
}

Part exactly(const Rational& value, std::string_view text) {
  Part part;
  part.places = {{NumberPart::exact, value, text}};
  part.wish.at_least = value;
  part.wish.at_most = value;
  return part;
}

Part refused(std::string trouble) { return {{}, std::move(trouble), {}}; }

Part no_wish(std::string_view text) {
  return refused(
      in_quotes(text) +
      " is not a length or a wish about one. Write it like 1/8, 1/16 to 1/4, at least 1/8, at most 3, "
      "about 1/8 or one of 2, 3.");
}

Part same_as(std::string_view name) {
  if (name.size() >= 2 && name.starts_with("'") && name.ends_with("'"))
    name = name.substr(1, name.size() - 2);
  if (name.empty()) return refused("\"same as\" names no layer. Write the layer's name after it.");
  Part part;
  part.wish.same_as = std::string(name);
  return part;
}

// `1/16 to 1/4`; absent if the text is no range at all.
std::optional<Part> range(std::string_view text, Unit unit) {
  const std::size_t word = small_letters(text).find(" to ");
  if (word == std::string::npos) return std::nullopt;
  const std::string_view first = trimmed(text.substr(0, word));
  const std::string_view second = trimmed(text.substr(word + 4));
  const LengthReading low = read_length(first, unit);
  const LengthReading high = read_length(second, unit);
  if (!low.value) return refused(low.trouble);
  if (!high.value) return refused(high.trouble);
  if (*low.value > *high.value)
    return refused(in_quotes(text) + " runs backwards. Write the smaller length first.");
  Part part;
  part.wish.at_least = low.value;
  part.wish.at_most = high.value;
  part.places = {{NumberPart::at_least, *low.value, first}, {NumberPart::at_most, *high.value, second}};
  return part;
}

Part read_part(std::string_view text, Unit unit) {
  Part part;
  if (text.empty()) return no_wish(text);
  if (small_letters(text) == "even") {
    part.wish.even = true;
    return part;
  }
  if (const auto rest = after_phrase(text, "same as")) return same_as(*rest);
  const auto keyword = [&](std::string_view phrase, std::optional<Rational> Wish::*field,
                           std::optional<NumberPart> says) {
    const auto rest = after_phrase(text, phrase);
    if (!rest) return false;
    const LengthReading length = length_after(phrase, *rest, unit);
    part.wish.*field = length.value;
    part.trouble = length.trouble;
    if (says && length.value) part.places = {{*says, *length.value, *rest}};
    return true;
  };
  if (keyword("at least", &Wish::at_least, NumberPart::at_least) ||
      keyword("at most", &Wish::at_most, NumberPart::at_most) || keyword("about", &Wish::about, std::nullopt))
    return part;
  if (const auto rest = after_phrase(text, "one of")) {
    const LengthReading length = length_after("one of", *rest, unit);
    if (!length.value) return refused(length.trouble);
    part.wish.one_of = {*length.value};
    part.places = {{NumberPart::one_of, *length.value, *rest}};
    return part;
  }
  if (const auto spread = range(text, unit)) return *spread;
  const LengthReading length = read_length(text, unit);
  if (length.value) return exactly(*length.value, text);
  const bool begins_like_one = scan_number(text, unit).bytes > 0;
  return begins_like_one ? refused(length.trouble) : no_wish(text);
}

// What the first part asks and the second asks too; trouble where one of them would be lost.
std::string join(Wish& wish, const Wish& other) {
  if (wish.about && other.about) return "it says \"about\" twice";
  if (wish.same_as && other.same_as) return "it says \"same as\" twice";
  if (!wish.one_of.empty() && !other.one_of.empty()) return "it says \"one of\" twice";
  if (other.about) wish.about = other.about;
  if (other.same_as) wish.same_as = other.same_as;
  if (!other.one_of.empty()) wish.one_of = other.one_of;
  wish.even = wish.even || other.even;
  if (other.at_least && (!wish.at_least || *wish.at_least < *other.at_least)) wish.at_least = other.at_least;
  if (other.at_most && (!wish.at_most || *wish.at_most > *other.at_most)) wish.at_most = other.at_most;
  return {};
}

bool within(const Wish& wish, const Rational& value) {
  return (!wish.at_least || *wish.at_least <= value) && (!wish.at_most || value <= *wish.at_most);
}

// Empty when some length meets the wish.
std::string contradiction(const Wish& wish) {
  if (wish.at_least && wish.at_most && *wish.at_least > *wish.at_most) return "no length is both";
  const auto fits = [&](const Rational& value) { return within(wish, value); };
  if (!wish.one_of.empty() && std::none_of(wish.one_of.begin(), wish.one_of.end(), fits))
    return "none of its lengths fits the rest of it";
  return {};
}

// Whether `other` is a bound that leaves nothing for `own` to say: a stricter one, or the same once more.
bool outdoes(const Place& other, const Place& own) {
  if (own.part == NumberPart::one_of) return false;
  if (other.part != own.part && other.part != NumberPart::exact) return false;
  if (own.part == NumberPart::exact) return other.part == NumberPart::exact;
  return own.part == NumberPart::at_least ? other.value >= own.value : other.value <= own.value;
}

// `text`: of the whole wish, which the places are views of.
NumberedText numbered(std::string_view text, const std::vector<Place>& places) {
  NumberedText result{std::string(text), {}};
  for (const Place& own : places) {
    const bool idle = std::any_of(places.begin(), places.end(),
                                  [&](const Place& other) { return &other != &own && outdoes(other, own); });
    if (idle) continue;
    const auto begin = static_cast<std::size_t>(own.where.data() - text.data());
    result.numbers.push_back({own.part, own.value, begin, begin + own.where.size()});
  }
  return result;
}

// "2,5": two lengths joined by a comma say nothing, so this is a decimal; lists have a word before.
bool has_decimal_comma(std::string_view text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  const std::string_view number = trimmed(text);
  const std::size_t comma = number.find(',');
  if (comma == 0 || comma == std::string_view::npos || comma + 1 == number.size()) return false;
  return is_digit(number.front()) && is_digit(number[comma - 1]) && is_digit(number[comma + 1]);
}

}  // namespace

std::optional<Rational> Wish::exact() const {
  std::optional<Rational> only;
  if (one_of.empty()) {
    if (at_least && at_most && *at_least == *at_most) only = at_least;
    return only;
  }
  for (const Rational& value : one_of) {
    if (!within(*this, value)) continue;
    if (only) return std::nullopt;
    only = value;
  }
  return only;
}

WishReading read_wish(std::string_view text, Unit unit, Spot spot) {
  if (has_decimal_comma(text)) {
    return {std::nullopt, in_quotes(trimmed(text)) + " is not a length. Decimals take a point: 4.25."};
  }
  std::vector<Wish> wishes;
  std::vector<Place> places;
  for (std::string_view words : parts_of(text)) {
    // `one of 2 1/4, 2 5/8`: a bare length goes on with the list.
    if (!wishes.empty() && !wishes.back().one_of.empty() && is_plain_length(words, unit)) {
      wishes.back().one_of.push_back(*read_length(words, unit).value);
      places.push_back({NumberPart::one_of, wishes.back().one_of.back(), words});
      continue;
    }
    Part part = read_part(words, unit);
    if (!part.trouble.empty()) return {std::nullopt, part.trouble};
    wishes.push_back(std::move(part.wish));
    places.insert(places.end(), part.places.begin(), part.places.end());
  }
  const std::string shown = in_quotes(trimmed(text));
  if (wishes.size() > 2) {
    return {std::nullopt,
            shown + " joins more than two wishes. Say it in two, such as 1/16 to 1/4, about 1/8."};
  }
  Wish wish = std::move(wishes.front());
  std::string against = wishes.size() == 2 ? join(wish, wishes.back()) : std::string();
  std::sort(wish.one_of.begin(), wish.one_of.end());
  wish.one_of.erase(std::unique(wish.one_of.begin(), wish.one_of.end()), wish.one_of.end());
  if (against.empty()) against = contradiction(wish);
  if (!against.empty())
    return {std::nullopt, shown + " contradicts itself: " + against + ". Change one part or leave it out."};
  wish.text = std::string(trimmed(text));
  wish.spot = spot;
  wish.numbered = numbered(trimmed(text), places);
  return {std::move(wish), {}};
}

}  // namespace evenmat
