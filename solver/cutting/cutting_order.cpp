// In which order the parts of a cut part come off, chosen for all layouts of a paper together: which one
// stays in hand to the end, for that one needs no setting. Nothing of steps.
//
// A cut part that is divided into parts of d sizes needs a setting for each size but that of its last part,
// where no other part of it has that size. A paper can so do without a size if, wherever it occurs, it occurs
// once and none of the sizes beside it is done without as well. Sizes are tried one after another, those that
// are best in hand first: what is left over, since pieces are truer to size when they are set. That need not
// end in the fewest settings there could be; should the given order need fewer, its own settings are what is
// begun from.
#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "solver/cutting/steps.h"

namespace evenmat::cutting {

namespace {

using Settings = std::set<Measure>;

struct Alike {
  int count = 0;
  bool waste = true;  // all of them
};

// The parts of one that is cut, by their reach in the way of its cuts.
using Sizes = std::map<Measure, Alike>;

Sizes sizes_of(const Part& cut) {
  Sizes sizes;
  for (const Part& part : cut.parts) {
    Alike& alike = sizes[reach(part, cut.across)];
    ++alike.count;
    if (part.what != Part::What::waste) alike.waste = false;
  }
  return sizes;
}

// Where the blade takes all there is behind the last piece, what is left has no width, and no stop is set to
// that.
bool order_is_given(const Part& cut, const Sizes& sizes) {
  return cut.order_matters || sizes.begin()->first == 0;
}

// What all cut parts of a paper ask for.
struct Wanted {
  Settings given;  // by the order of parts as it is
  Settings fixed;  // by parts whose order is given
  std::vector<Sizes> free;
};

void gather(const Part& part, Wanted& wanted) {
  if (part.what != Part::What::cut) return;
  Sizes sizes = sizes_of(part);
  Settings as_is;
  for (std::size_t i = 0; i + 1 < part.parts.size(); ++i) as_is.insert(reach(part.parts[i], part.across));
  wanted.given.insert(as_is.begin(), as_is.end());
  if (order_is_given(part, sizes)) {
    wanted.fixed.insert(as_is.begin(), as_is.end());
  } else {
    wanted.free.push_back(std::move(sizes));
  }
  for (const Part& inner : part.parts) gather(inner, wanted);
}

// Whether a part with these sizes can be cut at `settings` so that `last` is the size that stays in hand.
bool can_be_last(Measure last, const Sizes& sizes, const Settings& settings) {
  return std::all_of(sizes.begin(), sizes.end(), [&](const auto& size) {
    return settings.count(size.first) > 0 || (size.first == last && size.second.count == 1);
  });
}

bool can_do_without(Measure size, const Wanted& wanted, const Settings& settings) {
  if (wanted.fixed.count(size) > 0) return false;
  Settings others = settings;
  others.erase(size);
  return std::all_of(wanted.free.begin(), wanted.free.end(), [&](const Sizes& sizes) {
    return sizes.count(size) == 0 || can_be_last(size, sizes, others);
  });
}

// A size that occurs, and how well the paper does without a setting for it: best first.
struct Try {
  enum class InHand { wide, narrow_waste, narrow };
  InHand in_hand;
  std::size_t beside;  // so many other sizes could then not be done without
  bool piece;          // set before all else: a piece is truer to size so, and what is left need not be true
  Measure size;
  [[nodiscard]] auto key() const { return std::tuple(piece, in_hand, beside, -size); }
};

std::vector<Try> tries_of(const Wanted& wanted, Measure hold) {
  struct Found {
    bool waste = true;  // wherever it occurs
    std::set<Measure> beside;
  };
  std::map<Measure, Found> found;
  for (const Sizes& sizes : wanted.free) {
    for (const auto& [size, alike] : sizes) {
      found[size].waste = found[size].waste && alike.waste;
      for (const auto& other : sizes) found[size].beside.insert(other.first);
    }
  }
  std::vector<Try> tries;
  for (const auto& [size, one] : found) {
    const Try::InHand narrow = one.waste ? Try::InHand::narrow_waste : Try::InHand::narrow;
    tries.push_back({size >= hold ? Try::InHand::wide : narrow, one.beside.size(), !one.waste, size});
  }
  std::sort(tries.begin(), tries.end(), [](const Try& a, const Try& b) { return a.key() < b.key(); });
  return tries;
}

// The settings that are left of `settings` when it does without as many as it can, one after another.
Settings do_without(Settings settings, const Wanted& wanted, Measure hold) {
  for (const Try& one : tries_of(wanted, hold)) {
    // A narrow piece that is last has to be taped, which is worth a setting, unless the order so far did so.
    if (one.in_hand == Try::InHand::narrow && settings.size() <= wanted.given.size()) break;
    if (settings.count(one.size) > 0 && can_do_without(one.size, wanted, settings)) settings.erase(one.size);
  }
  return settings;
}

Settings settings_for(const std::vector<Layout>& layouts, Measure hold) {
  Wanted wanted;
  for (const Layout& layout : layouts) gather(layout.root, wanted);
  Settings all = wanted.fixed;
  for (const Sizes& sizes : wanted.free) {
    for (const auto& [size, alike] : sizes) all.insert(size);
  }
  const Settings chosen = do_without(std::move(all), wanted, hold);
  return chosen.size() <= wanted.given.size() ? chosen : do_without(wanted.given, wanted, hold);
}

struct Ordering {
  const Settings& settings;
  const std::vector<bool>& first;
  Measure hold;

  // Of those that `settings` allow, the one that is best in hand.
  [[nodiscard]] Measure last_of(const Sizes& sizes) const {
    std::tuple<bool, bool, bool, Measure> best{false, false, false, 0};
    for (const auto& [size, alike] : sizes) {
      if (!can_be_last(size, sizes, settings)) continue;
      best = std::max(best, std::tuple(alike.waste, size >= hold, alike.count == 1, size));
    }
    return std::get<Measure>(best);
  }

  void order(Part& part) const {
    for (Part& inner : part.parts) order(inner);
    if (part.what != Part::What::cut) return;
    const Sizes sizes = sizes_of(part);
    if (order_is_given(part, sizes)) return;
    const Measure last = last_of(sizes);
    Settings holding_first;
    for (const Part& inner : part.parts) {
      if (gives_any(inner, first)) holding_first.insert(reach(inner, part.across));
    }
    const auto place = [&](const Part& one) {
      const Measure size = reach(one, part.across);
      const bool waste = one.what == Part::What::waste;
      const bool cut = one.what == Part::What::cut;
      return std::tuple(size == last, size >= hold, holding_first.count(size) == 0, -size, waste,
                        !gives_any(one, first), cut, one.kind);
    };
    std::stable_sort(part.parts.begin(), part.parts.end(),
                     [&](const Part& a, const Part& b) { return place(a) < place(b); });
  }
};

}  // namespace

void put_in_cutting_order(std::vector<Layout>& layouts, const std::vector<bool>& first, Measure blade,
                          Measure hold) {
  const Settings settings = settings_for(layouts, hold);
  for (Layout& layout : layouts) {
    Ordering{settings, first, hold}.order(layout.root);
    place_parts(layout.root, blade);
  }
}

}  // namespace evenmat::cutting
