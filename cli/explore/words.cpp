#include "cli/explore/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "cli/table.h"
#include "cli/wording.h"
#include "model/words.h"

namespace evenmat {
namespace {

struct BestName {
  Best best;
  std::string_view name;
  std::string_view words;
};

constexpr std::array<BestName, 6> bests{{{Best::sheets, "sheets", "the fewest sheets first"},
                                         {Best::cost, "cost", "the least cost first"},
                                         {Best::waste, "waste", "the least waste first"},
                                         {Best::border, "border", "the widest narrowest border first"},
                                         {Best::seen, "seen", "the most seen first"},
                                         {Best::thickness, "thickness", "the thinnest first"}}};

bool is_way(const OpenAmount& open) { return !open.ways.empty(); }

std::string way_letter(std::size_t way) {
  return way < 26 ? std::string(1, static_cast<char>('a' + way)) : std::to_string(way + 1);
}

std::string range_words(const OpenAmount& open, Unit unit) {
  if (is_way(open)) return counted(static_cast<int>(open.ways.size()), "way");
  if (open.least == open.most) return length_with_unit(open.least, unit) + " alone";
  return fmt::format("{} to {}", length_text(open.least, unit), length_with_unit(open.most, unit));
}

}  // namespace

std::string amount_name(const OpenAmount& open) {
  if (is_way(open) || open.name.empty()) {
    return open.spot.line > 0 ? fmt::format("line {}", open.spot.line) : open.key;
  }
  if (open.key == "cut-back") return "cut-back";
  if (open.key.starts_with("from-"))
    return fmt::format("distance of {} from the {}", open.name, open.key.substr(5));
  if (open.part == "across") return fmt::format("{} of {}, left and right", open.key, open.name);
  if (open.part == "down") return fmt::format("{} of {}, top and bottom", open.key, open.name);
  return fmt::format("{}{}{} of {}", open.part, open.part.empty() ? "" : " ", open.key, open.name);
}

std::string amount_key(const OpenAmount& open) {
  if (is_way(open) || open.name.empty()) return amount_name(open);
  return fmt::format("{}.{}{}{}", open.name, open.key, open.part.empty() ? "" : ".", open.part);
}

std::string value_words(const OpenAmount& open, const Rational& value, Unit unit) {
  return is_way(open) ? way_letter(floor(value).convert_to<std::size_t>()) : length_text(value, unit);
}

std::string open_text(const std::vector<OpenAmount>& open, Unit unit) {
  if (open.empty()) return paragraph("Nothing is open: what the card states settles all its sizes.");
  // Of those that turn out to have one value only a sweep tells, which is of nothing else.
  const auto varies = [](const OpenAmount& one) { return one.least != one.most; };
  const bool any = std::any_of(open.begin(), open.end(), varies);
  std::vector<std::string> parts;
  for (const OpenAmount& one : open) {
    if (varies(one) || !any) parts.push_back(fmt::format("{}, {}", amount_name(one), range_words(one, unit)));
  }
  std::string text = paragraph(fmt::format("Open: {}.", joined(parts, "; ")));
  for (const OpenAmount& one : open) {
    if (any && !varies(one)) continue;
    if (is_way(one)) text += paragraph(fmt::format("The ways of {}:", amount_name(one)));
    for (std::size_t i = 0; i < one.ways.size(); ++i)
      text += paragraph(fmt::format("{}: {}", way_letter(i), one.ways[i]), 2);
  }
  return text;
}

std::string per_cent_words(const Rational& share) {
  if (share > 0 && share * 100 < 1) return "under 1 %";
  if (share < 1 && share * 100 > 99) return "over 99 %";
  return floor(share * 100 + Rational(1) / 2).str() + " %";
}

std::string many_words(std::size_t count) {
  std::string text = std::to_string(count);
  if (count < 10'000) return text;
  for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, ",");
  return text;
}

std::string small_number(std::size_t count) {
  constexpr std::array<std::string_view, 13> names{"none", "one",    "two",   "three", "four",
                                                   "five", "six",    "seven", "eight", "nine",
                                                   "ten",  "eleven", "twelve"};
  return count < names.size() ? std::string(names[count]) : many_words(count);
}

const std::vector<std::string>& best_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const BestName& one : bests) all.emplace_back(one.name);
    return all;
  }();
  return names;
}

std::optional<Best> best_called(std::string_view name) {
  const auto one =
      std::find_if(bests.begin(), bests.end(), [&](const BestName& best) { return best.name == name; });
  if (one == bests.end()) return std::nullopt;
  return one->best;
}

std::string_view best_words(Best best) {
  const auto one =
      std::find_if(bests.begin(), bests.end(), [&](const BestName& other) { return other.best == best; });
  return one->words;
}

}  // namespace evenmat
