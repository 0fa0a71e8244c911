// Numbered rows of facts below headings of two lines, within a page: in columns where these fit, else each
// row as lines of words. Knows nothing of cards.
#pragma once

#include <cstddef>
#include <string>
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
  // another. `numbers`: the largest number; `mark`: the longest.
  Columns(const Facts& first, const std::vector<int>& widest, std::size_t numbers, std::string_view mark);

  [[nodiscard]] std::string heading(const Style& style) const;
  [[nodiscard]] std::string row(const FactRow& row) const;

 private:
  struct Column {
    std::string above, below;
    int width = 0;
  };
  [[nodiscard]] std::string line(const std::vector<std::string>& cells) const;
  // Headings shortened to so many columns.
  void lay_out(const Facts& first, const std::vector<int>& widest, int most_heading);
  [[nodiscard]] int needed() const;

  std::vector<Column> columns_;
  int number_ = 0;
  int mark_ = 0;
  bool fits_ = false;
};

// Rows of which all are known. Facts that are the same in all of them are left out, and given into `alike`.
std::string fact_table(std::vector<FactRow> rows, std::vector<std::string>& alike, const Style& style);

}  // namespace evenmat
