#include "solver/why/tell_sum.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string_view>

namespace evenmat {
namespace {

// What one wish (or the paper) puts into a sum, however many of its sides it does so at.
struct Item {
  const Rule* rule = nullptr;
  Rational per;       // one time
  Rational total;     // in the sum
  bool asked = true;  // counts up; else it gives room
  bool equal = true;
  std::set<Edge> sides;
  bool across = true;
  std::size_t depth = 0;
};

enum class Axis { across, down, mixed };

bool is_across(Variable variable) { return variable % 2 == 0; }

Axis axis_of(const std::vector<SumLine>& lines) {
  bool across = false;
  bool down = false;
  for (const SumLine& line : lines) {
    for (const Term& term : line.says.sum.terms()) (is_across(term.variable) ? across : down) = true;
  }
  return across && down ? Axis::mixed : down ? Axis::down : Axis::across;
}

Rational size_of(const Rational& value) { return value < 0 ? Rational(-value) : value; }

std::vector<Item> items_of(const Rules& rules, const ExactSum& sum) {
  std::vector<Item> items;
  for (std::size_t i = 0; i < sum.lines.size(); ++i) {
    const SumLine& line = sum.lines[i];
    if (i == sum.space || line.share() == 0 || line.rule == rules.rules.size()) continue;
    const Rule& rule = rules.rules[line.rule];
    Item item;
    item.rule = &rule;
    item.per = size_of(line.says.sum.constant());
    item.total = size_of(line.share());
    item.asked = line.share() > 0;
    item.equal = line.says.equal;
    if (rule.amount.side) item.sides.insert(*rule.amount.side);
    item.across = is_across(line.says.sum.terms().front().variable);
    item.depth = depth(rules, rule.amount.rectangle);
    const auto same = std::find_if(items.begin(), items.end(), [&](const Item& other) {
      return other.rule->spot == rule.spot && other.rule->amount.of == rule.amount.of &&
             !rule.amount.extent && other.asked == item.asked && other.per == item.per &&
             other.across == item.across;
    });
    if (same == items.end()) {
      items.push_back(item);
    } else {
      same->total += item.total;
      same->sides.merge(item.sides);
    }
  }
  // From the inside out, a layer's size before what is added to it; side by side in file order.
  std::stable_sort(items.begin(), items.end(), [](const Item& a, const Item& b) {
    const auto rank = [](const Item& item) {
      return std::pair(-static_cast<long>(item.depth), item.rule->amount.extent ? 0 : 1);
    };
    return rank(a) < rank(b);
  });
  return items;
}

std::string where(const Item& item) {
  if (item.sides == std::set{Edge::left, Edge::right}) return " on the left and on the right";
  if (item.sides == std::set{Edge::top, Edge::bottom}) return " at the top and at the bottom";
  if (item.sides.size() != 1) return "";
  return fmt::format(" at the {}", edge_name(*item.sides.begin()));
}

// "", ", twice", "; 3/4 of that is 21/32".
std::string how_often(const Item& item, Unit unit) {
  const Rational sides = item.sides.size() < 2 ? 1 : 2;
  const Rational times = item.total / item.per / sides;
  if (times == 1) return "";
  if (boost::multiprecision::denominator(times) != 1)
    return fmt::format("; {} of that is {}", fraction_text(times), length_text(item.total, unit));
  return times == 2 ? ", twice" : fmt::format(", {} times", fraction_text(times));
}

std::string bound(const Item& item) {
  if (item.equal) return "";
  return item.asked ? "at least " : "at most ";
}

std::string_view measure_word(bool across) { return across ? "wide" : "tall"; }

// "band is 2 wide", "the border of band adds at least 1/4 on the left and on the right".
std::string told(const Item& item, bool first, Unit unit) {
  const Amount& amount = item.rule->amount;
  const std::string length = bound(item) + length_text(item.per, unit);
  if (amount.extent) {
    return fmt::format("{} is {} {}{}", amount.of, length, measure_word(item.across), how_often(item, unit));
  }
  return fmt::format("{} {} {}{}{}", amount.of, first ? "takes" : "adds", length, where(item),
                     how_often(item, unit));
}

// Wishes without a length of their own that the sum rests on.
void tell_links(const Rules& rules, const ExactSum& sum, std::vector<StoryStep>& steps) {
  std::map<Spot, std::set<std::string>> said;
  for (const SumLine& line : sum.lines) {
    if (line.rule == rules.rules.size()) continue;
    const Rule& rule = rules.rules[line.rule];
    if (line.share() != 0 || rule.origin != Origin::stated || rule.keeps_apart) continue;
    const bool own = rule.amount.of.starts_with("the rule ");
    said[rule.spot].insert(own ? "the rule asks for " + rule.says : rule.says);
  }
  for (const auto& [spot, sentences] : said) {
    // Of one wish about several sides only what it says of them all.
    const std::string& first = *sentences.begin();
    const std::string says = sentences.size() == 1 ? first : first.substr(0, first.find(':'));
    steps.push_back({sentence(says), spot, std::nullopt, std::nullopt});
  }
}

// One after the other with the sum so far.
Rational add_up(const std::vector<Item>& items, bool asked, Unit unit, std::vector<StoryStep>& steps) {
  Rational total = 0;
  bool first = true;
  for (const Item& item : items) {
    if (item.asked != asked) continue;
    total += item.total;
    std::string says = told(item, first, unit);
    const bool fraction = says.find("; ") != std::string::npos && total == item.total;
    if (total != item.per && !fraction) says += fmt::format(", which makes {}", length_text(total, unit));
    steps.push_back({sentence(says), item.rule->spot, item.total, total});
    first = false;
  }
  return total;
}

}  // namespace

std::string sentence(const std::string& words) {
  std::string text = words;
  for (const std::string_view own : {"the ", "each "}) {
    if (text.starts_with(own)) text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  if (!text.ends_with('.')) text += '.';
  return text;
}

void tell_sum(const Rules& rules, const ExactSum& sum, Unit unit, std::vector<StoryStep>& steps) {
  tell_links(rules, sum, steps);
  const Axis axis = axis_of(sum.lines);
  const std::vector<Item> items = items_of(rules, sum);
  if (!sum.space) {
    add_up(items, true, unit, steps);
    add_up(items, false, unit, steps);
    steps.push_back(
        {fmt::format("That is {} too much.", length_with_unit(sum.miss, unit)), {}, sum.miss, std::nullopt});
    return;
  }
  const SumLine& line = sum.lines[*sum.space];
  const Rule& space = rules.rules[line.rule];
  const bool fits_in = line.share() < 0;
  const bool across = is_across(line.says.sum.terms().front().variable);
  Rational room = size_of(line.share());
  const auto tell_space = [&] {
    std::string says;
    if (space.amount.extent) {
      says = fmt::format("{} is {}{} {}", space.amount.of,
                         line.says.equal ? ""
                         : fits_in       ? "at most "
                                         : "at least ",
                         length_text(room, unit), measure_word(across));
    } else {
      says = fmt::format("{} allows {}", space.amount.of, length_text(room, unit));
    }
    steps.push_back({sentence(says), space.spot, room, std::nullopt});
  };
  if (fits_in) {
    tell_space();
    // What gives more room beside it, such as an overhang.
    for (const Item& item : items) {
      if (item.asked) continue;
      room += item.total;
      steps.push_back({sentence(fmt::format("{} gives {} more{}{}, which makes {}", item.rule->amount.of,
                                            length_text(item.per, unit), where(item), how_often(item, unit),
                                            length_text(room, unit))),
                       item.rule->spot, item.total, room});
    }
    add_up(items, true, unit, steps);
  } else {
    tell_space();
    Rational asked = room;
    for (const Item& item : items) {
      if (!item.asked) continue;
      asked += item.total;
      steps.push_back({sentence(fmt::format("{}, which makes {} to be filled", told(item, false, unit),
                                            length_text(asked, unit))),
                       item.rule->spot, item.total, asked});
    }
    add_up(items, false, unit, steps);
  }
  const std::string miss = length_with_unit(sum.miss, unit);
  const std::string_view too = axis == Axis::mixed ? "much" : measure_word(across);
  const std::string end = fits_in ? fmt::format("That is {} too {}.", miss, too)
                                  : fmt::format("That leaves {} that nothing fills.", miss);
  steps.push_back({end, {}, sum.miss, std::nullopt});
}

void tell_derivation(const Rules& rules, const ExactSum& sum, const std::string& what, const Rational& value,
                     Unit unit, std::vector<StoryStep>& steps) {
  tell_links(rules, sum, steps);
  const std::vector<Item> items = items_of(rules, sum);
  const bool lower = sum.space && sum.lines[*sum.space].share() <= 0;
  // What makes it so large, less what takes from it.
  const Rational all = add_up(items, lower, unit, steps);
  Rational rest = all;
  for (const Item& item : items) {
    if (item.asked == lower) continue;
    rest -= item.total;
    const Amount& amount = item.rule->amount;
    const std::string takes = amount.extent
                                  ? told(item, false, unit) + " and is taken off"
                                  : fmt::format("{} takes {}{}{}", amount.of, length_text(item.per, unit),
                                                where(item), how_often(item, unit));
    steps.push_back({sentence(fmt::format("{}, which leaves {}", takes, length_text(rest, unit))),
                     item.rule->spot, item.total, rest});
  }
  steps.push_back(
      {sentence(fmt::format("So {} comes to {}", what, length_text(value, unit))), {}, std::nullopt, value});
}

}  // namespace evenmat
