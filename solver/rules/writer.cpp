#include "solver/rules/writer.h"

#include <fmt/format.h>

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
  rules_->rules.push_back({std::move(choices), std::move(says), spot, Origin::given, 0, version_});
  return rules_->rules.size() - 1;
}

void Writer::given(Relation relation, std::string says, Spot spot) {
  given({{std::move(relation)}}, std::move(says), spot);
}

std::size_t Writer::stated(std::vector<std::vector<Relation>> choices, std::string says, Spot spot,
                           std::size_t wish) {
  rules_->rules.push_back({std::move(choices), std::move(says), spot, Origin::stated, wish, version_});
  return rules_->rules.size() - 1;
}

void Writer::stated(Relation relation, std::string says, Spot spot, std::size_t wish) {
  stated({{std::move(relation)}}, std::move(says), spot, wish);
}

void Writer::wished(const Wish& wish, const Sum& distance, const std::string& what, std::size_t id,
                    const std::optional<Sum>& like) {
  std::vector<Relation> range;
  if (const auto exact = wish.exact()) {
    range.push_back(equals(distance, *exact));
  } else {
    if (wish.at_least) range.push_back(evenmat::at_least(distance, *wish.at_least));
    if (wish.at_most) range.push_back(evenmat::at_most(distance, *wish.at_most));
  }
  if (wish.same_as && like) range.push_back(equals(distance, *like));
  std::vector<std::vector<Relation>> choices;
  for (const Rational& value : wish.one_of) {
    choices.push_back(range);
    choices.back().push_back(equals(distance, value));
  }
  if (wish.one_of.empty() && !range.empty()) choices.push_back(std::move(range));
  if (!choices.empty()) stated(std::move(choices), fmt::format("{} is {}", what, wish.text), wish.spot, id);
  if (wish.about) aim(Step::about, distance - *wish.about, fmt::format("{} is {}", what, wish.text));
}

void Writer::aim(Step step, Sum sum, std::string says) {
  rules_->aims.push_back({step, std::move(sum), std::move(says)});
}

void Writer::separate(Separation separation) { rules_->separations.push_back(std::move(separation)); }

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
                 const LikeSides& like) {
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
      writer.wished(*wish, sides[side], what + where, entry->second, other);
    }
  }
  const auto level = [&](const std::optional<Wish>& wish, std::initializer_list<Edge> edges) {
    if (!wish || !wish->even) return;
    const std::size_t id = ids.at(&*wish);
    const Edge first = *edges.begin();
    for (const Edge side : edges) {
      if (side == first) continue;
      writer.stated(
          equals(sides[side], sides[first]),
          fmt::format("{} is even: as wide at the {} as at the {}", what, edge_name(side), edge_name(first)),
          wish->spot, id);
    }
  };
  level(wishes.all, {Edge::left, Edge::right, Edge::top, Edge::bottom});
  level(wishes.across, {Edge::left, Edge::right});
  level(wishes.down, {Edge::top, Edge::bottom});
}

}  // namespace evenmat::writing
