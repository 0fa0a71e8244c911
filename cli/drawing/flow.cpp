#include "cli/drawing/flow.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>

#include "cli/printable.h"

namespace evenmat {
inline namespace drawing {
namespace {

constexpr double footer_height = 14;
constexpr double tick_size = 7;
constexpr double cell_gap = 6;
constexpr Colour faint = {0.75, 0.75, 0.77};

Shape tick_box(const At& at) {
  return {.outline = ring_of({at.x, at.y, tick_size, tick_size}), .stroke = Stroke{{0.2, 0.2, 0.22}, 0.7}};
}

Type heads_type(const Type& row) { return {.size = row.size - 1, .colour = {0.3, 0.3, 0.32}}; }
Type note_type(const Type& row) { return {.size = row.size - 1, .colour = {0.3, 0.3, 0.32}}; }

double line_height(const std::vector<Column>& columns, const std::vector<std::string>& cells,
                   const Type& type) {
  double height = 0;
  for (std::size_t i = 0; i < std::min(columns.size(), cells.size()); ++i)
    height = std::max(height, extent_of(cells[i], type, columns[i].width - cell_gap).height);
  return height;
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
  std::vector<Mark>& marks = pages_.back().marks;
  if (marks.empty()) return;
  std::vector<Mark> moved;
  double height = 0;
  if (held_ && held_->mark > 0) {
    const auto first = marks.begin() + static_cast<std::ptrdiff_t>(held_->mark);
    for (auto mark = first; mark != marks.end(); ++mark) {
      Text text = std::get<Text>(*mark);
      text.box.top += area_.top - held_->top;
      moved.emplace_back(std::move(text));
    }
    marks.erase(first, marks.end());
    height = y_ - held_->top;
    held_ = Held{0, area_.top};
  } else {
    held_.reset();
  }
  pages_.push_back(blank_page(size_));
  pages_.back().marks = std::move(moved);
  y_ = area_.top + height;
}

void Flow::keep_together(double height) {
  if (y_ + std::min(height, area_.height) > area_.bottom() + 1e-6) new_page();
}

Box Flow::take(double height) {
  height = std::min(height, area_.height);
  keep_together(height);
  const Box box{area_.left, y_, area_.width, height};
  y_ += height;
  held_.reset();
  return box;
}

void Flow::space(double height) { y_ = std::min(y_ + height, area_.bottom()); }

void Flow::title(const std::string& words) {
  const Type type{.size = 16, .bold = true};
  const std::string fitting = fitted(words, type, area_.width);
  const Box box = take(extent_of(fitting, type, area_.width).height + 4);
  page().marks.emplace_back(text_at({box.left, box.top}, fitting, type, area_.width));
}

void Flow::heading(const std::string& words) { put_heading(words, heading_type(), 8, 70); }

void Flow::subheading(const std::string& words) { put_heading(words, {.size = 9, .bold = true}, 6, 40); }

void Flow::put_heading(const std::string& words, const Type& type, double above, double least_below) {
  end_table();
  const std::string fitting = fitted(words, type, area_.width);
  const double height = extent_of(fitting, type, area_.width).height;
  keep_together(height + above + least_below);
  if (y_ > area_.top) space(above);
  const std::optional<Held> before = held_;
  const Box box = take(height + 3);
  held_ = before ? *before : Held{page().marks.size(), box.top};
  page().marks.emplace_back(text_at({box.left, box.top}, fitting, type, area_.width));
}

void Flow::paragraph(const std::string& words, const Type& type, double indent) {
  const double room = area_.width - indent;
  const std::string fitting = fitted(words, type, room);
  const Box box = take(extent_of(fitting, type, room).height + 2);
  page().marks.emplace_back(text_at({box.left + indent, box.top}, fitting, type, room));
}

void Flow::tick(const std::string& words, const Type& type, double indent) {
  const double first = indent + row_indent;
  const double room = area_.width - first;
  const std::string fitting = fitted(words, type, room);
  const double height = std::max(extent_of(fitting, type, room).height, tick_size + 1.5);
  const Box box = take(height + 3);
  page().marks.emplace_back(tick_box({box.left + indent, box.top + 1.2}));
  page().marks.emplace_back(text_at({box.left + first, box.top}, fitting, type, room));
}

double Flow::row_height(const std::vector<Column>& columns, const Lines& lines, const Type& type, bool ticked,
                        const std::string& note) const {
  double height = 0;
  for (const std::vector<std::string>& cells : lines) height += line_height(columns, cells, type);
  if (ticked) height = std::max(height, tick_size + 1.5);
  if (!note.empty()) height += 1 + extent_of(note, note_type(type), area_.width - row_indent).height;
  return height + 4;
}

void Flow::row(const std::vector<Column>& columns, const std::vector<std::string>& cells, const Type& type,
               bool ticked, const std::string& note) {
  rows(columns, {cells}, type, ticked, note);
}

void Flow::rows(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& lines,
                const Type& type, bool ticked, const std::string& note) {
  Lines fitting;
  for (const std::vector<std::string>& cells : lines) {
    std::vector<std::string>& line = fitting.emplace_back();
    for (std::size_t i = 0; i < std::min(columns.size(), cells.size()); ++i)
      line.push_back(fitted(cells[i], type, columns[i].width - cell_gap));
  }
  const std::string below = fitted(note, note_type(type), area_.width - row_indent);
  const double height = row_height(columns, fitting, type, ticked, below);
  double heads_height = 0;
  if (heads_) heads_height = row_height(heads_->columns, {heads_->cells}, heads_type(type), false, {});
  const bool heads_stand = !heads_ || heads_->page == pages_.size();
  keep_together(height + (heads_stand ? 0 : heads_height));
  if (heads_ && heads_->page != pages_.size()) {
    put_row(heads_->columns, {heads_->cells}, heads_type(type), false, {}, heads_height);
    heads_->page = pages_.size();
  }
  put_row(columns, fitting, type, ticked, below, height);
}

void Flow::put_row(const std::vector<Column>& columns, const Lines& lines, const Type& type, bool ticked,
                   const std::string& note, double height) {
  const Box box = take(height);
  double y = box.top + 1.5;
  double right = box.left + row_indent;
  if (ticked) page().marks.emplace_back(tick_box({box.left, box.top + 2.2}));
  for (const std::vector<std::string>& cells : lines) {
    double x = box.left + row_indent;
    for (std::size_t i = 0; i < std::min(columns.size(), cells.size()); ++i) {
      if (!cells[i].empty()) {
        page().marks.emplace_back(
            text_at({x, y}, cells[i], type, columns[i].width - cell_gap, columns[i].align));
      }
      x += columns[i].width;
    }
    right = std::max(right, x);
    y += line_height(columns, cells, type);
  }
  if (!note.empty()) {
    page().marks.emplace_back(
        text_at({box.left + row_indent, y + 1}, note, note_type(type), area_.width - row_indent));
  }
  page().marks.emplace_back(
      Polyline{{{box.left, box.bottom()}, {std::min(right, box.right()), box.bottom()}}, {faint, 0.3}});
}

void Flow::begin_table(const std::vector<Column>& columns, const std::vector<std::string>& heads) {
  heads_ = Heads{columns, heads};
}

std::string Flow::fitted(const std::string& words, const Type& type, double room) const {
  const auto fits = [&](const std::string& some) {
    return extent_of(some, type, room).height <= area_.height / 3;
  };
  if (fits(words)) return words;
  int low = 5;
  int high = std::max(columns(words), low);
  while (low < high) {
    const int middle = (low + high + 1) / 2;
    if (fits(shortened(words, middle))) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return shortened(words, low);
}

Drawing Flow::done(std::string title, const std::string& footer) const {
  Drawing drawing{std::move(title), pages_};
  if (drawing.pages.size() > 1 && drawing.pages.back().marks.empty()) drawing.pages.pop_back();
  if (size_ == PageSize::roll) return drawing;  // what ends where its contents do has no foot
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

}  // namespace drawing
}  // namespace evenmat
