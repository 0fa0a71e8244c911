#include "cli/draw/templates.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <utility>

#include "cli/draw/templates_pieces.h"
#include "cli/draw/templates_tiles.h"
#include "cli/draw/templates_words.h"
#include "cli/drawing/flow.h"
#include "cli/drawing/text.h"

namespace evenmat {
namespace {

constexpr double inch = 72, millimetre = 72 / 25.4;
constexpr double header_height = 16;
constexpr double rulers_height = 52;
constexpr double gap = 14;   // between two pieces
constexpr double clear = 3;  // from a piece to words below it
// More than this is no template to print: it is marked out by its measures.
constexpr std::size_t most_tiles = 64;

// A piece with its words in it or, where they do not go there, below it; or one of its tiles with words
// above.
struct Cell {
  TemplatePiece piece;
  std::vector<Tile> tiles;  // none where it goes on a page whole
  std::size_t which = 0;
  double down = 0;      // from the cell's top to where the piece begins
  TemplateWords words;  // from the cell's top left corner
  double width = 0, height = 0;
};

Cell cell_of(TemplatePiece piece) {
  constexpr double most_room = 230, least_room = 64, room_below = 120, pad = 6;
  const Box whole{0, 0, piece.width, piece.height};
  HoleWords holes = hole_words(piece, whole);
  piece.notes.insert(piece.notes.end(), holes.untold.begin(), holes.untold.end());
  Cell cell;
  cell.width = piece.width;
  cell.height = piece.height;
  std::optional<At> at;
  TemplateWords words;
  const auto attempt = [&](TemplateWords tried) {
    if (at) return;
    at = place_in(piece, tried.extent, {});
    if (at) words = std::move(tried);
  };
  for (const double room : {most_room, 110.0, least_room}) {
    if (piece.width - 2 * pad >= std::min(room, 110.0))
      attempt(words_of(piece, std::min(room, piece.width - 2 * pad)));
  }
  if (piece.height - 2 * pad >= 110)
    attempt(turned_up(words_of(piece, std::min(most_room, piece.height - 2 * pad))));
  if (!at) {
    words = words_of(piece, std::max(piece.width, room_below));
    at = At{0, piece.height + clear};
    cell.width = std::max(piece.width, words.extent.width);
    cell.height = at->y + words.extent.height;
  }
  move_by(words, *at);
  const std::vector<Box> taken{
      {at->x - clear, at->y - clear, words.extent.width + 2 * clear, words.extent.height + 2 * clear}};
  append(words, face_words(piece, whole, taken));
  append(words, std::move(holes.words));
  cell.words = std::move(words);
  cell.piece = std::move(piece);
  return cell;
}

// A line of an exact length with its marks below it.
struct Ruler {
  double length = 0;
  double apart = 0;             // of its finest marks
  std::array<int, 4> longer{};  // every so many marks one is longer
  int numbered = 1;             // every so many marks
  int each = 1;                 // what the numbers count up by
  std::string last;             // at the end
};

void add_ruler(std::vector<Mark>& marks, const At& at, const Ruler& ruler) {
  const Stroke stroke{{0, 0, 0}, 0.3};
  const Type type{.size = 5.5};
  marks.emplace_back(Polyline{{at, {at.x + ruler.length, at.y}}, stroke});
  const auto count = static_cast<int>(std::lround(ruler.length / ruler.apart));
  for (int i = 0; i <= count; ++i) {
    double tall = 3;
    for (const int every : ruler.longer) tall += every > 0 && i % every == 0 ? 1.6 : 0;
    const double x = at.x + (i == count ? ruler.length : i * ruler.apart);
    marks.emplace_back(Polyline{{{x, at.y}, {x, at.y + tall}}, stroke});
    if (i % ruler.numbered != 0) continue;
    const std::string words = i == count ? ruler.last : fmt::format("{}", i / ruler.numbered * ruler.each);
    const double below = i == count ? at.y + 1 : at.y + 9.6;
    marks.emplace_back(text_at({x + (i == count ? 2.5 : 1.2), below}, words, type, 60));
  }
}

class Pages {
 public:
  Pages(std::string title, PageSize size) : title_(std::move(title)), size_(size), flow_(size) {
    const Box page = flow_.left();
    area_ = {page.left, page.top + header_height, page.width, page.height - header_height - rulers_height};
  }

