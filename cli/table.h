// Rows of names, numbers and notes laid out in columns within the width of a page, whatever they hold.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"

namespace evenmat {

inline constexpr int page_width = 80;

// A name, then the cells of the columns, then a note. A row with neither cells nor note spans the page.
struct Row {
  std::string name;
  std::vector<std::string> cells = {};
  std::string note = {};
  bool heading = false;
  int indent = 0;
};

// The rows as lines, each with its end. Long names are shortened, long notes go on below themselves. Where
// the cells leave no room, they go on their own lines below the name.
std::string table(const std::vector<Row>& rows, const Style& style);

// `text` as a paragraph behind `indent` blanks, what follows the first line behind two more.
std::string paragraph(std::string_view text, int indent = 0);

}  // namespace evenmat
