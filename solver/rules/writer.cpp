#include "solver/rules/writer.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace evenmat::writing {

const Sum& Sides::operator[](Edge which) const {
  switch (which) {
    case Edge::left:
      return left;
    case Edge::right:
      return right;
    case Edge::top:
      return top;
    case Edge::bottom:
      break;
  }
  return bottom;
}

Sides sides_between(const Box& outer, const Box& inner) {
  return {inner.left - outer.left, inner.top - outer.top, outer.right - inner.right,
          outer.bottom - inner.bottom};
}

Writer::Writer(Rules& rules, const Card& card, const Design& design, std::size_t version)
    : rules_(&rules), card_(&card), design_(&design), version_(version), next_wish_(1) {
  for (const Rule& rule : rules.rules) next_wish_ = std::max(next_wish_, rule.wish + 1);
}

std::size_t Writer::add_rectangle(Rectangle::Kind kind, const std::string& name) {
  Rectangle rectangle;
  rectangle.kind = kind;
  rectangle.name = name;
  rectangle.version = version_;
  rules_->rectangles.push_back(std::move(rectangle));
  return rules_->rectangles.size() - 1;
}

Sum Writer::box_width(std::size_t rectangle) const {
  const Rectangle& r = rules_->rectangles[rectangle];
  return width(rectangle) * r.box_cos + height(rectangle) * r.box_sin;
}

Sum Writer::box_height(std::size_t rectangle) const {
  const Rectangle& r = rules_->rectangles[rectangle];
  return height(rectangle) * r.box_cos + width(rectangle) * r.box_sin;
}

Box Writer::box(std::size_t rectangle) const {
  const Sum left = Sum::of(variable(rectangle, Measure::left));
  const Sum top = Sum::of(variable(rectangle, Measure::top));
  return {left, top, left + box_width(rectangle), top + box_height(rectangle)};
}

Box Writer::cut_box(std::size_t rectangle) const {
  const Sum left = Sum::of(variable(rectangle, Measure::left));
  const Sum top = Sum::of(variable(rectangle, Measure::top));
  return {left, top, left + width(rectangle), top + height(rectangle)};
}

Sum Writer::measure(const Thing& thing, Line line) const {
  const Box place = box(thing.body);
  switch (line) {
    case Line::left:
      return place.left;
    case Line::right:
      return place.right;
    case Line::top:
      return place.top;
    case Line::bottom:
      return place.bottom;
    case Line::width:
      return width(thing.cell);
    case Line::height:
      return height(thing.cell);
    case Line::centre_across:
      return (place.left + place.right) * Rational(1, 2);
    case Line::centre_down:
      break;
  }
  return (place.top + place.bottom) * Rational(1, 2);
}

std::size_t Writer::given(std::vector<std::vector<Relation>> choices, std::string says, Spot spot) {
  rules_->rules.push_back(
      {std::move(choices), std::move(says), spot, Origin::given, 0, version_, false, false, {}, {}});
  return rules_->rules.size() - 1;
}

std::size_t Writer::given(Relation relation, std::string says, Spot spot) {
  return given({{std::move(relation)}}, std::move(says), spot);
}

std::size_t Writer::stated(std::vector<std::vector<Relation>> choices, std::string says, Spot spot,
                           std::size_t wish) {
  rules_->rules.push_back(
      {std::move(choices), std::move(says), spot, Origin::stated, wish, version_, false, false, {}, {}});
  return rules_->rules.size() - 1;
}

std::size_t Writer::stated(Relation relation, std::string says, Spot spot, std::size_t wish) {
  return stated({{std::move(relation)}}, std::move(says), spot, wish);
}

bool names(const std::vector<Name>& list, const Piece& piece) {
  return std::any_of(list.begin(), list.end(),
                     [&](const Name& name) { return name.value == piece.name.value; });
}

bool keeps_off(const Wish& wish) {
  return (wish.at_least && *wish.at_least >= 0) || (!wish.one_of.empty() && wish.one_of.front() >= 0);
}

std::optional<StatedNumber> number_of(const Wish& wish, NumberPart part, const Rational& value) {
  const auto& numbers = wish.numbered.numbers;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (numbers[i].part == part && numbers[i].value == value) {
      // A place may be stated as beyond an edge; whoever does not say so is not offered it.
      const auto least = value < 0 ? std::nullopt : std::optional<Rational>(0);
      return StatedNumber{wish.spot, wish.text, wish.numbered, i, {}, least, false};
    }
  }
  return std::nullopt;
}

StatedNumber number_of(const StatedSize& size, NumberPart part) {
  return {size.spot, size.text, size.numbered, part == NumberPart::width ? 0U : 1U, {}, Rational(0), false};
}

void Writer::uses(std::size_t rule, const StatedNumber& number, const Rational& factor, std::size_t choice,
                  std::size_t relation) {
  auto& numbers = rules_->numbers;
  const auto known = std::find_if(numbers.begin(), numbers.end(), [&](const StatedNumber& other) {
    return other.spot == number.spot && other.place == number.place && other.text == number.text;
  });
  const auto index = static_cast<std::size_t>(known - numbers.begin());
  if (known == numbers.end()) numbers.push_back(number);
  rules_->rules[rule].uses.push_back({index, choice, relation, factor});
}

