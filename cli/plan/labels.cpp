#include "cli/plan/labels.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "cli/drawing/text.h"
#include "cli/printable.h"

namespace evenmat {
namespace {

constexpr Colour quiet = {0.28, 0.28, 0.32};

// Words of this many letters may be broken: no piece but a large one has room for them.
constexpr int long_word = 18;

bool breaks_no_word(std::string_view words, const Type& type, double room) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    const std::string_view word = words.substr(0, end);
    if (columns(word) < long_word && extent_of(word, type).width > room) return false;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return true;
}

// Lines of text below one another, or beside one another where they are turned up.
PieceLabel stacked(const Box& room, const std::vector<std::pair<std::string, Type>>& lines, Turn turn) {
  const bool up = turn == Turn::up;
  const double along = up ? room.height : room.width;
  std::vector<Extent> extents;
  double depth = 0;
  for (const auto& [words, type] : lines) {
    extents.push_back(extent_of(words, type, along));
    depth += extents.back().height;
  }
  PieceLabel label;
  double at = (up ? room.middle().x : room.middle().y) - depth / 2;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Extent& extent = extents[i];
    const double width = std::min(extent.width, along);
    const Box box = up ? Box{at, room.middle().y - width / 2, extent.height, width}
                       : Box{room.middle().x - width / 2, at, width, extent.height};
    label.lines.push_back({box, lines[i].first, lines[i].second, Align::centre, turn});
    at += extent.height;
  }
  label.box = label.lines.front().box;
  for (const Text& line : label.lines) {
    const double right = std::max(label.box.right(), line.box.right());
    const double bottom = std::max(label.box.bottom(), line.box.bottom());
    label.box.left = std::min(label.box.left, line.box.left);
    label.box.top = std::min(label.box.top, line.box.top);
    label.box.width = right - label.box.left;
    label.box.height = bottom - label.box.top;
  }
  return label;
}

// In two lines or, where the room is flat, in one.
std::optional<PieceLabel> set_in(const Box& room, const std::string& name, const std::string& size,
                                 double points, Turn turn) {
  const double along = turn == Turn::up ? room.height : room.width;
  const double across = turn == Turn::up ? room.width : room.height;
  const Type type{.size = points};
  const Type small{.size = points - 0.7, .colour = quiet};
  if (across < points * 1.1 || along < points) return std::nullopt;
  const Extent measure = extent_of(size, small);
  if (measure.width > along) return std::nullopt;
  const Extent named = extent_of(name, type, along);
  constexpr double most_lines = 4.5;
  if (named.height + measure.height <= across && named.width <= along + 0.01 &&
      named.height < most_lines * 1.2 * points && breaks_no_word(name, type, along))
    return stacked(room, {{name, type}, {size, small}}, turn);
  const std::string both = name + ", " + size;
  const Extent line = extent_of(both, type);
  if (line.width <= along && line.height <= across) return stacked(room, {{both, type}}, turn);
  return std::nullopt;
}

}  // namespace

Box inset(const Box& box, double by) {
  return {box.left + by, box.top + by, std::max(box.width - 2 * by, 0.0), std::max(box.height - 2 * by, 0.0)};
}

std::optional<PieceLabel> label_within(const std::vector<Box>& rooms, const std::string& name,
                                       const std::string& size) {
  for (const double points : {7.5, 6.7}) {
    for (const Turn turn : {Turn::none, Turn::up}) {
      for (const Box& room : rooms) {
        if (auto label = set_in(room, name, size, points, turn)) return label;
      }
    }
  }
  return std::nullopt;
}

std::optional<PieceLabel> mark_within(const std::vector<Box>& rooms, const std::string& mark) {
  for (const double points : {7.5, 6.0, 5.0}) {
    const Type type{.size = points, .italic = true};
    const Extent extent = extent_of(mark, type);
    for (const Box& room : rooms) {
      if (extent.width <= room.width && extent.height <= room.height)
        return stacked(room, {{mark, type}}, Turn::none);
    }
  }
  return std::nullopt;
}

void add_label(std::vector<Mark>& marks, const PieceLabel& label, const Look& look) {
  if (look.texture) {
    const Box plate = inset(label.box, -1);
    marks.emplace_back(Shape{.outline = ring_of(plate), .fill = look.fill});
  }
  for (const Text& line : label.lines) marks.emplace_back(line);
}

}  // namespace evenmat