  Drawing run(const std::vector<TemplatePiece>& pieces) {
    std::vector<Cell> cells;
    for (const TemplatePiece& piece : pieces) {
      Cell cell = cell_of(piece);
      if (!fits(cell)) cell = cell_of(turned(piece));
      if (fits(cell)) {
        cells.push_back(std::move(cell));
      } else {
        add_tiled(cells, piece);
      }
    }
    pack(cells);
    return flow_.done(title_, title_);
  }

 private:
  [[nodiscard]] bool fits(const Cell& cell) const {
    return cell.width <= area_.width && cell.height <= area_.height;
  }

  void begin_page() {
    flow_.new_page();
    const Box page = flow_.take(flow_.whole_height());
    std::vector<Mark>& marks = flow_.page().marks;
    const Type type{.size = 10, .bold = true};
    marks.emplace_back(
        text_at({page.left, page.top}, shortened_to(title_, type, page.width), type, page.width));
    const double top = page.bottom() - rulers_height + 12;
    const Ruler inches{4 * inch, inch / 16, {2, 4, 8, 16}, 16, 1, "4 in"};
    const Ruler metric{100 * millimetre, millimetre, {5, 10, 0, 0}, 10, 10, "100 mm"};
    const bool is_metric = size_ == PageSize::a4;
    add_ruler(marks, {page.left, top}, is_metric ? metric : inches);
    add_ruler(marks, {page.left, top + 20}, is_metric ? inches : metric);
    constexpr double words_left = 322;
    const double room = page.width - words_left;
    const Text check = text_at(
        {page.left + words_left, top - 2},
        fmt::format("Print at 100 per cent (actual size), then lay a ruler here: this line is {} long.",
                    is_metric ? metric.last : inches.last),
        {.size = 7, .bold = true}, room);
    marks.emplace_back(text_at({page.left + words_left, check.box.bottom() + 1.5},
                               "Cutting through a paper template takes a fresh blade and a mat.",
                               template_note_type(), room));
    marks.emplace_back(check);
  }

  void put(const Cell& cell, const At& at) {
    std::vector<Mark>& marks = flow_.page().marks;
    const At corner{at.x, at.y + cell.down};
    if (!cell.tiles.empty()) {
      const std::vector<Mark> tile = tile_marks(cell.piece, cell.tiles, cell.which, corner);
      marks.insert(marks.end(), tile.begin(), tile.end());
    } else if (cell.piece.width > 0) {
      for (const TemplateLine& line : cell.piece.lines) {
        marks.emplace_back(Polyline{
            {{corner.x + line.from.x, corner.y + line.from.y}, {corner.x + line.to.x, corner.y + line.to.y}},
            line.stroke});
      }
      marks.emplace_back(Shape{.outline = ring_of({corner.x, corner.y, cell.piece.width, cell.piece.height}),
                               .stroke = template_edge()});
    }
    TemplateWords words = cell.words;
    move_by(words, at);
    marks.insert(marks.end(), words.texts.begin(), words.texts.end());
    marks.insert(marks.end(), words.arrows.begin(), words.arrows.end());
  }

  // What a cell takes of a page: a tile all of it, so that nothing lies between it and what it is taped to.
  [[nodiscard]] Extent taken_by(const Cell& cell) const {
    if (!cell.tiles.empty()) return {area_.width, area_.height};
    return {cell.width, cell.height};
  }

  // The tallest first, each in the first row that has room for it. (First fit by decreasing height: Coffman,
  // Garey, Johnson and Tarjan, 1980.)
  void pack(std::vector<Cell>& cells) {
    struct Row {
      std::size_t page = 0;
      double y = 0, height = 0, x = 0;
    };
    struct Place {
      std::size_t page = 0;
      At at;
    };
    std::stable_sort(cells.begin(), cells.end(),
                     [&](const Cell& a, const Cell& b) { return taken_by(a).height > taken_by(b).height; });
    std::vector<Row> rows;
    std::vector<double> used;  // of each page
    std::vector<Place> places;
    for (const Cell& cell : cells) {
      const Extent room = taken_by(cell);
      auto row = std::find_if(rows.begin(), rows.end(),
                              [&](const Row& one) { return one.x + room.width <= area_.width; });
      if (row == rows.end()) {
        auto page =
            std::find_if(used.begin(), used.end(), [&](double y) { return y + room.height <= area_.height; });
        if (page == used.end()) page = used.insert(used.end(), 0);
        row = rows.insert(rows.end(), {static_cast<std::size_t>(page - used.begin()), *page, room.height, 0});
        *page += room.height + gap;
      }
      places.push_back({row->page, {area_.left + row->x, area_.top + row->y}});
      row->x += room.width + gap;
    }
    for (std::size_t page = 0; page < used.size(); ++page) {
      begin_page();
      for (std::size_t i = 0; i < cells.size(); ++i) {
        if (places[i].page == page) put(cells[i], places[i].at);
      }
    }
  }

