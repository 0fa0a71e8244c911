// One table of the card file, read key by key: each kind of value, its mistakes, and at the end the keys
// that no table of its kind has. What the keys mean together is checked elsewhere.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/card.h"
#include "model/reading/document.h"

namespace evenmat::reading {

// What every part of the reading shares.
struct Context {
  Unit unit = Unit::inch;
  std::vector<Remark> mistakes;
  std::vector<std::string> names;  // of layers and windows, in file order
  // Of each kind of table the keys that were looked for, in the order of looking.
  std::map<std::string, std::vector<std::string>> keys;

  void mistake(Spot spot, std::string says) { mistakes.push_back({spot, std::move(says)}); }
};

// Which lengths a key takes.
enum class Bound { any, not_negative, positive };

// What a wish may ask beside lengths.
struct WishTakes {
  Bound bound = Bound::not_negative;
  bool even = false;
  bool same_as = true;
  // Said of a length out of bounds where there is more to say: `"frame" is "0", and` ...
  std::string_view out_of_bounds = {};
};

template <typename T>
using Words = std::vector<std::pair<std::string, T>>;

class Table {
 public:
  // `kind`: how messages call it, such as "a layer".
  Table(const Value& table, std::string kind, Context& context);

  // The value of `key` if it is stated. Every key is asked for here, so that what was never asked for is
  // unknown.
  const Entry* take(std::string_view key);

  [[nodiscard]] bool has(std::string_view key) const { return table_.find(key) != nullptr; }

  Maybe<std::string> text(std::string_view key);
  Maybe<int> count(std::string_view key, int least, int most);
  Maybe<Rational> length(std::string_view key, Bound bound);
  std::optional<StatedLength> thickness(std::string_view key, Bound bound);  // with its text
  // Of no unit; `wanted` is what messages ask for.
  Maybe<Rational> number(std::string_view key, Bound bound, const char* wanted = "a number, such as 4.5");
  bool truth(std::string_view key);
  std::optional<Wish> wish(std::string_view key, WishTakes takes);
  std::optional<StatedSize> size(std::string_view key);
  SideWishes sides(std::string_view key, WishTakes takes);
  std::vector<Name> names(std::string_view key);                // one text or a list of them
  std::vector<Stated<Rational>> lengths(std::string_view key);  // a list, or texts with commas; none negative

  template <typename T>
  Maybe<T> word(std::string_view key, const Words<T>& words) {
    const auto stated = text(key);
    if (!stated) return std::nullopt;
    for (const auto& [word, meaning] : words)
      if (word == stated->value) return Stated<T>{meaning, stated->spot};
    std::vector<std::string> all;
    for (const auto& entry : words) all.push_back(entry.first);
    not_among(key, *stated, all);
    return std::nullopt;
  }

  // Tables under `key`: one for [key], each for [[key]]; a mistake for the other form.
  const Value* one_table(std::string_view key);
  std::vector<const Value*> many_tables(std::string_view key);

  // A mistake at each key that was not asked for.
  void finish();

  [[nodiscard]] Spot spot() const { return table_.spot; }
  [[nodiscard]] const std::string& kind() const { return kind_; }

 private:
  void not_among(std::string_view key, const Stated<std::string>& stated,
                 const std::vector<std::string>& words);
  std::optional<Wish> wish_of(std::string_view key, const Value& value, WishTakes takes);
  Maybe<Rational> length_of(std::string_view key, const Value& value, Bound bound);

  const Value& table_;
  std::string kind_;
  Context& context_;
  std::vector<std::string> asked_;
};

}  // namespace evenmat::reading
