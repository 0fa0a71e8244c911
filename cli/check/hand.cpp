#include "cli/check/hand.h"

#include <fmt/format.h>

#include <cstddef>
#include <string_view>
#include <vector>

#include "cli/check/why.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

std::string verdict_line(const HandCheck& hand, const std::string& error) {
  if (hand.slips.empty()) return fmt::format("It builds, and by a hand that is off by {} too.", error);
  return fmt::format("It builds on paper, but not by every hand that is off by {}.", error);
}

std::string slips_text(const Source& source, const HandCheck& hand, Unit unit, const Style& style) {
  if (hand.slips.empty()) return {};
  std::string text = "\n" + style.strong("May fail, the worst first") + "\n";
  for (const Slip& slip : hand.slips) {
    text += noted_line(source, {slip.spot, slip.says}, style);
    const auto length = [&](const Rational& value) { return length_with_unit(value, unit); };
    text += paragraph(
        fmt::format("{} short at worst: {} to spare, and up to {} lost{}.", length(slip.worst - slip.spare),
                    slip.spare == 0 ? "nothing" : length(slip.spare), length(slip.worst),
                    slip.errors.empty() ? "" : " by " + listed(slip.errors)),
        7);
  }
  return text;
}

std::string borders_text(const HandCheck& hand, Unit unit, const Style& style) {
  if (hand.borders.empty()) return {};
  const auto length = [&](const Rational& value) { return length_text(value, unit); };
  std::vector<Row> rows = {{.name = "How even the borders come out", .heading = true},
                           {.name = "", .cells = {"line", "meant", "least", "most", "safe"}}};
  bool sticks_out = false;
  bool uneven = false;
  for (const Unevenness& border : hand.borders) {
    uneven = uneven || !border.looks_even;
    sticks_out = sticks_out || border.narrowest < 0;
    const std::string_view says = border.says;
    rows.push_back({.name = std::string(says.substr(says.starts_with("the ") ? 4 : 0)),
                    .cells = {border.spot.line > 0 ? std::to_string(border.spot.line) : "",
                              length(border.wished), length(border.narrowest), length(border.widest),
                              length(border.safe) + (border.looks_even ? "" : "!")},
                    .indent = 2});
  }
  return "\n" + table(rows, style) + "safe: the least that would still look even\n" +
         (uneven ? "! may look uneven: the border meant is less than that\n" : "") +
         (sticks_out ? "- sticks out by so much\n" : "");
}

std::string name_in(const std::string& layer, const std::string& version) {
  return version.empty() ? layer : fmt::format("{}, in \"{}\"", layer, version);
}

std::string safe_sizes(const HandCheck& hand, Unit unit, const Style& style) {
  const auto length = [&](const Rational& value) { return length_text(value, unit); };
  std::string text;
  if (!hand.safe->empty()) {
    std::vector<Row> rows = {{.name = "Safe sizes, whatever the hand does", .heading = true},
                             {.name = "", .cells = {"width", "  height"}}};
    for (const SafeSize& size : *hand.safe) {
      rows.push_back({.name = name_in(size.layer, size.version),
                      .cells = {length(size.width), "x " + length(size.height)},
                      .indent = 2});
    }
    text += "\n" + table(rows, style);
  }
  if (!hand.safe_places.empty()) {
    std::vector<Row> rows = {{.name = "Safe places, from the corner of what it lies on", .heading = true},
                             {.name = "", .cells = {"left", "top"}}};
    for (const SafePlace& place : hand.safe_places) {
      rows.push_back({.name = name_in(place.layer, place.version),
                      .cells = {length(place.from_left), length(place.from_top)},
                      .indent = 2});
    }
    text += "\n" + table(rows, style);
  }
  return text;
}

std::string safe_text(const Source& source, const Card& card, const HandCheck& hand, const Style& style) {
  if (hand.safe) return safe_sizes(hand, card.unit, style);
  std::string text;
  if (!hand.in_the_way.empty()) {
    text += "\n" + style.strong("No sizes are safe: there is too little room for the hand") + "\n";
  }
  Told told;
  for (const Conflict& conflict : hand.in_the_way) {
    text += "\n" + conflict_body(source, card, conflict, told, style);
    ++told.conflicts;
    told.changes += conflict.changes.size();
  }
  if (!hand.all_in_the_way) text += "\n" + paragraph("There may be more that is in the way of the hand.");
  return text;
}

}  // namespace

std::string hand_text(const Source& source, const Card& card, const HandCheck& hand, const Rational& error,
                      const Style& style) {
  const std::string by = length_with_unit(error, card.unit);
  return style.strong(paragraph(verdict_line(hand, by))) +
         paragraph(fmt::format("The worst case is told: every cut edge and every placement is off by {}, all "
                               "of it against you at once.",
                               by)) +
         slips_text(source, hand, card.unit, style) + borders_text(hand, card.unit, style) +
         safe_text(source, card, hand, style);
}

}  // namespace evenmat
