#include "cli/explore/columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr int between = 2;        // blanks between columns
constexpr int most_heading = 16;  // columns of a heading, and where that is too much
constexpr int least_heading = 8;

std::string without_end_blanks(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

// What is told of fact `index` in every row alike, if it is.
bool same_in_all(const std::vector<FactRow>& rows, std::size_t index) {
  return std::all_of(rows.begin(), rows.end(), [&](const FactRow& row) {
    return row.facts[index].words == rows.front().facts[index].words;
  });
}

}  // namespace

Columns::Columns(const Facts& first, const std::vector<int>& widest, std::size_t numbers,
                 std::string_view mark)
    : number_(columns(std::to_string(numbers)) + 1), mark_(columns(mark)) {
  lay_out(first, widest, most_heading);
  if (needed() > page_width) lay_out(first, widest, least_heading);
  fits_ = needed() <= page_width;
}

void Columns::lay_out(const Facts& first, const std::vector<int>& widest, int heading) {
  columns_.clear();
  for (std::size_t i = 0; i < first.size(); ++i) {
    Column column{shortened(first[i].above, heading), shortened(first[i].below, most_heading), 0};
    column.width = std::max({columns(column.above), columns(column.below), columns(first[i].cell),
                             i < widest.size() ? widest[i] : 0});
    columns_.push_back(std::move(column));
  }
}

int Columns::needed() const {
  int all = 2 + number_ + (mark_ > 0 ? between + mark_ : 0);
  for (const Column& column : columns_) all += between + column.width;
  return all;
}

std::string Columns::line(const std::vector<std::string>& cells) const {
  std::string text;
  int start = 2 + number_;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    text = padded(text, start) + padded("", between) + cells[i];
    start += between + columns_[i].width;
  }
  return padded(text, start);
}

std::string Columns::heading(const Style& style) const {
  if (!fits_ || columns_.empty()) return {};
  std::vector<std::string> above;
  std::vector<std::string> below;
  for (const Column& column : columns_) {
    above.push_back(column.above);
    below.push_back(column.below);
  }
  std::string text;
  for (const std::vector<std::string>* cells : {&above, &below}) {
    const std::string one = without_end_blanks(line(*cells));
    if (!one.empty()) text += style.strong(one) + "\n";
  }
  return text;
}

std::string Columns::row(const FactRow& row) const {
  const std::string number = fmt::format("  {:>{}}", fmt::format("{}.", row.number), number_);
  std::vector<std::string> cells;
  std::vector<std::string> words;
  for (const Fact& fact : row.facts) {
    cells.push_back(printable(fact.cell));
    if (!fact.words.empty()) words.push_back(fact.words);
  }
  if (fits_) {
    std::string in_columns = line(cells);
    in_columns.replace(0, number.size(), number);
    in_columns = without_end_blanks(in_columns + (row.mark.empty() ? "" : padded("", between) + row.mark));
    if (columns(in_columns) <= page_width) return in_columns + "\n";
  }
  const int start = columns(number) + 1;
  const std::string told = joined(words, ", ") +
                           (row.mark.empty() ? "" : fmt::format("{}{}", words.empty() ? "" : "; ", row.mark));
  return number + " " + wrapped(told, page_width, start, start) + "\n";
}

std::string fact_table(std::vector<FactRow> rows, std::vector<std::string>& alike, const Style& style) {
  if (rows.empty()) return {};
  std::size_t numbers = 0;
  std::string mark;
  for (const FactRow& row : rows) {
    numbers = std::max(numbers, row.number);
    if (columns(row.mark) > columns(mark)) mark = row.mark;
  }
  for (std::size_t i = rows.front().facts.size(); i-- > 0;) {
    if (!same_in_all(rows, i)) continue;
    const std::string& words = rows.front().facts[i].words;
    if (!words.empty()) alike.insert(alike.begin(), words);
    for (FactRow& row : rows) row.facts.erase(row.facts.begin() + static_cast<std::ptrdiff_t>(i));
  }
  if (rows.front().facts.empty()) return {};
  std::vector<int> widest(rows.front().facts.size(), 0);
  for (const FactRow& row : rows) {
    for (std::size_t i = 0; i < widest.size(); ++i)
      widest[i] = std::max(widest[i], columns(row.facts[i].cell));
  }
  const Columns layout(rows.front().facts, widest, numbers, mark);
  std::string text = layout.heading(style);
  for (const FactRow& row : rows) text += layout.row(row);
  return text;
}

}  // namespace evenmat
