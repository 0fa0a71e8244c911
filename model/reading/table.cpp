#include "model/reading/table.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "model/reading/toml_number.h"
#include "model/size_text.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

using Kind = Value::Kind;

// No wish, name or rule is longer; what is would only be slow to read.
constexpr std::size_t most_text = 4000;

std::string what_is(const Value& value) {
  switch (value.kind) {
    case Kind::text:
      return "a text";
    case Kind::number:
      return "a number";
    case Kind::truth:
      return value.truth ? "true" : "false";
    case Kind::moment:
      return "a date or time";
    case Kind::list:
      return "a list";
    case Kind::table:
      return "a table";
  }
  return "something else";
}

// Text or number as a text to read lengths from.
struct Written {
  std::string text;
  std::string trouble;
};
Written written(std::string_view key, const Value& value, const char* wanted) {
  if (value.kind == Kind::text) {
    if (value.text.size() <= most_text) return {value.text, {}};
    return {
        {},
        in_quotes(key) + " goes on for more than " + std::to_string(most_text) + " characters. Shorten it."};
  }
  if (value.kind == Kind::number) {
    PlainNumber plain = plain_number(value.text);
    return {std::move(plain.text), std::move(plain.trouble)};
  }
  return {{}, in_quotes(key) + " is " + what_is(value) + " here. Write " + wanted + "."};
}

// A sentence if the bound is not kept; empty if it is. `why`: see `WishTakes::out_of_bounds`.
std::string against(Bound bound, const Rational& value, std::string_view key, std::string_view text,
                    std::string_view why = {}) {
  if (bound == Bound::positive && value <= 0) {
    return in_quotes(key) + " is " + std::string(text) + ", and " +
           std::string(why.empty() ? "has to be more than 0" : why) + ". Write a larger one.";
  }
  if (bound == Bound::not_negative && value < 0)
    return in_quotes(key) + " is " + std::string(text) + ", and cannot be less than 0. Write 0 or more.";
  return {};
}

std::string against(const WishTakes& takes, const Wish& wish, std::string_view key) {
  std::vector<Rational> asked = wish.one_of;
  for (const auto& part : {wish.at_least, wish.at_most, wish.about})
    if (part) asked.push_back(*part);
  const std::string text = in_quotes(wish.text);
  for (const Rational& value : asked) {
    // `at least 0` and `0 to 3` leave lengths that are more than 0.
    const bool only_floor =
        wish.at_least && value == *wish.at_least && value == 0 && (!wish.at_most || *wish.at_most > 0);
    std::string says = against(takes.bound, value, key, text, takes.out_of_bounds);
    if (!says.empty() && !only_floor) return says;
  }
  return {};
}

// One length and nothing else, as the file writes it.
NumberedText only_number(const std::string& text, const Rational& value, NumberPart part) {
  return {text, {{part, value, 0, text.size()}}};
}

// A plain TOML number is an exact wish, shown as the file writes it.
void write_as(Wish& wish, const std::string& number) {
  wish.text = number;
  wish.numbered = only_number(number, wish.at_least.value_or(0), NumberPart::exact);
}

}  // namespace

Table::Table(const Value& table, std::string kind, Context& context)
    : table_(table), kind_(std::move(kind)), context_(context) {}

const Entry* Table::take(std::string_view key) {
  if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
  return table_.find(key);
}

Maybe<std::string> Table::text(std::string_view key) {
  const Entry* entry = take(key);
  if (entry == nullptr) return std::nullopt;
  const Value& value = entry->value;
  if (value.kind != Kind::text) {
    context_.mistake(value.spot,
                     in_quotes(key) + " is " + what_is(value) + " here. Write a text between quotes.");
    return std::nullopt;
  }
  if (value.text.size() > most_text || trimmed(value.text).empty()) {
    context_.mistake(value.spot, in_quotes(key) + (value.text.size() > most_text
                                                       ? " is too long. Shorten it."
                                                       : " is empty. Write it or leave the key out."));
    return std::nullopt;
  }
  return Stated<std::string>{value.text, value.spot};
}

Maybe<int> Table::count(std::string_view key, int least, int most) {
  const Entry* entry = take(key);
  if (entry == nullptr) return std::nullopt;
  const Value& value = entry->value;
  const auto wrong = [&](const std::string& shown) {
    context_.mistake(value.spot, in_quotes(key) + " is " + shown + ". Write a whole number from " +
                                     std::to_string(least) + " to " + std::to_string(most) +
                                     ", without quotes.");
    return std::nullopt;
  };
  if (value.kind != Kind::number) return wrong(what_is(value));
  const PlainNumber plain = plain_number(value.text);
  int number = 0;
  const char* end = plain.text.data() + plain.text.size();
  const auto read = std::from_chars(plain.text.data(), end, number);
  if (!plain.trouble.empty() || read.ec != std::errc{} || read.ptr != end || number < least || number > most)
    return wrong(value.text.substr(0, 30));
  return Stated<int>{number, value.spot};
}

