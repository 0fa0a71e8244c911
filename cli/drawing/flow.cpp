#include "cli/drawing/flow.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace evenmat {
namespace {

constexpr double footer_height = 14;
constexpr double tick_size = 7;
constexpr Colour faint = {0.6, 0.6, 0.62};

Shape tick_box(const At& at) {
  return {.outline = ring_of({at.x, at.y, tick_size, tick_size}), .stroke = Stroke{{0.2, 0.2, 0.22}, 0.7}};
}

}  // namespace

Type heading_type() { return {.size = 12, .bold = true}; }
Type small_type() { return {.size = 6.5, .colour = {0.3, 0.3, 0.32}}; }

Flow::Flow(PageSize size) : size_(size), area_(within_margins(blank_page(size))) {
  area_.height -= footer_height;
  pages_.push_back(blank_page(size_));
  y_ = area_.top;
}

Box Flow::left() const { return {area_.left, y_, area_.width, area_.bottom() - y_}; }

void Flow::new_page() {
  if (pages_.back().marks.empty()) return;
  pages_.push_back(blank_page(size_));
  y_ = area_.top;
}

void Flow::keep_together(double height) {
  if (y_ + std::min(height, area_.height) > area_.bottom() + 1e-6) new_page();
}

Box Flow::take(double height) {
  height = std::min(height, area_.height);
  keep_together(height);
  const Box box{area_.left, y_, area_.width, height};
  y_ += height;
  return box;
}

void Flow::space(double height) { y_ = std::min(y_ + height, area_.bottom()); }

void Flow::heading(const std::string& words) {
  const Extent extent = extent_of(words, heading_type(), area_.width);
  keep_together(extent.height + 70);
  if (y_ > area_.top) space(8);
  const Box box = take(extent.height + 4);
  page().marks.emplace_back(text_at({box.left, box.top}, words, heading_type(), area_.width));
}

void Flow::subheading(const std::string& words) {
  const Type type{.size = 9, .bold = true};
  const Extent extent = extent_of(words, type, area_.width);
  keep_together(extent.height + 40);
  if (y_ > area_.top) space(4);
  const Box box = take(extent.height + 2);
  page().marks.emplace_back(text_at({box.left, box.top}, words, type, area_.width));
}

void Flow::paragraph(const std::string& words, const Type& type, double indent) {
  const double room = area_.width - indent;
  const Box box = take(extent_of(words, type, room).height + 2);
  page().marks.emplace_back(text_at({box.left + indent, box.top}, words, type, room));
}

void Flow::tick(const std::string& words, const Type& type, double indent) {
  const double first = indent + tick_size + 5;
  const double room = area_.width - first;
  const double height = std::max(extent_of(words, type, room).height, tick_size + 1.5);
  const Box box = take(height + 3);
  page().marks.emplace_back(tick_box({box.left + indent, box.top + 1.2}));
  page().marks.emplace_back(text_at({box.left + first, box.top}, words, type, room));
}

void Flow::row(const std::vector<Column>& columns, const std::vector<std::string>& cells, const Type& type,
               bool ticked) {
  constexpr double gap = 6;
  double height = ticked ? tick_size + 1.5 : 0;
  for (std::size_t i = 0; i < std::min(columns.size(), cells.size()); ++i)
    height = std::max(height, extent_of(cells[i], type, columns[i].width - gap).height);
  const Box box = take(height + 4);
  double x = box.left;
  if (ticked) page().marks.emplace_back(tick_box({x, box.top + 2.2}));
  x += tick_size + 5;
  for (std::size_t i = 0; i < std::min(columns.size(), cells.size()); ++i) {
    if (!cells[i].empty()) {
      page().marks.emplace_back(
          text_at({x, box.top + 1.5}, cells[i], type, columns[i].width - gap, columns[i].align));
    }
    x += columns[i].width;
  }
  page().marks.emplace_back(
      Polyline{{{box.left, box.bottom()}, {std::min(x, box.right()), box.bottom()}}, {faint, 0.3}});
}

Drawing Flow::done(std::string title, const std::string& footer) const {
  Drawing drawing{std::move(title), pages_};
  if (drawing.pages.size() > 1 && drawing.pages.back().marks.empty()) drawing.pages.pop_back();
  const std::size_t count = drawing.pages.size();
  for (std::size_t i = 0; i < count; ++i) {
    const At at{area_.left, area_.bottom() + 4};
    constexpr double number_room = 80;
    std::vector<Mark>& marks = drawing.pages[i].marks;
    const std::string own = shortened_to(footer, small_type(), area_.width - number_room);
    if (!own.empty()) marks.emplace_back(text_at(at, own, small_type(), area_.width - number_room));
    if (count > 1) {
      marks.emplace_back(text_at({area_.right() - number_room, at.y},
                                 fmt::format("page {} of {}", i + 1, count), small_type(), number_room,
                                 Align::right));
    }
  }
  return drawing;
}

}  // namespace evenmat
