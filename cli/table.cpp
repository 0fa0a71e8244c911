#include "cli/table.h"

#include <algorithm>
#include <cstddef>

#include "cli/printable.h"

namespace evenmat {
namespace {

constexpr int between = 2;      // blanks between columns
constexpr int least_name = 12;  // columns, before cells go below the name
constexpr int most_name = 32;   // where there are notes to show
constexpr int least_note = 20;

std::string blanks(int count) { return padded("", count); }

struct Widths {
  int name = 0;
  std::vector<int> cells;
  bool notes = false;

  [[nodiscard]] int all_cells() const {
    int sum = 0;
    for (const int width : cells) sum += between + width;
    return sum;
  }
};

bool spans(const Row& row) { return row.cells.empty() && row.note.empty(); }

Widths widths_of(const std::vector<Row>& rows) {
  Widths widths;
  for (const Row& row : rows) {
    if (spans(row)) continue;
    widths.name = std::max(widths.name, row.indent + columns(row.name));
    widths.notes = widths.notes || !row.note.empty();
    widths.cells.resize(std::max(widths.cells.size(), row.cells.size()));
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      widths.cells[i] = std::max(widths.cells[i], columns(row.cells[i]));
    }
  }
  if (widths.notes) widths.name = std::min(widths.name, most_name);
  const int room = page_width - widths.all_cells() - (widths.notes ? between + least_note : 0);
  widths.name = std::min(widths.name, std::max(room, least_name));
  return widths;
}

std::string without_end_blanks(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::string in_columns(const Row& row, const Widths& widths, const Style& style) {
  std::string line =
      blanks(row.indent) + padded(shortened(row.name, widths.name - row.indent), widths.name - row.indent);
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    line += blanks(between) + padded(row.cells[i], widths.cells[i]);
  }
  if (row.heading) return style.strong(without_end_blanks(line)) + "\n";
  if (row.note.empty()) return without_end_blanks(line) + "\n";
  const int start = widths.name + widths.all_cells() + between;
  line = padded(line, start);
  return line + wrapped(row.note, page_width, start, start) + "\n";
}

// For cells too wide to stand side by side.
std::string one_below_another(const Row& row, const Style& style) {
  std::string text = blanks(row.indent) + wrapped(row.name, page_width, row.indent + 2, row.indent);
  for (const std::string& cell : row.cells) {
    if (!cell.empty())
      text += "\n" + blanks(row.indent + 4) + wrapped(cell, page_width, row.indent + 6, row.indent + 4);
  }
  if (!row.note.empty())
    text += "\n" + blanks(row.indent + 4) + wrapped(row.note, page_width, row.indent + 6, row.indent + 4);
  return (row.heading ? style.strong(text) : text) + "\n";
}

}  // namespace

std::string paragraph(std::string_view text, int indent) {
  return blanks(indent) + wrapped(text, page_width, indent + 2, indent) + "\n";
}

std::string table(const std::vector<Row>& rows, const Style& style) {
  const Widths widths = widths_of(rows);
  const int needed = widths.name + widths.all_cells() + (widths.notes ? between + least_note : 0);
  std::string text;
  for (const Row& row : rows) {
    if (spans(row)) {
      const std::string line = paragraph(row.name, row.indent);
      text += row.heading ? style.strong(line) : line;
    } else {
      text += needed <= page_width ? in_columns(row, widths, style) : one_below_another(row, style);
    }
  }
  return text;
}

}  // namespace evenmat
