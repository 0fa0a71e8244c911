#include "cli/explore/columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {
namespace {

constexpr int between = 2;        // blanks between columns
constexpr int most_heading = 16;  // columns of a heading, and where that lets all stand side by side
constexpr int least_heading = 7;
constexpr int longest_word = 12;

std::string without_end_blanks(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

// The words on as many lines as they take within so many columns, or a longer word; the longest are
// shortened.
std::vector<std::string> in_lines(std::string_view words, int width) {
  std::vector<std::string> lines;
  while (!words.empty()) {
    const std::size_t blank = std::min(words.find(' '), words.size());
    const std::string word = shortened(words.substr(0, blank), longest_word);
    if (!lines.empty() && columns(lines.back()) + 1 + columns(word) <= width) {
      lines.back() += " " + word;
    } else if (!word.empty()) {
      lines.push_back(word);
    }
    words.remove_prefix(std::min(blank + 1, words.size()));
  }
  return lines;
}

bool are_of_one_column(const Fact& a, const Fact& b) { return a.above == b.above && a.below == b.below; }

// The facts for these columns; of what a row does not know, nothing is told.
Facts in_order_of(const Facts& pattern, const Facts& facts) {
  Facts found;
  for (const Fact& column : pattern) {
    const auto own = std::find_if(facts.begin(), facts.end(),
                                  [&](const Fact& fact) { return are_of_one_column(fact, column); });
    found.push_back(own != facts.end() ? *own : Fact{column.above, column.below, "", ""});
  }
  return found;
}

// The columns that any of the rows has something for.
Facts all_columns(const std::vector<FactRow>& rows) {
  Facts all;
  for (const FactRow& row : rows) {
    for (const Fact& fact : row.facts) {
      if (std::none_of(all.begin(), all.end(), [&](const Fact& one) { return are_of_one_column(one, fact); }))
        all.push_back(fact);
    }
  }
  return all;
}

// What is told of fact `index` in every row alike, if it is.
bool same_in_all(const std::vector<FactRow>& rows, std::size_t index) {
  return std::all_of(rows.begin(), rows.end(), [&](const FactRow& row) {
    return row.facts[index].words == rows.front().facts[index].words;
  });
}

}  // namespace

Columns::Columns(const Facts& first, const std::vector<int>& widest, std::size_t numbers,
                 std::string_view mark, std::size_t parted)
    : pattern_(first), number_(columns(std::to_string(numbers)) + 1), mark_(columns(mark)) {
  // Wide headings are read more easily, but a row on one line more easily still.
  for (const int heading : {most_heading, least_heading}) {
    lay_out(first, widest, heading);
    break_lines(parted);
    if (ends_.size() == 1) return;
  }
}

void Columns::lay_out(const Facts& first, const std::vector<int>& widest, int heading) {
  columns_.clear();
  for (std::size_t i = 0; i < first.size(); ++i) {
    Column column;
    column.width = std::max(columns(first[i].cell), i < widest.size() ? widest[i] : 0);
    const int room = std::max(heading, column.width);
    column.heading = in_lines(first[i].above, room);
    for (std::string& line : in_lines(first[i].below, room)) column.heading.push_back(std::move(line));
    for (const std::string& line : column.heading) column.width = std::max(column.width, columns(line));
    columns_.push_back(std::move(column));
  }
}

void Columns::break_lines(std::size_t parted) {
  const int room = page_width - 2 - number_;
  const int mark = mark_ > 0 ? between + mark_ : 0;
  const auto broken = [&](bool at_part) {
    ends_.clear();
    int used = 0;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const int needed = between + columns_[i].width;
      if (i > 0 && (used + needed > room || (at_part && i == parted))) {
        ends_.push_back(i);
        used = 0;
      }
      used += needed;
    }
    ends_.push_back(columns_.size());
    if (used + mark > room) ends_.push_back(columns_.size());  // the mark stands alone
  };
  broken(false);
  if (ends_.size() > 1 && parted > 0) broken(true);
}

std::string Columns::line(std::size_t index, const std::vector<std::string>& cells) const {
  std::string text;
  int start = 2 + number_;
  for (std::size_t i = index == 0 ? 0 : ends_[index - 1]; i < ends_[index]; ++i) {
    text = padded(text, start) + padded("", between) + cells[i];
    start += between + columns_[i].width;
  }
  return padded(text, start);
}

std::string Columns::heading(const Style& style) const {
  std::string text;
  for (std::size_t i = 0; i < ends_.size(); ++i) {
    const std::size_t begin = i == 0 ? 0 : ends_[i - 1];
    std::size_t height = 0;
    for (std::size_t c = begin; c < ends_[i]; ++c) height = std::max(height, columns_[c].heading.size());
    // They end on one line, above the figures.
    for (std::size_t from_below = height; from_below > 0; --from_below) {
      std::vector<std::string> cells;
      for (const Column& column : columns_) {
        const std::size_t lines = column.heading.size();
        cells.push_back(lines < from_below ? "" : column.heading[lines - from_below]);
      }
      text += style.strong(without_end_blanks(line(i, cells))) + "\n";
    }
  }
  return text;
}

std::string Columns::row(const FactRow& row) const {
  std::vector<std::string> cells;
  for (const Fact& fact : in_order_of(pattern_, row.facts)) cells.push_back(printable(fact.cell));
  std::string text;
  for (std::size_t i = 0; i < ends_.size(); ++i) {
    std::string one = line(i, cells);
    if (i == 0) {
      const std::string number = fmt::format("  {:>{}}", fmt::format("{}.", row.number), number_);
      one.replace(0, number.size(), number);
    }
    if (i + 1 == ends_.size() && !row.mark.empty()) one += padded("", between) + row.mark;
    one = without_end_blanks(one);
    if (!one.empty()) text += one + "\n";
  }
  return text;
}

std::string fact_table(std::vector<FactRow> rows, std::vector<std::string>& alike, const Style& style) {
  if (rows.empty()) return {};
  const Facts every = all_columns(rows);
  for (FactRow& row : rows) row.facts = in_order_of(every, row.facts);
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
