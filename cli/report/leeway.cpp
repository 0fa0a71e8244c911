#include "cli/report/leeway.h"

#include <fmt/format.h>

#include <string_view>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// "5/8 in up or down", "1/4 in left, 1/2 in right".
std::string room(const Slide& slide, Unit unit) {
  const std::string_view back = slide.across ? "left" : "up";
  const std::string_view forth = slide.across ? "right" : "down";
  const auto length = [&](const Rational& value) { return length_with_unit(value, unit); };
  if (slide.low == slide.high) return fmt::format("{} {} or {}", length(slide.low), back, forth);
  if (slide.low == 0) return fmt::format("{} {}", length(slide.high), forth);
  if (slide.high == 0) return fmt::format("{} {}", length(slide.low), back);
  return fmt::format("{} {}, {} {}", length(slide.low), back, length(slide.high), forth);
}

}  // namespace

std::string slides_text(const Telling& telling, const std::vector<Slide>& slides) {
  std::string text = slides.empty() ? "" : "\n" + telling.style.strong("Can still be moved") + "\n";
  for (const Slide& slide : slides) {
    text +=
        paragraph(fmt::format("{}{}: {}", joined(slide.names, ", "),
                              slide.names.size() > 1 ? " (together)" : "", room(slide, telling.card.unit)),
                  2);
  }
  return text;
}

std::string ranges_text(const Telling& telling, const std::vector<Range>& ranges) {
  if (ranges.empty()) return {};
  std::vector<Row> rows = {
      {.name = "Smallest and largest", .cells = {"", "least", "most"}, .note = "", .heading = true}};
  for (const Range& range : ranges) {
    rows.push_back(
        {.name = range.layer,
         .cells = {range.what, telling.ruler.number(range.least), telling.ruler.number(range.most)},
         .indent = 2});
  }
  return "\n" + table(rows, telling.style);
}

std::string warnings_text(const Telling& telling, const std::vector<Remark>& warnings) {
  std::string text = warnings.empty() ? "" : "\n" + telling.style.strong("Worth a second look") + "\n";
  for (const Remark& warning : warnings) {
    const std::string where = warning.spot.line > 0 ? fmt::format(" (line {})", warning.spot.line) : "";
    text += paragraph(warning.says + where, 2);
  }
  return text;
}

}  // namespace evenmat
