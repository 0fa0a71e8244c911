// Pages filled from top to bottom: paragraphs, tables, rows to tick and figures, going on to a new page where
// one is full. Knows nothing of cards.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/drawing/text.h"

namespace evenmat {
inline namespace drawing {

// A column of a table: as wide as it says, in points.
struct Column {
  double width = 0;
  Align align = Align::left;
};

class Flow {
 public:
  explicit Flow(PageSize size);

  // Where the cells of rows begin, with or without a box to tick: so much is taken off their width.
  static constexpr double row_indent = 12;

  // The page in hand, and what is left of it.
  [[nodiscard]] Page& page() { return pages_.back(); }
  [[nodiscard]] Box left() const;
  [[nodiscard]] double width() const { return area_.width; }
  [[nodiscard]] double whole_height() const { return area_.height; }  // of an empty page

  // A new page, unless the one in hand is empty. Headings at its end come along.
  void new_page();
  // A new page unless so much is left on this one.
  void keep_together(double height);
  // So much of the page, over its whole width; a new page first if need be. More than a page holds: a whole
  // page.
  Box take(double height);
  void space(double height);
  // What `draw` makes of a room of the page's width that is no taller than `most`: something with `marks` and
  // the `room` that it used, which go on the page with so much free `below`. A new page first unless so much
  // is left.
  template <typename Draw>
  auto figure(double most, double below, const Draw& draw) {
    keep_together(most);
    Box room = left();
    room.height = std::min(room.height, most);
    auto drawn = draw(room);
    take(drawn.room.height);
    page().marks.insert(page().marks.end(), drawn.marks.begin(), drawn.marks.end());
    space(below);
    return drawn;
  }

  void title(const std::string& words);
  void heading(const std::string& words);  // with room above; never last on a page
  void subheading(const std::string& words);
  void paragraph(const std::string& words, const Type& type = {}, double indent = 0);
  // A box to tick, then words.
  void tick(const std::string& words, const Type& type = {}, double indent = 0);
  // A row of cells, each wrapped in its column, with a fine line below; `ticked` puts a box to tick before;
  // `note` stands below the cells over all columns, in small type.
  void row(const std::vector<Column>& columns, const std::vector<std::string>& cells, const Type& type = {},
           bool ticked = false, const std::string& note = {});
  // Several lines of cells that stay together as one such row.
  void rows(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& lines,
            const Type& type = {}, bool ticked = false, const std::string& note = {});
  // The heads of the columns of the rows that follow: above the first of them and again on every page they go
  // on to, until the table ends or a heading comes.
  void begin_table(const std::vector<Column>& columns, const std::vector<std::string>& heads);
  void end_table() { heads_.reset(); }

  // All pages, each with a footer: `footer`, and its number where there are several.
  [[nodiscard]] Drawing done(std::string title, const std::string& footer) const;

 private:
  struct Heads {
    std::vector<Column> columns;
    std::vector<std::string> cells;
    std::size_t page = 0;  // how many pages there were when they were last written; 0: not yet
  };
  using Lines = std::vector<std::vector<std::string>>;
  // Of a row without its heads.
  [[nodiscard]] double row_height(const std::vector<Column>& columns, const Lines& lines, const Type& type,
                                  bool ticked, const std::string& note) const;
  void put_row(const std::vector<Column>& columns, const Lines& lines, const Type& type, bool ticked,
               const std::string& note, double height);
  void put_heading(const std::string& words, const Type& type, double above, double least_below);
  // Words as they are, or cut short where they would not go on one page.
  [[nodiscard]] std::string fitted(const std::string& words, const Type& type, double room) const;

  PageSize size_;
  Box area_;  // of every page
  double y_ = 0;
  std::vector<Page> pages_;
  std::optional<Heads> heads_;
  struct Held {
    std::size_t mark = 0;  // the first of them, among the page's
    double top = 0;
  };
  std::optional<Held> held_;  // headings that nothing stands below yet: they go on to the next page with it
};

Type heading_type();
Type small_type();

}  // namespace drawing
}  // namespace evenmat
