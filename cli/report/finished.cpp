#include "cli/report/finished.h"

#include <fmt/format.h>

#include <string_view>
#include <vector>

#include "cli/closed_words.h"
#include "cli/making.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// Below a heading; empty if there are no paragraphs.
std::string section(std::string_view heading, const std::vector<std::string>& paragraphs,
                    const Style& style) {
  std::string text;
  for (const std::string& one : paragraphs) {
    if (!one.empty()) text += paragraph(one, 2);
  }
  return text.empty() ? "" : "\n" + style.strong(heading) + "\n" + text;
}

}  // namespace

std::string making_text(const Telling& telling) {
  const Making making = making_of(telling.card, telling.design, telling.version);
  if (making.order.size() < 2) return {};  // a blank to cut, and no more: the table tells its size
  const bool flat = telling.version.folding.leaves.size() == 1;
  std::vector<Row> rows = {{.name = flat ? "To make the base" : "To fold", .heading = true}};
  for (const std::string& step : making.order)
    rows.push_back({.name = fmt::format("{}.", rows.size()), .note = step, .indent = 2});
  for (const std::string& line : making.lies) rows.push_back({.name = line, .indent = 2});
  return "\n" + table(rows, telling.style);
}

std::string closed_text(const Telling& telling) {
  if (!telling.version.closed) return {};
  const ClosedCard& closed = *telling.version.closed;
  const Unit unit = telling.card.unit;
  const bool larger = closed.over_all != closed.front;
  if (!larger && closed.thickness == 0 && closed.grams == 0) return {};
  const auto size = [&](const Size& one) {
    return fmt::format("{} {}", telling.ruler.size(one), unit_name(unit));
  };
  const std::string parts = thick_parts_words(closed, unit);
  return section("Closed",
                 {size(closed.front) + (larger ? ", over all " + size(closed.over_all) : ""),
                  thickness_words(closed, unit) + (parts.empty() ? "" : ": " + parts),
                  weight_words(closed, unit), not_counted_words(closed)},
                 telling.style);
}

std::string mail_text(const Telling& telling) {
  std::vector<std::string> paragraphs = asked_mail(telling.version.mail);
  // Of a card of which no thickness is known that would promise too much.
  if (telling.version.closed && telling.version.closed->thickness > 0)
    paragraphs.push_back(offered_envelopes(telling.version.mail));
  return section("Envelope and post", paragraphs, telling.style);
}

}  // namespace evenmat
