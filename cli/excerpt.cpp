#include "cli/excerpt.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>

#include "cli/printable.h"

namespace evenmat {
namespace {

constexpr int page = 80;
constexpr std::size_t most_shown = 50;
constexpr int least_beside = 36;  // columns that a sentence behind a caret needs

// Line `number` of `text`, counted from 1, without its end.
std::optional<std::string_view> line_of(std::string_view text, int number) {
  for (int line = 1; line < number; ++line) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  text = text.substr(0, text.find('\n'));
  if (text.ends_with('\r')) text.remove_suffix(1);
  return text;
}

// What is shown of a line: the glyphs from `first` up to `last`, the one at `spot` among them or just before
// `last`, and whether the line goes on at either side.
struct Part {
  std::vector<Glyph> glyphs;
  std::size_t first = 0, spot = 0, last = 0;
  bool goes_on_before = false, goes_on_after = false;

  [[nodiscard]] int columns(std::size_t from, std::size_t to) const {
    int sum = 0;
    for (std::size_t i = from; i < to; ++i) sum += glyphs[i].columns;
    return sum;
  }
};

// No line is looked at further than this many characters from the spot, however long it is.
constexpr std::size_t reach = 200;

Part part_around(std::string_view line, std::size_t column, int room) {
  Part part;
  const std::size_t from = byte_of(line, column > reach ? column - reach : 0);
  part.goes_on_before = from > 0;
  line.remove_prefix(from);
  const std::size_t to = byte_of(line, 2 * reach);
  part.goes_on_after = to < line.size();
  part.glyphs = glyphs(line.substr(0, to));
  part.spot = std::min({column, reach, part.glyphs.size()});

  part.last = part.glyphs.size();
  if (part.columns(0, part.last) <= room && !part.goes_on_before && !part.goes_on_after) return part;
  room -= 6;  // for "..." on both sides
  // A third of the room goes to what stands before the spot, and more near the end of the line.
  part.first = part.last = part.spot;
  while (part.first > 0 && part.columns(part.first - 1, part.spot) <= room / 3) --part.first;
  while (part.last < part.glyphs.size() && part.columns(part.first, part.last + 1) <= room) ++part.last;
  while (part.first > 0 && part.columns(part.first - 1, part.last) <= room) --part.first;
  part.goes_on_before |= part.first > 0;
  part.goes_on_after |= part.last < part.glyphs.size();
  return part;
}

// A line of the source as it is shown, and where under it the caret stands.
struct Shown {
  std::string line;          // with its gutter and its end
  std::string blank_gutter;  // to go before what stands below
  int gutter = 0;            // columns of either gutter
  int caret = 0;             // columns behind the gutter

  [[nodiscard]] std::string pointer(const Style& style) const {
    return style.faint(blank_gutter) + padded("", caret) + style.wrong("^");
  }
};

std::optional<Shown> shown_at(const Source& source, const Spot& spot, const Style& style) {
  if (spot.line < 1) return {};
  const std::optional<std::string_view> text = line_of(source.text, spot.line);
  if (!text) return {};

  Shown shown;
  const std::string gutter = source.name.empty() ? "  " : fmt::format("{:>4} | ", spot.line);
  shown.gutter = static_cast<int>(gutter.size());
  shown.blank_gutter = source.name.empty() ? gutter : fmt::format("{:>{}} | ", "", gutter.size() - 3);

  const auto column = static_cast<std::size_t>(std::max(spot.column, 1) - 1);
  const Part part = part_around(*text, column, page - shown.gutter);
  const std::string before = part.goes_on_before ? "..." : "";
  std::string line = before;
  for (std::size_t i = part.first; i < part.last; ++i) line += part.glyphs[i].shown;
  if (part.goes_on_after) line += "...";
  shown.line = style.faint(gutter) + line + "\n";
  shown.caret = static_cast<int>(before.size()) + part.columns(part.first, part.spot);
  return shown;
}

}  // namespace

std::string_view text_at(const Source& source, const Spot& spot) {
  if (spot.line < 1 || spot.column < 1) return {};
  const std::optional<std::string_view> line = line_of(source.text, spot.line);
  if (!line) return {};
  const std::size_t byte = byte_of(*line, static_cast<std::size_t>(spot.column) - 1);
  return source.text.substr(static_cast<std::size_t>(line->data() - source.text.data()) + byte);
}

std::string pointed_line(const Source& source, const Spot& spot, const Style& style) {
  const std::optional<Shown> shown = shown_at(source, spot, style);
  return shown ? shown->line + shown->pointer(style) + "\n" : "";
}

std::string noted_line(const Source& source, const Remark& remark, const Style& style) {
  const std::optional<Shown> shown = shown_at(source, remark.spot, style);
  if (!shown) return "  " + wrapped(remark.says, page, 4, 2) + "\n";

  // Far to the right, the sentence goes below the caret.
  const int room = page - shown->gutter - shown->caret - 2;
  const bool beside = room >= std::min(least_beside, columns(remark.says));
  const std::string note = wrapped(remark.says, beside ? room : page - shown->gutter);
  const std::string next_line = "\n" + style.faint(shown->blank_gutter);
  std::string text = shown->line + shown->pointer(style) + (beside ? " " : next_line);
  for (const char c : note) {
    if (c == '\n') {
      text += next_line + padded("", beside ? shown->caret + 2 : 0);
    } else {
      text += c;
    }
  }
  return text + "\n";
}

std::string noted_lines(const Source& source, std::string_view heading, const std::vector<Remark>& remarks,
                        const Style& style) {
  std::string text = remarks.empty() ? "" : "\n" + style.strong(heading) + "\n";
  for (const Remark& remark : remarks) text += noted_line(source, remark, style);
  return text;
}

std::string excerpt(const Source& source, const Remark& remark, const Style& style) {
  std::string where = printable(source.name);
  if (remark.spot.line > 0 && !where.empty()) {
    where += fmt::format(":{}:{}", remark.spot.line, remark.spot.column);
  }
  if (!where.empty()) where += ": ";
  return style.strong(where) + printable(remark.says) + "\n" + pointed_line(source, remark.spot, style);
}

std::string excerpts(const Source& source, const std::vector<Remark>& remarks, const Style& style) {
  std::string text;
  for (std::size_t i = 0; i < std::min(remarks.size(), most_shown); ++i) {
    text += excerpt(source, remarks[i], style);
  }
  if (remarks.size() > most_shown)
    text += fmt::format("and {} more; --json tells all.\n", remarks.size() - most_shown);
  return text;
}

}  // namespace evenmat
