#include "solver/search/levels.h"

#include <algorithm>

namespace evenmat {
namespace {

constexpr Wide most = static_cast<Wide>(1) << 90;

Wide magnitude(Wide value) { return value < 0 ? -value : value; }

Wide common_divisor(Wide a, Wide b) {
  a = magnitude(a);
  b = magnitude(b);
  while (b != 0) a = std::exchange(b, a % b);
  return a;
}

Wide to_wide(const Integer& value) {
  if (abs(value) >= (Integer(1) << 89)) throw TooFine{};
  const Integer size = abs(value);
  const auto high = static_cast<unsigned long long>(Integer(size >> 64));
  const auto low = static_cast<unsigned long long>(Integer(size & ((Integer(1) << 64) - 1)));
  const Wide wide = (static_cast<Wide>(high) << 64) + static_cast<Wide>(low);
  return value < 0 ? -wide : wide;
}

Wide floor_to(Wide over, Wide under, Wide grid) {
  const Wide step = under * grid;
  Wide count = over / step;
  if (over < 0 && count * step != over) --count;
  return count * grid;
}

}  // namespace

Integer integer_of(Wide value) {
  const bool negative = value < 0;
  auto rest = static_cast<UnsignedWide>(magnitude(value));
  Integer number = static_cast<unsigned long long>(rest >> 64U);
  number <<= 64;
  number += static_cast<unsigned long long>(rest);
  return negative ? Integer(-number) : number;
}

Wide wide_of(const Rational& value, const Integer& scale) {
  return to_wide(boost::multiprecision::numerator(Rational(value * scale)));
}

void Levels::add(const Arc& arc) { arcs_.push_back(in_use(arc)); }

Arc Levels::in_use(const Arc& arc) const {
  Arc own = arc;
  own.length *= refined_;
  if (own.entry >= 0 && !moves(own.entry)) {
    own.length += settled_[static_cast<std::size_t>(own.entry)];
    own.entry = -1;
  }
  return own;
}

Rational Levels::in_units(const Ratio& ratio) const {
  return {integer_of(ratio.over), integer_of(ratio.under) * integer_of(scale_)};
}

Levels::Ratio Levels::in_scale(const Rational& length) const {
  const Rational scaled = length * Rational(integer_of(scale_));
  return {to_wide(boost::multiprecision::numerator(scaled)),
          to_wide(boost::multiprecision::denominator(scaled))};
}

void Levels::refine(Wide factor) {
  if (factor == 1) return;
  scale_ *= factor;
  refined_ *= factor;
  for (Wide& level : settled_) level *= factor;
  if (grid_ > 0) grid_ *= factor;
  if (scale_ > most / factor) throw TooFine{};
  for (Arc& arc : arcs_) {
    if (magnitude(arc.length) > most / factor) throw TooFine{};
    arc.length *= factor;
  }
}

void Levels::settle(int entry, Wide level) {
  active_[static_cast<std::size_t>(entry)] = false;
  settled_[static_cast<std::size_t>(entry)] = level;
  for (Arc& arc : arcs_) {
    if (arc.entry != entry) continue;
    arc.length += level;
    arc.entry = -1;
  }
}

std::vector<std::size_t> Levels::circle(const Ratio& level, int raised) const {
  constexpr auto none = static_cast<std::size_t>(-1);
  const auto count = static_cast<std::size_t>(places_);
  // Kept from call to call: this is asked thousands of times for one card.
  thread_local std::vector<Wide> place;
  thread_local std::vector<std::size_t> by;  // the arc that moved a place last
  thread_local std::vector<int> seen;
  thread_local std::vector<Wide> length;
  place.assign(count, 0);
  by.assign(count, none);
  seen.assign(count, -1);
  length.resize(arcs_.size());
  for (std::size_t i = 0; i < arcs_.size(); ++i) {
    length[i] = weight(arcs_[i], level);
    if (arcs_[i].entry >= 0 && arcs_[i].entry == raised) length[i] += grid_ * level.under;
  }
  for (int round = 0;; ++round) {
    bool moved = false;
    for (std::size_t i = 0; i < arcs_.size(); ++i) {
      const auto from = static_cast<std::size_t>(arcs_[i].from);
      const auto to = static_cast<std::size_t>(arcs_[i].to);
      const Wide reach = place[from] + length[i];
      if (reach <= place[to]) continue;
      place[to] = reach;
      by[to] = i;
      moved = true;
    }
    if (!moved) return {};
    // Arcs that move each other round a circle move it for ever.
    std::fill(seen.begin(), seen.end(), -1);
    for (std::size_t start = 0; start < count; ++start) {
      std::size_t at = start;
      while (by[at] != none && seen[at] < 0) {
        seen[at] = static_cast<int>(start);
        at = static_cast<std::size_t>(arcs_[by[at]].from);
      }
      if (by[at] == none || seen[at] != static_cast<int>(start)) continue;
      std::vector<std::size_t> found;
      const std::size_t first = at;
      do {
        found.push_back(by[at]);
        at = static_cast<std::size_t>(arcs_[by[at]].from);
      } while (at != first);
      return found;
    }
  }
}

Levels::Ratio Levels::ratio_of(const std::optional<Rational>& level) const {
  if (level) return in_scale(*level);
  Ratio lowest{-1, 1};
  for (const Arc& arc : arcs_) lowest.over -= magnitude(arc.length);
  return lowest;
}

std::optional<Footing> Levels::footing(const std::optional<Rational>& level) const {
  const Ratio ratio = ratio_of(level);
  Footing footing;
  const auto count = static_cast<std::size_t>(places_);
  footing.place_.assign(count, 0);
  footing.pushes_.resize(count);
  for (const Arc& arc : arcs_) {
    footing.pushes_[static_cast<std::size_t>(arc.from)].push_back(
        {static_cast<std::size_t>(arc.to), weight(arc, ratio)});
  }
  // Without a circle that is too long, every place is at rest after as many rounds as there are places.
  for (int round = 0; round <= places_; ++round) {
    bool moved = false;
    for (std::size_t from = 0; from < count; ++from) {
      for (const Footing::Push& push : footing.pushes_[from]) {
        const Wide reach = footing.place_[from] + push.length;
        if (reach <= footing.place_[push.to]) continue;
        footing.place_[push.to] = reach;
        moved = true;
      }
    }
    if (!moved) return footing;
  }
  return std::nullopt;
}

std::vector<Arc> Levels::for_footing(const std::vector<Arc>& arcs,
                                     const std::optional<Rational>& level) const {
  const Ratio ratio = ratio_of(level);
  std::vector<Arc> own;
  own.reserve(arcs.size());
  for (const Arc& arc : arcs) {
    own.push_back(in_use(arc));
    own.back().length = weight(own.back(), ratio);
    own.back().entry = -1;
  }
  return own;
}

bool Footing::bears(const std::vector<Arc>& arcs) const {
  bool pushed = false;
  for (const Arc& arc : arcs) {
    pushed = pushed || place_[static_cast<std::size_t>(arc.from)] + arc.length >
                           place_[static_cast<std::size_t>(arc.to)];
  }
  if (!pushed) return true;
  std::vector<Wide> place = place_;
  std::vector<std::size_t> waiting;
  for (std::size_t tried = 0; tried < arcs.size(); ++tried) {
    const auto start = static_cast<std::size_t>(arcs[tried].from);
    const auto push = [&](std::size_t to, Wide reach) {
      if (reach <= place[to]) return true;
      if (to == start) return false;
      place[to] = reach;
      waiting.push_back(to);
      return true;
    };
    waiting.clear();
    if (!push(static_cast<std::size_t>(arcs[tried].to), place[start] + arcs[tried].length)) return false;
    while (!waiting.empty()) {
      const std::size_t from = waiting.back();
      waiting.pop_back();
      for (const Push& on : pushes_[from]) {
        if (!push(on.to, place[from] + on.length)) return false;
      }
      for (std::size_t earlier = 0; earlier < tried; ++earlier) {
        if (static_cast<std::size_t>(arcs[earlier].from) != from) continue;
        if (!push(static_cast<std::size_t>(arcs[earlier].to), place[from] + arcs[earlier].length))
          return false;
      }
    }
  }
  return true;
}

Levels::Step Levels::next() {
  Step step;
  if (std::none_of(arcs_.begin(), arcs_.end(), [](const Arc& arc) { return arc.entry >= 0; })) {
    step.kind = circle({0, 1}).empty() ? Step::Kind::free : Step::Kind::impossible;
    return step;
  }
  Ratio level{1, 1};  // higher than anything can be
  for (const Arc& arc : arcs_) level.over += magnitude(arc.length);
  std::vector<std::size_t> tight;
  for (auto found = circle(level); !found.empty(); found = circle(level)) {
    Wide length = 0;
    Wide entries = 0;
    for (const std::size_t i : found) {
      length += arcs_[i].length;
      if (arcs_[i].entry >= 0) ++entries;
    }
    if (entries == 0) {
      step.kind = Step::Kind::impossible;
      return step;
    }
    const Wide common = std::max<Wide>(common_divisor(length, entries), 1);
    level = {-length / common, entries / common};
    tight = std::move(found);
  }
  if (tight.empty()) return step;
  const auto add_entry = [&](int entry) {
    if (entry >= 0 && std::find(step.entries.begin(), step.entries.end(), entry) == step.entries.end()) {
      step.entries.push_back(entry);
    }
  };
  if (grid_ == 0) {
    step.kind = Step::Kind::raised;
    step.level = in_units(level);
    for (const std::size_t i : tight) add_entry(arcs_[i].entry);
    refine(level.under);
    for (const int entry : step.entries) settle(entry, level.over);
    return step;
  }
  const Ratio reached{floor_to(level.over, level.under, grid_), 1};
  step.level = in_units(reached);
  for (std::size_t entry = 0; entry < active_.size(); ++entry) {
    if (!active_[entry]) continue;
    if (!circle(reached, static_cast<int>(entry)).empty()) add_entry(static_cast<int>(entry));
  }
  if (!step.entries.empty()) {
    step.kind = Step::Kind::raised;
    for (const int entry : step.entries) settle(entry, reached.over);
    return step;
  }
  step.kind = Step::Kind::trade_off;
  Wide room = 0;  // what the circle leaves its entries together
  for (const std::size_t i : circle({reached.over + grid_, 1})) {
    add_entry(arcs_[i].entry);
    room -= arcs_[i].length;
  }
  room -= static_cast<Wide>(step.entries.size()) * reached.over;
  step.above = static_cast<int>(room / grid_);
  return step;
}

void Levels::let_be(const std::vector<int>& entries, const Rational& level) {
  const Ratio exact = in_scale(level);
  refine(exact.under);
  for (const int entry : entries) settle(entry, exact.over);
}

void Levels::hold(int entry, const Rational& level) {
  const Ratio exact = in_scale(level);
  refine(exact.under);
  std::vector<Arc> back;
  for (const Arc& arc : arcs_) {
    if (arc.entry == entry) back.push_back({arc.to, arc.from, -arc.length - exact.over, -1});
  }
  settle(entry, exact.over);
  arcs_.insert(arcs_.end(), back.begin(), back.end());
}

std::optional<std::vector<Rational>> Levels::least_places() const {
  const auto count = static_cast<std::size_t>(places_);
  std::vector<std::optional<Wide>> place(count);
  place[0] = 0;
  for (int round = 0; round <= places_; ++round) {
    bool moved = false;
    for (const Arc& arc : arcs_) {
      const auto& from = place[static_cast<std::size_t>(arc.from)];
      auto& to = place[static_cast<std::size_t>(arc.to)];
      if (!from || (to && *to >= *from + arc.length)) continue;
      to = *from + arc.length;
      moved = true;
    }
    if (!moved) break;
  }
  std::vector<Rational> places;
  for (const auto& at : place) {
    if (!at) return std::nullopt;
    places.push_back(in_units({*at, 1}));
  }
  return places;
}

}  // namespace evenmat
