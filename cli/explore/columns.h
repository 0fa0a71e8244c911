// Numbered rows of facts in columns below their headings, within a page; where they do not fit side by
// side, each row goes on in further lines, and so do the headings. Knows nothing of cards.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "cli/explore/facts.h"

namespace evenmat {

struct FactRow {
  std::size_t number = 0;
  Facts facts;
  std::string mark;  // "as sized"; told behind the facts
};

class Columns {
 public:
  // For rows that are not all known yet: `first` is one of them, whose cells may be as wide as `widest` in
  // another. `numbers`: the largest number; `mark`: the longest. `parted`: from this fact on they stand on
  // lines of their own, where not all fit on one.
  Columns(const Facts& first, const std::vector<int>& widest, std::size_t numbers, std::string_view mark,
          std::size_t parted = 0);

  [[nodiscard]] std::string heading(const Style& style) const;
  [[nodiscard]] std::string row(const FactRow& row) const;

 private:
  struct Column {
    std::vector<std::string> heading;  // its lines
    int width = 0;
  };
  void lay_out(const Facts& first, const std::vector<int>& widest, int most_heading);
  void break_lines(std::size_t parted);
  // Those of line `index` beside one another.
  [[nodiscard]] std::string line(std::size_t index, const std::vector<std::string>& cells) const;

  Facts pattern_;
  std::vector<Column> columns_;
  std::vector<std::size_t> ends_;  // of each line the column behind its last
  int number_ = 0;
  int mark_ = 0;
};

// Rows of which all are known. Facts that are the same in all of them are left out, and given into `alike`.
std::string fact_table(std::vector<FactRow> rows, std::vector<std::string>& alike, const Style& style);

}  // namespace evenmat
