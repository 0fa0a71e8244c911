#include "cli/check/builds.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "cli/closed_words.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

std::string line_of(const Spot& spot) { return spot.line > 0 ? fmt::format("line {}", spot.line) : ""; }

// Thousandths are told as such, all else as a ruler shows it.
std::string spare_length(const Rational& by, Unit unit) {
  const bool on_a_ruler = unit == Unit::millimetre || is_multiple(by * 64, 1);
  return !on_a_ruler && is_multiple(by * 10000, 1) ? thickness_with_unit(by, unit)
                                                   : length_with_unit(by, unit);
}

// Those with something to spare first, then those with nothing, each in the order they are in.
std::string spare_text(const std::vector<Spare>& spare, Unit unit, const Style& style) {
  std::vector<Row> some = {{.name = "To spare, the tightest first", .heading = true}};
  std::vector<Row> none = {
      {.name = "Nothing to spare: exact as stated, or as tight as can be", .heading = true}};
  for (const Spare& one : spare) {
    if (one.by == 0) {
      none.push_back({.name = line_of(one.spot), .note = one.says, .indent = 2});
    } else {
      some.push_back(
          {.name = spare_length(one.by, unit), .cells = {line_of(one.spot)}, .note = one.says, .indent = 2});
    }
  }
  std::string text;
  for (const std::vector<Row>* rows : {&some, &none}) {
    if (rows->size() > 1) text += "\n" + table(*rows, style);
  }
  return text;
}

// How thick and heavy it is closed, and where it goes in; of a variant where that is something else.
std::string closed_text(const Card& card, const CheckedCard& checked, const Style& style) {
  if (!checked.sized) return {};
  std::string text;
  std::string plain;
  for (const SizedVersion& version : checked.sized->versions) {
    std::string lines;
    if (version.closed) {
      std::vector<std::string> told{thickness_words(*version.closed, card.unit),
                                    weight_words(*version.closed, card.unit)};
      std::erase(told, "");
      if (!told.empty()) lines = paragraph(joined(told, ", "), 2);
    }
    for (const std::string& one : asked_mail_briefly(version.mail)) lines += paragraph(one, 2);
    if (version.name.empty()) plain = lines;
    if (lines.empty() || (!version.name.empty() && lines == plain)) continue;
    const std::string whose = version.name.empty() ? "" : fmt::format(", \"{}\"", version.name);
    text += "\n" + style.strong(paragraph("Closed" + whose));
    text += lines;
  }
  return text;
}

std::string verdict_line(const Card& card) {
  switch (card.variants.size()) {
    case 0:
      return "It builds.";
    case 1:
      return "It builds, and so does its variant.";
    default:
      return fmt::format("It builds, and so do its {}.",
                         counted(static_cast<int>(card.variants.size()), "variant"));
  }
}

}  // namespace

std::string builds_text(const Source& source, const Card& card, const CheckedCard& checked,
                        const Style& style) {
  return style.strong(verdict_line(card)) + "\n" + spare_text(checked.spare, card.unit, style) +
         closed_text(card, checked, style) +
         noted_lines(source, "Says nothing that the others do not", checked.idle, style) +
         noted_lines(source, "Gives way to other wishes", checked.pulling, style) +
         noted_lines(source, "Worth a second look", checked.warnings, style);
}

}  // namespace evenmat
