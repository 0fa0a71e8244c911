#include "solver/why/conflicts.h"

#include <algorithm>
#include <optional>
#include <set>

namespace evenmat {
namespace {

bool includes(const WishIds& all, const WishIds& some) {
  return std::includes(all.begin(), all.end(), some.begin(), some.end());
}

WishIds without(const WishIds& all, const WishIds& some) {
  WishIds rest;
  std::set_difference(all.begin(), all.end(), some.begin(), some.end(), std::back_inserter(rest));
  return rest;
}

WishIds with(WishIds wishes, WishId wish) {
  wishes.insert(std::lower_bound(wishes.begin(), wishes.end(), wish), wish);
  return wishes;
}

bool share(const WishIds& a, const WishIds& b) {
  return std::any_of(a.begin(), a.end(), [&](WishId u) { return std::binary_search(b.begin(), b.end(), u); });
}

// Drops wishes from the last on as long as the rest cannot hold. `held` cannot hold, and that has just been
// asked. The result depends on what can hold only, not on what was blamed: that merely spares questions, for
// what is not among the blamed can go without asking.
Clash smallest_of(Inquiry& inquiry, std::size_t part, WishIds held) {
  WishIds blamed = inquiry.blamed();
  const WishIds from_the_end(held.rbegin(), held.rend());
  try {
    for (const WishId wish : from_the_end) {
      const WishIds rest = without(held, {wish});
      if (std::binary_search(blamed.begin(), blamed.end(), wish)) {
        if (inquiry.possible(part, rest)) continue;
        blamed = inquiry.blamed();
      }
      held = rest;
    }
  } catch (const OutOfTime&) {
    return {held, {part}, false};
  }
  return {held, {part}, true};
}

bool is_clash(Inquiry& inquiry, std::size_t part, const WishIds& wishes) {
  if (!includes(inquiry.parts()[part].wishes, wishes) || inquiry.possible(part, wishes)) return false;
  return std::all_of(wishes.begin(), wishes.end(),
                     [&](WishId wish) { return inquiry.possible(part, without(wishes, {wish})); });
}

class Search {
 public:
  Search(Inquiry& inquiry, const std::function<bool(const Clash&)>& found)
      : inquiry_(inquiry), found_(found), known_(inquiry.parts().size()), holds_whole_(known_.size()) {}

  bool run() {
    for (std::size_t part = 0; part < inquiry_.parts().size(); ++part) {
      if (!search(part)) return false;
    }
    return true;
  }

 private:
  bool search(std::size_t part) {
    const WishIds& all = inquiry_.parts()[part].wishes;
    if (can_hold_whole(part)) return true;
    if (!inquiry_.possible(part, {})) return found_({{}, {part}, true});
    std::set<std::pair<std::size_t, WishIds>> open{{0, {}}};  // fewest first
    std::vector<WishIds> enough;                              // left out, the rest can hold
    while (!open.empty()) {
      const WishIds out = open.begin()->second;
      open.erase(open.begin());
      const auto spared = [&](const WishIds& known) { return !share(known, out); };
      auto clash = std::find_if(known_[part].begin(), known_[part].end(), spared);
      if (clash == known_[part].end()) {
        const WishIds rest = without(all, out);
        if (inquiry_.possible(part, rest)) {
          enough.push_back(out);
          continue;
        }
        if (!tell(part, smallest_of(inquiry_, part, rest))) return false;
        clash = std::prev(known_[part].end());
      }
      for (const WishId wish : *clash) {
        const WishIds more = with(out, wish);
        const bool idle = std::any_of(enough.begin(), enough.end(),
                                      [&](const WishIds& few) { return includes(more, few); });
        if (!idle) open.emplace(more.size(), more);
      }
    }
    return true;
  }

  // What contains a conflict of another part is none of its own.
  bool is_smallest(const WishIds& wishes) {
    for (std::size_t part = 0; part < known_.size(); ++part) {
      if (!share(inquiry_.parts()[part].wishes, wishes) || can_hold_whole(part)) continue;
      for (const WishId wish : wishes) {
        if (!inquiry_.possible(part, without(wishes, {wish}))) return false;
      }
    }
    return true;
  }

  bool can_hold_whole(std::size_t part) {
    if (!holds_whole_[part]) holds_whole_[part] = inquiry_.possible(part, inquiry_.parts()[part].wishes);
    return *holds_whole_[part];
  }

  bool tell(std::size_t part, Clash clash) {
    const WishIds& wishes = clash.wishes;
    known_[part].push_back(wishes);
    if (!clash.smallest) return found_(clash);
    if (!is_smallest(wishes)) return true;
    for (std::size_t other = part + 1; other < known_.size(); ++other) {
      if (!is_clash(inquiry_, other, wishes)) continue;
      clash.parts.push_back(other);
      known_[other].push_back(wishes);
    }
    return found_(clash);
  }

  Inquiry& inquiry_;
  const std::function<bool(const Clash&)>& found_;
  std::vector<std::vector<WishIds>> known_;       // by part
  std::vector<std::optional<bool>> holds_whole_;  // by part, once asked
};

}  // namespace

bool find_clashes(Inquiry& inquiry, const std::function<bool(const Clash&)>& found) {
  return Search(inquiry, found).run();
}

}  // namespace evenmat
