#include "solver/fit/let_go.h"

#include <algorithm>
#include <set>
#include <utility>

namespace evenmat::exploring {
namespace {

// Calls visit(name, key, part, wish) for every wish that is an amount once it is open.
template <typename Visit>
void for_each_wish(Design& design, const Visit& visit) {
  const auto one = [&](const std::string& name, const char* key, const char* part,
                       std::optional<Wish>& wish) {
    if (wish) visit(name, key, part, *wish);
  };
  const auto sides = [&](const std::string& name, const char* key, SideWishes& wishes) {
    one(name, key, "", wishes.all);
    one(name, key, "across", wishes.across);
    one(name, key, "down", wishes.down);
    one(name, key, "left", wishes.left);
    one(name, key, "right", wishes.right);
    one(name, key, "top", wishes.top);
    one(name, key, "bottom", wishes.bottom);
  };
  if (design.base.cut_back) visit("base", "cut-back", "", design.base.cut_back->by);
  for (Piece& piece : design.pieces) {
    const std::string& name = piece.name.value;
    sides(name, "border", piece.border);
    one(name, "frame", "", piece.frame);
    if (piece.artwork) sides(name, "margin", piece.margin);
    one(name, "width", "", piece.width);
    one(name, "height", "", piece.height);
    one(name, "from-left", "", piece.from_left);
    one(name, "from-right", "", piece.from_right);
    one(name, "from-top", "", piece.from_top);
    one(name, "from-bottom", "", piece.from_bottom);
    if (!piece.beside.empty() || piece.copies) one(name, "gap", "", piece.gap);
  }
}

std::vector<Design*> designs_of(Card& card) {
  std::vector<Design*> designs{&card.design};
  for (Variant& variant : card.variants) designs.push_back(&variant.design);
  return designs;
}

Wish exactly(const Rational& value, const StatedSize& size) {
  Wish wish;
  wish.at_least = wish.at_most = value;
  wish.text = size.text;
  wish.spot = size.spot;
  return wish;
}

// Values of a wish at its floor and above, or no farther outside than `by`.
Wish let_go(const Bound& bound, const std::optional<Rational>& by, const std::optional<Rational>& about,
            const Rational& mark) {
  Wish wish = bound.wish;
  const Rational floor = bound.floor(mark);
  const bool some = !wish.one_of.empty();
  const std::optional<Rational> low = some ? std::optional(wish.one_of.front()) : wish.at_least;
  const std::optional<Rational> high = some ? std::optional(wish.one_of.back()) : wish.at_most;
  wish.one_of.clear();
  if (low) wish.at_least = by ? std::max(floor, Rational(*low - *by)) : floor;
  wish.at_most = high && by ? std::optional<Rational>(*high + *by) : std::nullopt;
  if (!wish.about) wish.about = about;
  return wish;
}

// The place of the number that keeps the value out.
std::optional<std::size_t> number_against(const Bound& bound, const Rational& value) {
  const auto& numbers = bound.numbered.numbers;
  const auto with = [&](NumberPart part) -> std::optional<std::size_t> {
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      if (numbers[i].part == part) return i;
    }
    return std::nullopt;
  };
  if (bound.is_size) return with(bound.across ? NumberPart::width : NumberPart::height);
  if (!bound.wish.one_of.empty()) {
    std::optional<std::size_t> nearest;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      if (numbers[i].part != NumberPart::one_of) continue;
      if (!nearest ||
          abs(Rational(numbers[i].value - value)) < abs(Rational(numbers[*nearest].value - value)))
        nearest = i;
    }
    return nearest;
  }
  if (const auto exact = with(NumberPart::exact)) return exact;
  return with(bound.wish.at_least && value < *bound.wish.at_least ? NumberPart::at_least
                                                                  : NumberPart::at_most);
}

bool allows(const Wish& wish, const Rational& value) {
  if (wish.at_least && value < *wish.at_least) return false;
  if (wish.at_most && value > *wish.at_most) return false;
  return wish.one_of.empty() || std::find(wish.one_of.begin(), wish.one_of.end(), value) != wish.one_of.end();
}

}  // namespace

std::string Bound::amount_key() const { return is_size ? across ? "width" : "height" : key; }

Rational Bound::floor(const Rational& mark) const {
  const std::string what = amount_key();
  if (what == "width" || what == "height") return mark;
  const std::optional<Rational> low =
      wish.one_of.empty() ? wish.at_least : std::optional<Rational>(wish.one_of.front());
  return std::min(Rational(0), low.value_or(0));  // what lies on something stays on it
}

std::vector<Bound> bounds_of(const Card& card) {
  Card copy = card;
  std::vector<Bound> found;
  std::set<std::pair<Spot, std::string>> known;
  const auto add = [&](Bound bound) {
    if (bound.numbered.numbers.empty() || bound.wish.same_as) return;
    if (known.emplace(bound.spot, bound.amount_key()).second) found.push_back(std::move(bound));
  };
  for (Design* design : designs_of(copy)) {
    for_each_wish(*design, [&](const std::string& name, const char* key, const char* part, const Wish& wish) {
      add({name, key, part, wish.spot, wish.numbered, wish, false, true});
    });
    for (const Piece& piece : design->pieces) {
      if (!piece.size) continue;
      for (const bool across : {true, false}) {
        const Rational& length = across ? piece.size->size.width : piece.size->size.height;
        add({piece.name.value, "size", "", piece.size->spot, piece.size->numbered,
             exactly(length, *piece.size), true, across});
      }
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Bound& a, const Bound& b) { return a.spot < b.spot; });
  return found;
}

Rational outside(const Bound& bound, const Rational& value) {
  const Wish& wish = bound.wish;
  if (!wish.one_of.empty()) {
    Rational nearest = value - wish.one_of.front();
    for (const Rational& one : wish.one_of) {
      if (abs(Rational(value - one)) < abs(nearest)) nearest = value - one;
    }
    return nearest;
  }
  if (wish.at_least && value < *wish.at_least) return value - *wish.at_least;
  if (wish.at_most && value > *wish.at_most) return value - *wish.at_most;
  return 0;
}

std::optional<std::string> written_for(const Bound& bound, const Rational& value, Unit unit) {
  const std::optional<std::size_t> number = number_against(bound, value);
  if (!number) return std::nullopt;
  std::string text = with_numbers(bound.numbered, {{*number, value}}, unit);
  if (bound.is_size) return text;
  const WishReading reading = read_wish(text, unit, bound.spot);
  return reading.wish && allows(*reading.wish, value) ? std::optional(std::move(text)) : std::nullopt;
}

Card with_bound_let_go(const Card& card, const Bound& bound, const std::optional<Rational>& by,
                       const std::optional<Rational>& about) {
  Card copy = card;
  const Wish open = let_go(bound, by, about, card.mark);
  for (Design* design : designs_of(copy)) {
    for_each_wish(*design, [&](const std::string& name, const char* key, const char* part, Wish& wish) {
      if (name == bound.name && key == bound.key && part == bound.part && wish.spot == bound.spot)
        wish = open;
    });
    if (!bound.is_size) continue;
    for (Piece& piece : design->pieces) {
      if (piece.name.value != bound.name || !piece.size || piece.size->spot != bound.spot) continue;
      const StatedSize size = *piece.size;
      piece.size.reset();
      piece.width = bound.across ? open : exactly(size.size.width, size);
      piece.height = bound.across ? exactly(size.size.height, size) : open;
    }
  }
  return copy;
}

}  // namespace evenmat::exploring