Maybe<Rational> Table::length_of(std::string_view key, const Value& value, Bound bound) {
  const Written from = written(key, value, "a length, such as \"1/8\"");
  LengthReading length{std::nullopt, from.trouble};
  if (from.trouble.empty()) length = read_length(from.text, context_.unit);
  if (length.value) length.trouble = against(bound, *length.value, key, value.text);
  if (length.trouble.empty()) return Stated<Rational>{*length.value, value.spot};
  context_.mistake(value.spot, length.trouble);
  return std::nullopt;
}

Maybe<Rational> Table::length(std::string_view key, Bound bound) {
  const Entry* entry = take(key);
  return entry == nullptr ? std::nullopt : length_of(key, entry->value, bound);
}

std::optional<StatedLength> Table::thickness(std::string_view key, Bound bound) {
  const auto length = this->length(key, bound);
  if (!length) return std::nullopt;
  const std::string text(trimmed(table_.find(key)->value.text));
  return StatedLength{length->value, text, length->spot,
                      only_number(text, length->value, NumberPart::thickness)};
}

Maybe<Rational> Table::number(std::string_view key, Bound bound, const char* wanted) {
  const Entry* entry = take(key);
  if (entry == nullptr) return std::nullopt;
  const Value& value = entry->value;
  Written from = written(key, value, wanted);
  if (from.trouble.empty()) {
    // Read in both units: a number of no unit is the same in both.
    const LengthReading number = read_length(from.text, Unit::inch);
    if (number.value && number.value == read_length(from.text, Unit::millimetre).value) {
      from.trouble = against(bound, *number.value, key, value.text);
      if (from.trouble.empty()) return Stated<Rational>{*number.value, value.spot};
    } else {
      from.trouble = in_quotes(value.text) + " is not a plain number. Write " + wanted + ".";
    }
  }
  context_.mistake(value.spot, from.trouble);
  return std::nullopt;
}

bool Table::truth(std::string_view key) {
  const Entry* entry = take(key);
  if (entry == nullptr) return false;
  if (entry->value.kind == Kind::truth) return entry->value.truth;
  context_.mistake(entry->value.spot, in_quotes(key) + " is " + what_is(entry->value) +
                                          " here. Write true or false, without quotes.");
  return false;
}

std::optional<Wish> Table::wish_of(std::string_view key, const Value& value, WishTakes takes) {
  const Written from =
      written(key, value, R"(a length or a wish about one, such as "1/8" or "at least 1/8")");
  WishReading wish{std::nullopt, from.trouble};
  if (from.trouble.empty()) wish = read_wish(from.text, context_.unit, value.spot);
  if (wish.wish) {
    if (value.kind == Kind::number) write_as(*wish.wish, value.text);
    wish.trouble = against(takes, *wish.wish, key);
    if (wish.wish->even && !takes.even) {
      wish.trouble =
          "\"even\" is for what has several sides, which " + in_quotes(key) + " has not. Write a length.";
    }
    if (wish.wish->same_as && !takes.same_as) {
      wish.trouble =
          "No layer has a like of " + in_quotes(key) + " that this could be the same as. Write a length.";
    }
  }
  if (wish.trouble.empty()) return std::move(wish.wish);
  context_.mistake(value.spot, wish.trouble);
  return std::nullopt;
}

std::optional<Wish> Table::wish(std::string_view key, WishTakes takes) {
  const Entry* entry = take(key);
  return entry == nullptr ? std::nullopt : wish_of(key, entry->value, takes);
}

std::optional<StatedSize> Table::size(std::string_view key) {
  const Entry* entry = take(key);
  if (entry == nullptr) return std::nullopt;
  const Value& value = entry->value;
  std::string trouble;
  if (value.kind != Kind::text) {
    trouble =
        in_quotes(key) + " is " + what_is(value) + " here. Write a width and a height: \"4 1/4 x 5 1/2\".";
  } else if (value.text.size() > most_text) {
    trouble = in_quotes(key) + " is too long. Shorten it.";
  } else {
    SizeReading size = read_size(value.text, context_.unit);
    if (size.size && (size.size->width <= 0 || size.size->height <= 0)) {
      trouble = in_quotes(key) + " is " + in_quotes(value.text) +
                ", and both sides have to be more than 0. Write larger ones.";
    } else if (size.size) {
      return StatedSize{*size.size, std::string(trimmed(value.text)), value.spot, std::move(size.numbered)};
    } else {
      trouble = size.trouble;
    }
  }
  context_.mistake(value.spot, trouble);
  return std::nullopt;
}

