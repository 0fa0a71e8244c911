#include "cli/draw/templates_tiles.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace evenmat {
namespace {

constexpr Colour quiet = {0.45, 0.46, 0.52};

// How many parts of at most `room` cover a length, and how long each is.
struct Parts {
  std::size_t count = 1;
  double length = 0;
};

Parts parts_of(double length, double room) {
  if (length <= room + 1e-6) return {1, length};
  const double count = std::ceil((length - tile_overlap) / (room - tile_overlap) - 1e-9);
  return {static_cast<std::size_t>(count), (length + (count - 1) * tile_overlap) / count};
}

std::string letters_of(std::size_t index) {
  std::string letters;
  for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
  return letters;
}

// A place in the strip that two tiles share: a cross with a letter beside it, in both at the same place of
// the piece.
struct Seam {
  Box strip;
  std::string letter;
};

// Those of all tiles, so that each has its own letter.
std::vector<Seam> seams_of(const std::vector<Tile>& tiles) {
  std::vector<Seam> seams;
  for (const Tile& tile : tiles) {
    for (const Tile& other : tiles) {
      const bool right = other.row == tile.row && other.column == tile.column + 1;
      const bool below = other.column == tile.column && other.row == tile.row + 1;
      if (!right && !below) continue;
      Box strip;
      if (right) {
        strip = {other.part.left, tile.part.top, tile.part.right() - other.part.left, tile.part.height};
      } else {
        strip = {tile.part.left, other.part.top, tile.part.width, tile.part.bottom() - other.part.top};
      }
      seams.push_back({strip, letters_of(seams.size())});
    }
  }
  return seams;
}

constexpr double arm = 3.5;  // of a cross

struct SeamMark {
  At cross;
  Text letter;
};

Box around(const SeamMark& mark) {
  const Box& letter = mark.letter.box;
  const double left = std::min(mark.cross.x - arm, letter.left);
  const double right = std::max(mark.cross.x + arm, letter.right());
  const double top = std::min(mark.cross.y - arm, letter.top);
  return {left, top, right - left, std::max(mark.cross.y + arm, letter.bottom()) - top};
}

// With its cross so far along and across the strip.
SeamMark mark_at(const Seam& seam, double along, double across) {
  const Type type{.size = 6.4, .bold = true};
  const bool upright = seam.strip.height > seam.strip.width;
  const At cross{seam.strip.left + seam.strip.width * (upright ? across : along),
                 seam.strip.top + seam.strip.height * (upright ? along : across)};
  const Extent extent = extent_of(seam.letter, type);
  const At middle = upright ? At{cross.x, cross.y + arm + 2 + extent.height / 2}
                            : At{cross.x + arm + 3 + extent.width / 2, cross.y};
  return {cross, text_around(middle, seam.letter, type)};
}

// Clear of the piece's lines if some place in the strip is: a score often runs down the middle.
SeamMark mark_in(const Seam& seam, const TemplatePiece& piece) {
  for (const double across : {0.5, 0.25, 0.75}) {
    for (const double along : {0.5, 0.4, 0.6, 0.3, 0.7, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75}) {
      SeamMark mark = mark_at(seam, along, across);
      const Box box = around(mark);
      const bool clear = std::all_of(piece.lines.begin(), piece.lines.end(), [&](const TemplateLine& line) {
        return is_nothing(clipped(line, {box.left - 0.5, box.top - 0.5, box.width + 1, box.height + 1}));
      });
      if (clear) return mark;
    }
  }
  return mark_at(seam, 0.5, 0.5);
}

}  // namespace

std::vector<Tile> tiles_of(double width, double height, const Extent& room) {
  const Parts across = parts_of(width, room.width);
  const Parts down = parts_of(height, room.height);
  std::vector<Tile> tiles;
  for (std::size_t row = 0; row < down.count; ++row) {
    for (std::size_t column = 0; column < across.count; ++column) {
      tiles.push_back({{static_cast<double>(column) * (across.length - tile_overlap),
                        static_cast<double>(row) * (down.length - tile_overlap), across.length, down.length},
                       column + 1,
                       row + 1});
    }
  }
  return tiles;
}

std::vector<Mark> tile_marks(const TemplatePiece& piece, const std::vector<Tile>& tiles, std::size_t which,
                             const At& corner) {
  const Box& part = tiles[which].part;
  const auto placed = [&](const At& at) {
    return At{corner.x + at.x - part.left, corner.y + at.y - part.top};
  };
  std::vector<Mark> marks;
  const auto draw = [&](const TemplateLine& line) {
    const TemplateLine here = clipped(line, part);
    if (!is_nothing(here)) marks.emplace_back(Polyline{{placed(here.from), placed(here.to)}, line.stroke});
  };
  const Ring edges = ring_of({0, 0, piece.width, piece.height});
  for (std::size_t i = 0; i < edges.size(); ++i) draw({edges[i], edges[(i + 1) % 4], template_edge()});
  for (const TemplateLine& line : piece.lines) draw(line);
  // Where the print ends and the piece goes on: at the corners only, so that it is taken for no line to cut.
  constexpr double corner_mark = 9;
  const Ring ends = ring_of(part);
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const At from = ends[i];
    const At to = ends[(i + 1) % 4];
    const auto on_edge = [](double a, double b, double end) {
      return std::abs(a - b) < 1e-6 && (std::abs(a) < 1e-6 || std::abs(a - end) < 1e-6);
    };
    if (on_edge(from.x, to.x, piece.width) || on_edge(from.y, to.y, piece.height)) continue;
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const At along{(to.x - from.x) / length * corner_mark, (to.y - from.y) / length * corner_mark};
    marks.emplace_back(Polyline{{placed(from), placed({from.x + along.x, from.y + along.y})}, {quiet, 0.5}});
    marks.emplace_back(Polyline{{placed({to.x - along.x, to.y - along.y}), placed(to)}, {quiet, 0.5}});
  }
  for (const Seam& seam : seams_of(tiles)) {
    if (!contains(part, seam.strip)) continue;
    SeamMark mark = mark_in(seam, piece);
    const At at = placed(mark.cross);
    marks.emplace_back(Polyline{{{at.x - arm, at.y}, {at.x + arm, at.y}}, {quiet, 0.4}});
    marks.emplace_back(Polyline{{{at.x, at.y - arm}, {at.x, at.y + arm}}, {quiet, 0.4}});
    const At letter = placed({mark.letter.box.left, mark.letter.box.top});
    mark.letter.box.left = letter.x;
    mark.letter.box.top = letter.y;
    marks.emplace_back(std::move(mark.letter));
  }
  return marks;
}

}  // namespace evenmat