void Writer::wished(const Wish& wish, const Sum& distance, const std::string& what, std::size_t id,
                    Amount amount, const std::optional<Sum>& like) {
  struct Held {
    NumberPart part;
    Rational value, factor;
    std::size_t choice, relation;
  };
  std::vector<Held> held;
  std::vector<Relation> range;
  const auto hold = [&](NumberPart part, const Rational& value, int factor) {
    held.push_back({part, value, factor, 0, range.size() - 1});
  };
  // A list that its range leaves one entry of is told by its list.
  const auto exact = wish.one_of.empty() ? wish.exact() : std::nullopt;
  if (exact && number_of(wish, NumberPart::exact, *exact)) {
    range.push_back(equals(distance, *exact));
    hold(NumberPart::exact, *exact, -1);
  } else {
    if (wish.at_least) {
      range.push_back(evenmat::at_least(distance, *wish.at_least));
      hold(NumberPart::at_least, *wish.at_least, 1);
    }
    if (wish.at_most) {
      range.push_back(evenmat::at_most(distance, *wish.at_most));
      hold(NumberPart::at_most, *wish.at_most, -1);
    }
  }
  if (wish.same_as && like) range.push_back(equals(distance, *like));
  std::vector<std::vector<Relation>> choices;
  const std::vector<Held> once = held;
  for (const Rational& value : wish.one_of) {
    if (!choices.empty()) {
      for (Held again : once) {
        again.choice = choices.size();
        held.push_back(again);
      }
    }
    held.push_back({NumberPart::one_of, value, -1, choices.size(), range.size()});
    choices.push_back(range);
    choices.back().push_back(equals(distance, value));
  }
  if (wish.one_of.empty() && !range.empty()) choices.push_back(std::move(range));
  if (!choices.empty()) {
    const std::size_t rule =
        stated(std::move(choices), fmt::format("{} is {}", what, wish.text), wish.spot, id);
    tell(rule, std::move(amount));
    for (const Held& h : held) {
      if (auto number = number_of(wish, h.part, h.value)) {
        number->about = what;
        uses(rule, *number, h.factor, h.choice, h.relation);
      }
    }
  }
  if (wish.about) {
    aim(Step::about, distance - *wish.about, fmt::format("{} is {}", what, wish.text));
    rules_->aims.back().spot = wish.spot;
  }
}

void Writer::aim(Step step, Sum sum, std::string says) {
  rules_->aims.push_back({step, std::move(sum), std::move(says), {}});
}

void Writer::separate(Separation separation) { rules_->separations.push_back(std::move(separation)); }

Box closed_box(const Writer& writer, const Thing& thing) {
  Box box = writer.box(thing.body);
  for (const Face& face : faces(writer.design().base)) {
    if (face.name != thing.face) continue;
    if (face.turned == Turned::across) {
      const Sum edge = face.closed_left + face.whole.width;
      const Sum top = face.closed_top;
      return {edge - box.right, box.top + top, edge - box.left, box.bottom + top};
    }
    if (face.turned == Turned::down) {
      const Sum edge = face.closed_top + face.whole.height;
      const Sum left = face.closed_left;
      return {box.left + left, edge - box.bottom, box.right + left, edge - box.top};
    }
  }
  return box;
}

std::vector<Sum> gaps(const Box& a, const Box& b) {
  return {b.left - a.right, a.left - b.right, b.top - a.bottom, a.top - b.bottom};
}

std::vector<std::vector<Relation>> apart(const Box& a, const Box& b, const Rational& gap) {
  std::vector<std::vector<Relation>> choices;
  for (const Sum& distance : gaps(a, b)) choices.push_back({at_least(distance, gap)});
  return choices;
}

std::vector<const Wish*> wishes_for(const SideWishes& wishes, Edge side) {
  const std::optional<Wish>& pair = is_across(side) ? wishes.across : wishes.down;
  const std::optional<Wish>& own = side == Edge::left    ? wishes.left
                                   : side == Edge::right ? wishes.right
                                   : side == Edge::top   ? wishes.top
                                                         : wishes.bottom;
  std::vector<const Wish*> found;
  for (const auto* wish : {&wishes.all, &pair, &own}) {
    if (*wish) found.push_back(&**wish);
  }
  return found;
}

void write_sides(Writer& writer, const SideWishes& wishes, const Sides& sides, const std::string& what,
                 std::size_t rectangle, const LikeSides& like) {
  std::map<const Wish*, std::size_t> ids;  // one wish is one unit however many sides it binds
  for (const Edge side : all_edges) {
    for (const Wish* wish : wishes_for(wishes, side)) {
      const auto [entry, fresh] = ids.try_emplace(wish, 0);
      if (fresh) entry->second = writer.new_wish();
      std::optional<Sum> other;
      if (wish->same_as) {
        if (const auto sides_there = like(*wish->same_as)) other = (*sides_there)[side];
      }
      const bool all = wishes.all && wish == &*wishes.all;
      const bool two = (wishes.across && wish == &*wishes.across) || (wishes.down && wish == &*wishes.down);
      const std::string where = all   ? ""
                                : two ? (is_across(side) ? ", left and right," : ", top and bottom,")
                                      : fmt::format(" at the {}", edge_name(side));
      writer.wished(*wish, sides[side], what + where, entry->second, {what, false, side, rectangle}, other);
    }
  }
  const auto level = [&](const std::optional<Wish>& wish, std::initializer_list<Edge> edges) {
    if (!wish || !wish->even) return;
    const std::size_t id = ids.at(&*wish);
    const Edge first = *edges.begin();
    for (const Edge side : edges) {
      if (side == first) continue;
      const std::size_t rule = writer.stated(
          equals(sides[side], sides[first]),
          fmt::format("{} is even: as wide at the {} as at the {}", what, edge_name(side), edge_name(first)),
          wish->spot, id);
      writer.tell(rule, {what, false, side, rectangle});
    }
  };
  level(wishes.all, {Edge::left, Edge::right, Edge::top, Edge::bottom});
  level(wishes.across, {Edge::left, Edge::right});
  level(wishes.down, {Edge::top, Edge::bottom});
}

}  // namespace evenmat::writing