SideWishes Table::sides(std::string_view key, WishTakes takes) {
  SideWishes wishes;
  const Entry* entry = take(key);
  if (entry == nullptr) return wishes;
  if (entry->value.kind != Kind::table) {
    wishes.all = wish_of(key, entry->value, takes);
    return wishes;
  }
  Table table(entry->value, "a table of sides", context_);
  wishes.left = table.wish("left", takes);
  wishes.right = table.wish("right", takes);
  wishes.top = table.wish("top", takes);
  wishes.bottom = table.wish("bottom", takes);
  wishes.across = table.wish("across", takes);
  wishes.down = table.wish("down", takes);
  table.finish();
  return wishes;
}

std::vector<Name> Table::names(std::string_view key) {
  std::vector<Name> names;
  const Entry* entry = take(key);
  if (entry == nullptr) return names;
  std::set<std::string_view> seen;
  const auto add = [&](const Value& value) {
    if (value.kind != Kind::text || value.text.empty()) {
      context_.mistake(value.spot, in_quotes(key) + " takes names between quotes, and this is " +
                                       (value.kind == Kind::text ? "empty" : what_is(value)) +
                                       ". Write a name.");
    } else if (!seen.insert(value.text).second) {
      context_.mistake(value.spot, in_quotes(value.text) + " is named twice here. Take one of them out.");
    } else {
      names.push_back({value.text, value.spot});
    }
  };
  if (entry->value.kind == Kind::list) {
    for (const Value& item : entry->value.items) add(item);
  } else {
    add(entry->value);
  }
  return names;
}

std::vector<Stated<Rational>> Table::lengths(std::string_view key) {
  std::vector<Stated<Rational>> lengths;
  const Entry* entry = take(key);
  if (entry == nullptr) return lengths;
  const auto add = [&](const Value& value) {
    if (const auto length = length_of(key, value, Bound::positive)) lengths.push_back(*length);
  };
  const Value& value = entry->value;
  if (value.kind == Kind::list) {
    for (const Value& item : value.items) add(item);
  } else if (value.kind == Kind::text) {
    for (std::size_t from = 0; from <= value.text.size();) {
      const std::size_t comma = std::min(value.text.find(',', from), value.text.size());
      Value part = value;
      part.text = std::string(trimmed(std::string_view(value.text).substr(from, comma - from)));
      add(part);
      from = comma + 1;
    }
  } else {
    add(value);
  }
  return lengths;
}

void Table::not_among(std::string_view key, const Stated<std::string>& stated,
                      const std::vector<std::string>& words) {
  context_.mistake(stated.spot, in_quotes(stated.value) + " is no word for " + in_quotes(key) +
                                    ", which is one of " + either(words) + "." + offer(stated.value, words));
}

const Value* Table::one_table(std::string_view key) {
  const Entry* entry = take(key);
  if (entry == nullptr) return nullptr;
  if (entry->value.kind == Kind::table) return &entry->value;
  context_.mistake(entry->value.kind == Kind::list ? entry->spot : entry->value.spot,
                   in_quotes(key) + " is one table here. Head it [" + std::string(key) + "].");
  return nullptr;
}

std::vector<const Value*> Table::many_tables(std::string_view key) {
  std::vector<const Value*> tables;
  const Entry* entry = take(key);
  if (entry == nullptr) return tables;
  const auto add = [&](const Value& value) {
    if (value.kind == Kind::table) {
      tables.push_back(&value);
    } else {
      context_.mistake(value.spot, in_quotes(key) + " is " + what_is(value) + " here. Head each one [[" +
                                       std::string(key) + "]].");
    }
  };
  if (entry->value.kind == Kind::list) {
    for (const Value& item : entry->value.items) add(item);
  } else if (entry->value.kind == Kind::table) {
    context_.mistake(entry->value.spot,
                     "There may be several of these, so their heading has two brackets. Write [[" +
                         std::string(key) + "]].");
    tables.push_back(&entry->value);
  } else {
    add(entry->value);
  }
  return tables;
}

void Table::finish() {
  for (const Entry& entry : table_.entries) {
    if (std::find(asked_.begin(), asked_.end(), entry.key) != asked_.end()) continue;
    context_.mistake(entry.spot,
                     in_quotes(entry.key) + " is not a key of " + kind_ + "." + offer(entry.key, asked_));
  }
  auto& keys = context_.keys[kind_];
  if (keys.empty()) keys = std::move(asked_);
}

}  // namespace evenmat::reading
