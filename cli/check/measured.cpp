#include "cli/check/measured.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {

std::string measured_text(const Card& card, const MeasuredCard& measured, const Rational& tolerance,
                          const Style& style) {
  const auto length = [&](const Rational& value) { return length_with_unit(value, card.unit); };
  std::vector<Row> rows = {{.name = "As measured", .heading = true}};
  int off = 0;
  for (const Measured& rule : measured.rules) {
    const bool beyond = rule.off > tolerance;
    off += beyond ? 1 : 0;
    rows.push_back({.name = rule.off == 0 ? "met"
                            : beyond      ? "off by " + length(rule.off)
                                          : "met within " + length(rule.off),
                    .cells = {rule.spot.line > 0 ? fmt::format("line {}", rule.spot.line) : ""},
                    .note = rule.says,
                    .indent = 2});
  }
  const std::string verdict =
      off == 0 ? fmt::format("Every rule is met within {}.", length(tolerance))
               : fmt::format("{} off by more than {}.", counted(off, "rule") + (off == 1 ? " is" : " are"),
                             length(tolerance));
  return table(rows, style) + "\n" + style.strong(paragraph(verdict));
}

}  // namespace evenmat
