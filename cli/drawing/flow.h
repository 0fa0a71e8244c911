// Pages filled from top to bottom: paragraphs, tables, rows to tick and figures, going on to a new page where
// one is full. Knows nothing of cards.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/drawing/text.h"

namespace evenmat {

// A column of a table: as wide as it says, in points.
struct Column {
  double width = 0;
  Align align = Align::left;
};

class Flow {
 public:
  explicit Flow(PageSize size);

  // The page in hand, and what is left of it.
  [[nodiscard]] Page& page() { return pages_.back(); }
  [[nodiscard]] Box left() const;
  [[nodiscard]] double width() const { return area_.width; }
  [[nodiscard]] double whole_height() const { return area_.height; }  // of an empty page

  // A new page, unless the one in hand is empty.
  void new_page();
  // A new page unless so much is left on this one.
  void keep_together(double height);
  // So much of the page, over its whole width; a new page first if need be. More than a page holds: a whole
  // page.
  Box take(double height);
  void space(double height);

  void heading(const std::string& words);  // with room above; never last on a page
  void subheading(const std::string& words);
  void paragraph(const std::string& words, const Type& type = {}, double indent = 0);
  // A box to tick, then words.
  void tick(const std::string& words, const Type& type = {}, double indent = 0);
  // A row of cells, each wrapped in its column, with a fine line below; `ticked` puts a box to tick before.
  void row(const std::vector<Column>& columns, const std::vector<std::string>& cells, const Type& type = {},
           bool ticked = false);

  // All pages, each with a footer: `footer`, and its number where there are several.
  [[nodiscard]] Drawing done(std::string title, const std::string& footer) const;

 private:
  PageSize size_;
  Box area_;  // of every page
  double y_ = 0;
  std::vector<Page> pages_;
};

Type heading_type();
Type small_type();

}  // namespace evenmat
