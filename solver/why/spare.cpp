#include "solver/why/spare.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <string>

#include "model/length.h"
#include "model/words.h"

namespace evenmat {
namespace {

// How far each relation of a list is from failing; the least. Equations have nothing to spare.
Rational slack(const std::vector<Relation>& relations, const std::vector<Rational>& values) {
  Rational least = 0;
  bool first = true;
  for (const Relation& relation : relations) {
    const Rational by = relation.equal ? Rational(0) : Rational(-relation.sum.at(values));
    if (first || by < least) least = by;
    first = false;
  }
  return least;
}

// Of the choices that hold the one with the most to spare.
Rational slack(const Rule& rule, const std::vector<Rational>& values) {
  Rational most = 0;
  for (const auto& choice : rule.choices) {
    const bool held = std::all_of(choice.begin(), choice.end(),
                                  [&](const Relation& relation) { return holds(relation, values); });
    if (held) most = std::max(most, slack(choice, values));
  }
  return most;
}

std::string lines_text(const std::vector<int>& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text += fmt::format("{}{}", i == 0 ? "" : i + 1 == lines.size() ? " and " : ", ", lines[i]);
  }
  return (lines.size() == 1 ? "line " : "lines ") + text;
}

std::vector<int> lines_of(const Inquiry& inquiry, const WishIds& wishes) {
  std::set<int> lines;
  for (const WishId wish : wishes) lines.insert(inquiry.spot(wish).line);
  return {lines.begin(), lines.end()};
}

std::string says_of(const Rules& rules, const Spot& spot) {
  const auto rule = std::find_if(rules.rules.begin(), rules.rules.end(),
                                 [&](const Rule& r) { return r.origin == Origin::stated && r.spot == spot; });
  return rule->says;
}

// Drops wishes from the end on as long as the rest is still enough, as `enough` tells.
template <typename Enough>
WishIds fewest(WishIds wishes, Enough enough) {
  const WishIds from_the_end(wishes.rbegin(), wishes.rend());
  for (const WishId wish : from_the_end) {
    WishIds rest = wishes;
    std::erase(rest, wish);
    if (enough(rest)) wishes = rest;
  }
  return wishes;
}

}  // namespace

std::vector<Spare> spare_of(const Rules& rules, const std::vector<Rational>& values) {
  std::map<Spot, Spare> by_spot;
  for (const Rule& rule : rules.rules) {
    const bool told = rule.origin == Origin::stated || (rule.keeps_apart && rule.spot.line > 0);
    if (!told) continue;
    Spare spare{rule.says, rule.spot, slack(rule, values)};
    const auto [known, fresh] = by_spot.try_emplace(rule.spot, spare);
    if (!fresh && spare.by < known->second.by) known->second = std::move(spare);
  }
  std::vector<Spare> list;
  for (auto& [spot, spare] : by_spot) list.push_back(std::move(spare));
  std::stable_sort(list.begin(), list.end(), [](const Spare& a, const Spare& b) { return a.by < b.by; });
  return list;
}

std::vector<Remark> idle_rules(Inquiry& inquiry) {
  WishIds held(inquiry.wishes());
  std::iota(held.begin(), held.end(), 0U);
  std::vector<Remark> idle;
  const std::vector<Rule>& rules = inquiry.rules().rules;
  for (WishId wish = inquiry.wishes(); wish-- > 0;) {
    const bool leant_on = std::any_of(rules.begin(), rules.end(), [&](const Rule& rule) {
      return rule.leant_on && rule.spot == inquiry.spot(wish);
    });
    if (leant_on) continue;
    WishIds rest = held;
    std::erase(rest, wish);
    if (inquiry.can_be_broken(wish, rest)) continue;
    held = rest;
    const WishIds enough =
        fewest(inquiry.blamed(), [&](const WishIds& some) { return !inquiry.can_be_broken(wish, some); });
    const std::string says = says_of(inquiry.rules(), inquiry.spot(wish));
    idle.push_back({inquiry.spot(wish),
                    enough.empty() ? fmt::format("This says nothing new: {} whatever else is wished.", says)
                                   : fmt::format("This says nothing new: {} already because of {}.", says,
                                                 lines_text(lines_of(inquiry, enough)))});
  }
  std::reverse(idle.begin(), idle.end());
  return idle;
}

std::vector<Remark> held_off(Inquiry& inquiry, const std::vector<Rational>& values, Unit unit) {
  WishIds all(inquiry.wishes());
  std::iota(all.begin(), all.end(), 0U);
  std::map<Spot, std::vector<const Aim*>> wishes;  // a wish about several sides is one
  for (const Aim& aim : inquiry.rules().aims) {
    if (aim.step == Step::about) wishes[aim.spot].push_back(&aim);
  }
  std::vector<Remark> remarks;
  for (const auto& [spot, aims] : wishes) {
    std::vector<Sum> sums;
    const Aim* farthest = aims.front();
    const auto off = [&](const Aim& aim) { return abs(aim.sum.at(values)); };
    for (const Aim* aim : aims) {
      sums.push_back(aim->sum);
      if (off(*aim) > off(*farthest)) farthest = aim;
    }
    if (off(*farthest) == 0) continue;
    std::string because = "another wish of its kind";
    if (!inquiry.can_be_zero(sums, all)) {
      const WishIds enough =
          fewest(inquiry.blamed(), [&](const WishIds& some) { return !inquiry.can_be_zero(sums, some); });
      because =
          enough.empty() ? "the marks, and what the paper allows" : lines_text(lines_of(inquiry, enough));
    }
    remarks.push_back({spot, fmt::format("Not quite: {}. It is {} {}, because of {}.", farthest->says,
                                         length_with_unit(off(*farthest), unit),
                                         farthest->sum.at(values) < 0 ? "less" : "more", because)});
  }
  return remarks;
}

std::vector<Remark> unused_names(const Card& card) {
  std::set<std::string> used;
  std::vector<Name> wanted;
  const auto take = [&](const Maybe<std::string>& paper) {
    if (!paper) return;
    if (used.insert(paper->value).second) wanted.push_back({paper->value, paper->spot});
  };
  const auto take_design = [&](const Design& design) {
    take(design.base.paper);
    for (const Piece& piece : design.pieces) take(piece.paper);
  };
  take_design(card.design);
  for (const Variant& variant : card.variants) take_design(variant.design);
  std::vector<Remark> remarks;
  std::set<std::string> declared;
  std::vector<std::string> names;
  for (const Paper& paper : card.papers) {
    if (!declared.insert(paper.name.value).second) continue;
    names.push_back(paper.name.value);
    if (used.contains(paper.name.value)) continue;
    remarks.push_back(
        {paper.name.spot, fmt::format("Nothing is cut from the paper {}.", in_quotes(paper.name.value))});
  }
  for (const Name& name : wanted) {
    if (names.empty() || declared.contains(name.value)) continue;
    remarks.push_back({name.spot, fmt::format("No [[paper]] is called {}.{}", in_quotes(name.value),
                                              offer(name.value, names))});
  }
  return remarks;
}

}  // namespace evenmat