  // The words above a piece that goes over several pages.
  [[nodiscard]] static TemplateWords told(TemplatePiece piece, const std::string& which,
                                          const std::string& what_to_do, double room) {
    piece.name += ": " + which;
    std::string notes;
    for (const std::string& note : piece.notes) notes += note + "; ";
    piece.notes = {notes + what_to_do};
    return words_of(piece, room);
  }

  void add_tiled(std::vector<Cell>& cells, const TemplatePiece& piece) const {
    double height = area_.height - 30;
    for (;;) {
      const Extent room{area_.width, height};
      std::vector<Cell> tiles = in_tiles(piece, room);
      std::vector<Cell> other = in_tiles(turned(piece), room);
      if (other.size() < tiles.size()) tiles = std::move(other);
      height -= 10;
      const bool all_fit =
          std::all_of(tiles.begin(), tiles.end(), [&](const Cell& cell) { return fits(cell); });
      if (!all_fit && height > area_.height / 3) continue;
      std::move(tiles.begin(), tiles.end(), std::back_inserter(cells));
      return;
    }
  }

  [[nodiscard]] std::vector<Cell> in_tiles(TemplatePiece piece, const Extent& room) const {
    const std::vector<Tile> tiles = tiles_of(piece.width, piece.height, room);
    std::vector<Cell> cells;
    if (tiles.size() > most_tiles) {
      Cell cell;
      cell.words = told(piece, fmt::format("it would take {} pages", tiles.size()),
                        "mark it out by its measures instead", area_.width);
      cell.width = cell.words.extent.width;
      cell.height = cell.words.extent.height;
      return {cell};
    }
    std::vector<HoleWords> holes;
    for (const Tile& tile : tiles) holes.push_back(hole_words(piece, own_part(piece, tile)));
    for (const TemplateHole& hole : piece.holes) {
      const bool untold = std::all_of(holes.begin(), holes.end(), [&](const HoleWords& words) {
        return std::find(words.untold.begin(), words.untold.end(), hole.words) != words.untold.end();
      });
      if (untold) piece.notes.push_back(hole.words);
    }
    constexpr double least_room = 230;
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      const Box& part = tiles[i].part;
      const std::string which =
          fmt::format("tile {} of {}, column {} row {}", i + 1, tiles.size(), tiles[i].column, tiles[i].row);
      Cell cell;
      cell.words = told(piece, which, "tape A on A and so on; corner marks are where a tile ends, not a cut",
                        std::max(part.width, least_room));
      cell.down = cell.words.extent.height + clear;
      cell.width = std::max(part.width, cell.words.extent.width);
      cell.height = cell.down + part.height;
      TemplateWords within = face_words(piece, own_part(piece, tiles[i]), {});
      append(within, std::move(holes[i].words));
      move_by(within, {-part.left, cell.down - part.top});
      append(cell.words, std::move(within));
      cell.tiles = tiles;
      cell.which = i;
      cell.piece = piece;
      cells.push_back(std::move(cell));
    }
    return cells;
  }

  // What of a tile is on no other.
  static Box own_part(const TemplatePiece& piece, const Tile& tile) {
    constexpr double hair = 1e-6;
    const Box& part = tile.part;
    const double left = part.left > hair ? part.left + tile_overlap : 0;
    const double top = part.top > hair ? part.top + tile_overlap : 0;
    const double right = part.right() < piece.width - hair ? part.right() - tile_overlap : piece.width;
    const double bottom = part.bottom() < piece.height - hair ? part.bottom() - tile_overlap : piece.height;
    return {left, top, std::max(0.0, right - left), std::max(0.0, bottom - top)};
  }

  std::string title_;
  PageSize size_;
  Flow flow_;
  Box area_;  // of every page, for pieces
};

}  // namespace

Drawing templates(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions,
                  PageSize size) {
  const std::string title =
      card.title.empty() ? "Templates at true size" : "Templates at true size: " + card.title;
  return Pages(title, size).run(template_pieces(card, sized, versions));
}

}  // namespace evenmat
