#include "solver/why/tell_sum.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <tuple>

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

// Of a line without lengths it does not matter.
bool is_across(const SumLine& line) {
  const auto& terms = line.says.sum.terms();
  return terms.empty() || is_across(terms.front().variable);
}

Axis axis_of(const std::vector<SumLine>& lines) {
  bool across = false;
  bool down = false;
  for (const SumLine& line : lines) {
    for (const Term& term : line.says.sum.terms()) (is_across(term.variable) ? across : down) = true;
  }
  return across && down ? Axis::mixed : down ? Axis::down : Axis::across;
}

std::vector<Item> items_of(const Rules& rules, const ExactSum& sum) {
  std::vector<Item> items;
  for (std::size_t i = 0; i < sum.lines.size(); ++i) {
    const SumLine& line = sum.lines[i];
    if (i == sum.space || line.share() == 0 || line.rule == rules.rules.size()) continue;
    const Rule& rule = rules.rules[line.rule];
    Item item;
    item.rule = &rule;
    item.per = abs(line.says.sum.constant());
    item.total = abs(line.share());
    item.asked = line.share() > 0;
    item.equal = line.says.equal;
    if (rule.amount.side) item.sides.insert(*rule.amount.side);
    item.across = is_across(line);
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
  // From the inside out, side by side in file order, and of each its size before what is added to it.
  std::stable_sort(items.begin(), items.end(), [](const Item& a, const Item& b) {
    const auto rank = [](const Item& item) {
      return std::tuple(-static_cast<long>(item.depth), item.rule->amount.rectangle,
                        item.rule->amount.extent ? 0 : 1);
    };
    return rank(a) < rank(b);
  });
  return items;
}

std::string where(const Item& item) {
  if (item.sides == std::set{Edge::left, Edge::right}) return " on the left and on the right";
  if (item.sides == std::set{Edge::top, Edge::bottom}) return " at the top and at the bottom";
  if (item.sides.size() != 1 || item.rule->amount.of.starts_with("the distance ")) return "";
  return fmt::format(" at the {}", edge_name(*item.sides.begin()));
}

// As a maker reads it off: what no ruler shows is rounded, and says so.
std::string figure(const Rational& value, Unit unit) {
  std::string text = length_text(value, unit);
  const bool on_a_ruler = unit == Unit::millimetre || is_multiple(value * 64, 1);
  if (on_a_ruler || text.starts_with("about ")) return text;
  const Integer thousandths = floor(value * 1000 + Rational(1, 2));
  if (std::string thickness = thickness_text(value, unit); !thickness.starts_with("about")) return thickness;
  const std::string digits = fmt::format("{:0>3}", Integer(thousandths % 1000).str());
  return fmt::format("about {}.{}", Integer(thousandths / 1000).str(), digits);
}

Rational times_of(const Item& item) {
  return item.total / item.per / Rational(item.sides.size() < 2 ? 1 : 2);
}

bool is_whole(const Rational& value) { return boost::multiprecision::denominator(value) == 1; }

// "", ", twice", "; 3/4 of that is 21/32"; a part that no one reckons with is a tilted layer's.
std::string how_often(const Item& item, Unit unit) {
  const Rational times = times_of(item);
  if (times == 1) return "";
  constexpr int most_parts = 1000;
  if (boost::multiprecision::denominator(times) > most_parts)
    return fmt::format("; turned as it is, that takes {}", figure(item.total, unit));
  if (!is_whole(times))
    return fmt::format("; {} of that is {}", fraction_text(times), figure(item.total, unit));
  return times == 2 ? ", twice" : fmt::format(", {} times", fraction_text(times));
}

std::string bound(const Item& item) {
  if (item.equal) return "";
  return item.asked ? "at least " : "at most ";
}

// Whether a thing lies on another, or on something that does, or is it.
bool lies_on(const Rules& rules, std::size_t rectangle, std::size_t under) {
  if (rectangle == under) return true;
  const auto on = rules.rectangles[rectangle].on;
  return on && lies_on(rules, *on, under);
}

std::string_view measure_word(bool across) { return across ? "wide" : "tall"; }

// Foam, adhesive and paper over one another are neither.
std::string_view measure_word(const Rules& rules, const SumLine& line) {
  const auto& terms = line.says.sum.terms();
  const bool thick = std::any_of(terms.begin(), terms.end(), [&](const Term& term) {
    return rules.rectangles[term.variable / 4].kind == Rectangle::Kind::thickness;
  });
  return thick ? "thick" : measure_word(is_across(line));
}

// "band is 2 wide", "the border of band adds at least 1/4 on the left and on the right".
std::string told(const Item& item, bool first, Unit unit) {
  const Amount& amount = item.rule->amount;
  const std::string length = bound(item) + figure(item.per, unit);
  const Rational times = times_of(item);
  const bool several = times > 1 && is_whole(times);
  constexpr std::string_view gap = "each gap ";
  if (amount.extent && several) {
    return fmt::format("{} of {}, each {} {}, take {}", fraction_text(times), amount.of, length,
                       measure_word(item.across), figure(item.total, unit));
  }
  if (amount.extent) {
    return fmt::format("{} is {} {}{}", amount.of, length, measure_word(item.across), how_often(item, unit));
  }
  if (several && amount.of.starts_with(gap)) {
    return fmt::format("{} gaps {} {} {} each", fraction_text(times), amount.of.substr(gap.size()),
                       first ? "take" : "add", length);
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
    if (total != item.total || (total != item.per && !item.rule->amount.extent))
      says += fmt::format(", which makes {}", figure(total, unit));
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
  Rational room = abs(line.share());
  const auto tell_space = [&] {
    std::string says;
    if (space.amount.extent) {
      says = fmt::format("{} is {}{} {}", space.amount.of,
                         measure_word(rules, line) == "thick" ? "at most "
                         : line.says.equal                    ? ""
                         : fits_in                            ? "at most "
                                                              : "at least ",
                         figure(room, unit), measure_word(rules, line));
    } else {
      says = fmt::format("{} allows {}", space.amount.of, figure(room, unit));
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
                                            figure(item.per, unit), where(item), how_often(item, unit),
                                            figure(room, unit))),
                       item.rule->spot, item.total, room});
    }
    // A front that is cut back is so much smaller.
    std::vector<Item> asked;
    for (const Item& item : items) {
      const bool cut = item.asked && item.rule->amount.of == "the reveal" && item.rule->amount.extent &&
                       space.amount.of == "the front";
      if (!cut) {
        asked.push_back(item);
        continue;
      }
      room -= item.total;
      steps.push_back({sentence(fmt::format("the cut-back takes {} off it, which leaves {}",
                                            figure(item.per, unit), figure(room, unit))),
                       item.rule->spot, item.total, room});
    }
    add_up(asked, true, unit, steps);
  } else {
    tell_space();
    Rational asked = room;
    for (const Item& item : items) {
      if (!item.asked) continue;
      asked += item.total;
      steps.push_back({sentence(fmt::format("{}, which makes {} to be filled", told(item, false, unit),
                                            figure(asked, unit))),
                       item.rule->spot, item.total, asked});
    }
    add_up(items, false, unit, steps);
  }
  const bool thick = measure_word(rules, line) == "thick";
  const std::string miss = thick ? thickness_with_unit(sum.miss, unit) : length_with_unit(sum.miss, unit);
  const std::string_view too = axis == Axis::mixed && !thick ? "much" : measure_word(rules, line);
  const bool inside = space.amount.extent && std::all_of(items.begin(), items.end(), [&](const Item& item) {
                        return !item.asked || item.rule->amount.of == "the reveal" ||
                               lies_on(rules, item.rule->amount.rectangle, space.amount.rectangle);
                      });
  const bool apart = std::any_of(sum.lines.begin(), sum.lines.end(), [&](const SumLine& other) {
    return other.rule < rules.rules.size() && rules.rules[other.rule].keeps_apart;
  });
  std::string end =
      fmt::format("That leaves {} that {}.", miss, apart ? "both of them cover" : "nothing fills");
  if (fits_in && inside) end = fmt::format("That is {} too {}.", miss, too);
  if (fits_in && !inside) end = fmt::format("That is {} more than there is.", miss);
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
                                  : fmt::format("{} takes {}{}{}", amount.of, figure(item.per, unit),
                                                where(item), how_often(item, unit));
    steps.push_back({sentence(fmt::format("{}, which leaves {}", takes, figure(rest, unit))), item.rule->spot,
                     item.total, rest});
  }
  // The last of them gives it.
  StoryStep& last = steps.back();
  last.says = fmt::format("{} for {}.", last.says.substr(0, last.says.size() - 1), what);
  last.total = value;
}

}  // namespace evenmat
