#include "cli/draw/templates.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "cli/draw/templates_pieces.h"
#include "cli/draw/templates_tiles.h"
#include "cli/drawing/flow.h"
#include "cli/drawing/text.h"

namespace evenmat {
namespace {

constexpr double inch = 72, millimetre = 72 / 25.4;
constexpr Colour quiet = {0.3, 0.3, 0.32};
constexpr double header_height = 22;
constexpr double rulers_height = 52;
constexpr double gap = 14;   // between two pieces
constexpr double pad = 6;    // from a piece's edge to the words in it
constexpr double clear = 3;  // from the words to a line
// More than this is no template to print: it is marked out by its measures.
constexpr std::size_t most_tiles = 64;

Type name_type() { return {.size = 8.5, .bold = true}; }
Type note_type() { return {.size = 6.8, .colour = quiet}; }

// The words about a piece, below one another from the top left of their box; or turned up.
struct Words {
  std::vector<Text> lines;
  Extent extent;
};

Words words_of(const TemplatePiece& piece, double room) {
  Words words;
  const auto add = [&](const std::string& line, const Type& type) {
    Text text = text_at({0, words.extent.height}, line, type, room);
    words.extent.width = std::max(words.extent.width, text.box.width);
    words.extent.height = text.box.bottom() + 0.8;
    words.lines.push_back(std::move(text));
  };
  add(piece.name, name_type());
  for (const std::string& note : piece.notes) add(note, note_type());
  return words;
}

Words turned_up(Words words) {
  for (Text& line : words.lines) {
    const Box box = line.box;
    line.box = {box.top, words.extent.width - box.right(), box.height, box.width};
    line.turn = Turn::up;
  }
  std::swap(words.extent.width, words.extent.height);
  return words;
}

bool is_clear(const TemplatePiece& piece, const Box& box) {
  const Box wide{box.left - clear, box.top - clear, box.width + 2 * clear, box.height + 2 * clear};
  return std::all_of(piece.lines.begin(), piece.lines.end(),
                     [&](const TemplateLine& line) { return is_nothing(clipped(line, wide)); });
}

// The topmost and then leftmost place in the piece where words cross none of its lines.
std::optional<At> place_in(const TemplatePiece& piece, const Extent& words) {
  constexpr double step = 6;
  for (double y = pad; y + words.height + pad <= piece.height; y += step) {
    for (double x = pad; x + words.width + pad <= piece.width; x += step) {
      if (is_clear(piece, {x, y, words.width, words.height})) return At{x, y};
    }
  }
  return std::nullopt;
}

// A piece with its words in it or, where they do not go there, below it.
struct Cell {
  TemplatePiece piece;
  std::vector<Text> words;  // from the piece's top left corner
  double width = 0, height = 0;
};

Cell cell_of(TemplatePiece piece) {
  constexpr double most_room = 230, least_room = 64, room_below = 120;
  Cell cell;
  cell.width = piece.width;
  cell.height = piece.height;
  std::optional<At> at;
  Words words;
  const auto attempt = [&](Words tried) {
    if (at) return;
    at = place_in(piece, tried.extent);
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
  for (Text& line : words.lines) {
    line.box.left += at->x;
    line.box.top += at->y;
    cell.words.push_back(std::move(line));
  }
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
  Pages(std::string title, PageSize size) : title_(std::move(title)), flow_(size) {
    const Box page = flow_.left();
    area_ = {page.left, page.top + header_height, page.width, page.height - header_height - rulers_height};
  }

  Drawing run(std::vector<TemplatePiece> pieces) {
    std::vector<Cell> cells;
    std::vector<TemplatePiece> large;
    for (TemplatePiece& piece : pieces) {
      Cell cell = cell_of(piece);
      if (!fits(cell)) cell = cell_of(turned(piece));
      if (fits(cell)) {
        cells.push_back(std::move(cell));
      } else {
        large.push_back(std::move(piece));
      }
    }
    pack(std::move(cells));
    for (TemplatePiece& piece : large) add_tiled(std::move(piece));
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
    add_ruler(marks, {page.left, top}, {4 * inch, inch / 16, {2, 4, 8, 16}, 16, 1, "4 in"});
    add_ruler(marks, {page.left, top + 20}, {100 * millimetre, millimetre, {5, 10, 0, 0}, 10, 10, "100 mm"});
    constexpr double words_left = 322;
    const double room = page.width - words_left;
    const Text check =
        text_at({page.left + words_left, top - 2},
                "Print at 100 per cent (actual size), then lay a ruler here: this line is 4 in long.",
                {.size = 7, .bold = true}, room);
    marks.emplace_back(text_at({page.left + words_left, check.box.bottom() + 1.5},
                               "Cutting through a paper template takes a fresh blade and a mat.", note_type(),
                               room));
    marks.emplace_back(check);
  }

  void put(const Text& text, const At& by) {
    Text moved = text;
    moved.box.left += by.x;
    moved.box.top += by.y;
    flow_.page().marks.emplace_back(std::move(moved));
  }

  void put(const Cell& cell, const At& at) {
    std::vector<Mark>& marks = flow_.page().marks;
    for (const TemplateLine& line : cell.piece.lines) {
      marks.emplace_back(Polyline{
          {{at.x + line.from.x, at.y + line.from.y}, {at.x + line.to.x, at.y + line.to.y}}, line.stroke});
    }
    marks.emplace_back(Shape{.outline = ring_of({at.x, at.y, cell.piece.width, cell.piece.height}),
                             .stroke = template_edge()});
    for (const Text& line : cell.words) put(line, at);
  }

  // The tallest first, each in the first row that has room for it. (First fit by decreasing height: Coffman,
  // Garey, Johnson and Tarjan, 1980.)
  void pack(std::vector<Cell> cells) {
    struct Row {
      std::size_t page = 0;
      double y = 0, height = 0, x = 0;
    };
    struct Place {
      std::size_t page = 0;
      At at;
    };
    std::stable_sort(cells.begin(), cells.end(),
                     [](const Cell& a, const Cell& b) { return a.height > b.height; });
    std::vector<Row> rows;
    std::vector<double> used;  // of each page
    std::vector<Place> places;
    for (const Cell& cell : cells) {
      auto row = std::find_if(rows.begin(), rows.end(),
                              [&](const Row& one) { return one.x + cell.width <= area_.width; });
      if (row == rows.end()) {
        auto page =
            std::find_if(used.begin(), used.end(), [&](double y) { return y + cell.height <= area_.height; });
        if (page == used.end()) page = used.insert(used.end(), 0);
        row = rows.insert(rows.end(), {static_cast<std::size_t>(page - used.begin()), *page, cell.height, 0});
        *page += cell.height + gap;
      }
      places.push_back({row->page, {area_.left + row->x, area_.top + row->y}});
      row->x += cell.width + gap;
    }
    for (std::size_t page = 0; page < used.size(); ++page) {
      begin_page();
      for (std::size_t i = 0; i < cells.size(); ++i) {
        if (places[i].page == page) put(cells[i], places[i].at);
      }
    }
  }

  // The words above a piece that goes over several pages.
  [[nodiscard]] Words told(const TemplatePiece& piece, const std::string& which,
                           const std::string& what_to_do) const {
    TemplatePiece words = piece;
    words.name += ": " + which;
    std::string notes;
    for (const std::string& note : piece.notes) notes += note + "; ";
    words.notes = {notes + what_to_do};
    return words_of(words, area_.width);
  }

  void add_tiled(TemplatePiece piece) {
    const std::string together = "lay like letters over one another";
    const double most = told(piece, "tile 64 of 64, column 64 row 64", together).extent.height + 6;
    const Extent room{area_.width, std::max(area_.height - most, area_.height / 3)};
    const TemplatePiece other = turned(piece);
    std::vector<Tile> tiles = tiles_of(piece.width, piece.height, room);
    std::vector<Tile> of_other = tiles_of(other.width, other.height, room);
    if (of_other.size() < tiles.size()) {
      tiles = std::move(of_other);
      piece = other;
    }
    const At corner{area_.left, area_.top};
    if (tiles.size() > most_tiles) {
      begin_page();
      const Words words = told(piece, fmt::format("it would take {} pages", tiles.size()),
                               "mark it out by its measures instead");
      for (const Text& line : words.lines) put(line, corner);
      return;
    }
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      begin_page();
      const std::string which =
          fmt::format("tile {} of {}, column {} row {}", i + 1, tiles.size(), tiles[i].column, tiles[i].row);
      for (const Text& line : told(piece, which, together).lines) put(line, corner);
      const std::vector<Mark> marks = tile_marks(piece, tiles, i, {corner.x, area_.bottom() - room.height});
      std::vector<Mark>& all = flow_.page().marks;
      all.insert(all.end(), marks.begin(), marks.end());
    }
  }

  std::string title_;
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
