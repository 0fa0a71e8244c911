#include "cli/drawing/render.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>
#include <variant>
#include <vector>

#include "cli/drawing/layout.h"
#include "cli/printable.h"

namespace evenmat {
inline namespace drawing {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

Surface owned(cairo_surface_t* surface) { return {surface, &cairo_surface_destroy}; }
Context context_of(const Surface& surface) { return {cairo_create(surface.get()), &cairo_destroy}; }

cairo_status_t take(void* into, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(into)->append(reinterpret_cast<const char*>(bytes),
                                          count);  // NOLINT: cairo's way
  return CAIRO_STATUS_SUCCESS;
}

// Lays marks on a surface.
class Pen {
 public:
  explicit Pen(cairo_t* cairo) : cairo_(cairo) {}

  void operator()(const Shape& shape) const {
    if (shape.outline.empty()) return;
    cairo_save(cairo_);
    for (const Ring& opening : shape.openings) leave_out(opening, shape.outline);
    if (shape.fill) {
      trace(shape.outline);
      set(*shape.fill);
      cairo_fill(cairo_);
    }
    if (shape.texture) lay(*shape.texture, shape.outline);
    if (shape.stroke) draw(shape.outline, *shape.stroke);
    cairo_restore(cairo_);
  }

  void operator()(const Polyline& line) const {
    if (line.points.size() < 2) return;
    set(line.stroke);
    cairo_move_to(cairo_, line.points.front().x, line.points.front().y);
    for (std::size_t i = 1; i < line.points.size(); ++i)
      cairo_line_to(cairo_, line.points[i].x, line.points[i].y);
    cairo_stroke(cairo_);
    if (line.arrow_at_start) head(line.points[1], line.points[0], line.stroke);
    if (line.arrow_at_end) head(line.points[line.points.size() - 2], line.points.back(), line.stroke);
  }

  void operator()(const Text& text) const {
    cairo_save(cairo_);
    const bool turned = text.turn == Turn::up;
    cairo_translate(cairo_, text.box.left, turned ? text.box.bottom() : text.box.top);
    if (turned) cairo_rotate(cairo_, -std::numbers::pi / 2);
    set(text.type.colour);
    // A hair wider than measured, so that no word is pushed into a line of its own.
    const double room = (turned ? text.box.height : text.box.width) + 0.01;
    const Layout layout(text.words, text.type, room, text.align, cairo_);
    pango_cairo_show_layout(cairo_, layout.get());
    cairo_restore(cairo_);
  }

 private:
  void set(const Colour& colour) const {
    cairo_set_source_rgb(cairo_, colour.red, colour.green, colour.blue);
  }
  void set(const Stroke& stroke) const {
    set(stroke.colour);
    cairo_set_line_width(cairo_, stroke.width);
    cairo_set_dash(cairo_, stroke.dashes.data(), static_cast<int>(stroke.dashes.size()), 0);
  }

  void trace(const Ring& ring) const {
    if (ring.empty()) return;
    cairo_move_to(cairo_, ring.front().x, ring.front().y);
    for (std::size_t i = 1; i < ring.size(); ++i) cairo_line_to(cairo_, ring[i].x, ring[i].y);
    cairo_close_path(cairo_);
  }
  void draw(const Ring& ring, const Stroke& stroke) const {
    trace(ring);
    set(stroke);
    cairo_stroke(cairo_);
  }
  // Nothing is drawn in an opening from here on: all around both it and the outline may be.
  void leave_out(const Ring& opening, const Ring& outline) const {
    Ring all = outline;
    all.insert(all.end(), opening.begin(), opening.end());
    Box box = box_around(all);
    constexpr double around = 10;
    box = {box.left - around, box.top - around, box.width + 2 * around, box.height + 2 * around};
    trace(ring_of(box));
    trace(opening);
    cairo_set_fill_rule(cairo_, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_clip(cairo_);
    cairo_set_fill_rule(cairo_, CAIRO_FILL_RULE_WINDING);
  }

  void head(const At& from, const At& to, const Stroke& stroke) const {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length == 0) return;
    const double size = std::min(4.0 + stroke.width, length);
    const double x = (to.x - from.x) / length * size;
    const double y = (to.y - from.y) / length * size;
    constexpr double slim = 0.3;
    cairo_move_to(cairo_, to.x, to.y);
    cairo_line_to(cairo_, to.x - x + slim * y, to.y - y - slim * x);
    cairo_line_to(cairo_, to.x - x - slim * y, to.y - y + slim * x);
    cairo_close_path(cairo_);
    cairo_fill(cairo_);
  }

  // Each in a path or two, and none that would have to be clipped: that keeps an SVG small.
  void lay(const Texture& texture, const Ring& outline) const {
    if (texture.apart <= 0) return;
    set(texture.stroke);
    switch (texture.kind) {
      case Texture::Kind::lines:
        rule(outline, texture.turned, texture.apart);
        cairo_stroke(cairo_);
        break;
      case Texture::Kind::crossed:
        rule(outline, texture.turned, texture.apart);
        rule(outline, texture.turned + 90, texture.apart);
        cairo_stroke(cairo_);
        break;
      case Texture::Kind::dots:
        cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_ROUND);
        rows(outline, texture.apart / 2, {0.01, texture.apart - 0.01});
        cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
        break;
      case Texture::Kind::stitches:
        rows(outline, texture.apart * 0.7, {texture.apart * 1.2, texture.apart});
        break;
    }
  }

  // What of a line lies within a ring: of the line `over` from the page's corner, turned as `along` is.
  void lay_within(const Ring& ring, const At& along, double over) const {
    const At across{-along.y, along.x};
    std::vector<double> met;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const At& a = ring[i];
      const At& b = ring[(i + 1) % ring.size()];
      const double from = a.x * across.x + a.y * across.y - over;
      const double to = b.x * across.x + b.y * across.y - over;
      if ((from > 0) == (to > 0)) continue;
      const double part = from / (from - to);
      met.push_back((a.x + part * (b.x - a.x)) * along.x + (a.y + part * (b.y - a.y)) * along.y);
    }
    std::sort(met.begin(), met.end());
    for (std::size_t i = 0; i + 1 < met.size(); i += 2) {
      cairo_move_to(cairo_, along.x * met[i] + across.x * over, along.y * met[i] + across.y * over);
      cairo_line_to(cairo_, along.x * met[i + 1] + across.x * over, along.y * met[i + 1] + across.y * over);
    }
  }

  // Lines hang together over a page: where they begin does not depend on the shape.
  void rule(const Ring& outline, double turned, double apart, int from_row = 0, int step = 1) const {
    const double angle = turned * std::numbers::pi / 180;
    const At along{std::cos(angle), std::sin(angle)};
    double least = std::numeric_limits<double>::max();
    double most = std::numeric_limits<double>::lowest();
    for (const At& at : outline) {
      const double over = at.y * along.x - at.x * along.y;
      least = std::min(least, over);
      most = std::max(most, over);
    }
    for (auto i = static_cast<int>(std::ceil(least / apart)); i * apart <= most; ++i) {
      if (((i % step) + step) % step == from_row) lay_within(outline, along, i * apart);
    }
  }

  // Broken lines from left to right, every other row half a length further on.
  void rows(const Ring& outline, double apart, const std::array<double, 2>& dashes) const {
    for (const int odd : {0, 1}) {
      cairo_set_dash(cairo_, dashes.data(), 2, odd == 0 ? 0 : (dashes[0] + dashes[1]) / 2);
      rule(outline, 0, apart, odd, 2);
      cairo_stroke(cairo_);
    }
  }

  cairo_t* cairo_;
};

void lay_all(cairo_t* cairo, const Page& page) {
  const Pen pen(cairo);
  for (const Mark& mark : page.marks) std::visit(pen, mark);
}

std::string trouble_of(cairo_status_t status) {
  if (status == CAIRO_STATUS_SUCCESS) return {};
  return fmt::format("The drawing could not be made: {}.", cairo_status_to_string(status));
}

Rendered as_pdf(const Drawing& drawing) {
  Rendered made;
  const Page first = drawing.pages.empty() ? Page{} : drawing.pages.front();
  const Surface surface =
      owned(cairo_pdf_surface_create_for_stream(take, &made.bytes, first.width, first.height));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, printable(drawing.title).c_str());
  // The day it is made on is not part of a drawing: the same card, the same bytes.
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
  {
    const Context cairo = context_of(surface);
    for (const Page& page : drawing.pages) {
      cairo_pdf_surface_set_size(surface.get(), page.width, page.height);
      lay_all(cairo.get(), page);
      cairo_show_page(cairo.get());
    }
    made.trouble = trouble_of(cairo_status(cairo.get()));
  }
  cairo_surface_finish(surface.get());
  if (made.trouble.empty()) made.trouble = trouble_of(cairo_surface_status(surface.get()));
  return made;
}

// Where each page begins in one picture of them all, and how large that is.
struct Stack {
  double width = 0, height = 0;
  std::vector<double> tops;
};

Stack stack_of(const Drawing& drawing) {
  Stack stack;
  for (const Page& page : drawing.pages) {
    stack.width = std::max(stack.width, page.width);
    stack.tops.push_back(stack.height);
    stack.height += std::min(page.height, used(page).bottom() + page_margin);
  }
  return stack;
}

void lay_below(cairo_t* cairo, const Drawing& drawing, const Stack& stack) {
  cairo_set_source_rgb(cairo, 1, 1, 1);
  cairo_paint(cairo);
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    cairo_save(cairo);
    cairo_translate(cairo, 0, stack.tops[i]);
    lay_all(cairo, drawing.pages[i]);
    cairo_restore(cairo);
  }
}

Rendered as_svg(const Drawing& drawing) {
  Rendered made;
  const Stack stack = stack_of(drawing);
  const Surface surface =
      owned(cairo_svg_surface_create_for_stream(take, &made.bytes, stack.width, stack.height));
  {
    const Context cairo = context_of(surface);
    lay_below(cairo.get(), drawing, stack);
    made.trouble = trouble_of(cairo_status(cairo.get()));
  }
  cairo_surface_finish(surface.get());
  if (made.trouble.empty()) made.trouble = trouble_of(cairo_surface_status(surface.get()));
  return made;
}

Rendered as_png(const Drawing& drawing, double dots) {
  Rendered made;
  const Stack stack = stack_of(drawing);
  const double scale = dots / 72;
  constexpr double most = 32767;  // cairo's own limit
  if (stack.height * scale > most || stack.width * scale > most) {
    made.trouble =
        drawing.pages.size() == 1
            ? std::string(
                  "This picture is too large for a PNG of so many dots; write an SVG or a PDF, or ask "
                  "for fewer with --dots.")
            : fmt::format(
                  "{} pages below one another are too much for one PNG; write a PDF, which has pages.",
                  drawing.pages.size());
    return made;
  }
  const Surface surface =
      owned(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(stack.width * scale)),
                                       static_cast<int>(std::ceil(stack.height * scale))));
  {
    const Context cairo = context_of(surface);
    cairo_scale(cairo.get(), scale, scale);
    lay_below(cairo.get(), drawing, stack);
    made.trouble = trouble_of(cairo_status(cairo.get()));
  }
  if (made.trouble.empty())
    made.trouble = trouble_of(cairo_surface_write_to_png_stream(surface.get(), take, &made.bytes));
  return made;
}

}  // namespace

std::optional<FileKind> format_of(const std::string& path) {
  const std::size_t dot = path.find_last_of("./");
  // What begins with a point has a name and no ending.
  if (dot == std::string::npos || path[dot] != '.' || dot == 0 || path[dot - 1] == '/') return std::nullopt;
  std::string ending = path.substr(dot + 1);
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  if (ending == "svg") return FileKind::svg;
  if (ending == "pdf") return FileKind::pdf;
  if (ending == "png") return FileKind::png;
  return std::nullopt;
}

std::vector<Box> places_of_pages(const Drawing& drawing, FileKind kind) {
  std::vector<Box> places;
  const Stack stack = stack_of(drawing);
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    const Page& page = drawing.pages[i];
    const double end = i + 1 < stack.tops.size() ? stack.tops[i + 1] : stack.height;
    places.push_back(kind == FileKind::pdf ? Box{0, 0, page.width, page.height}
                                           : Box{0, stack.tops[i], page.width, end - stack.tops[i]});
  }
  return places;
}

Rendered render(const Drawing& drawing, FileKind kind, double dots) {
  Rendered made = kind == FileKind::svg   ? as_svg(drawing)
                  : kind == FileKind::pdf ? as_pdf(drawing)
                                          : as_png(drawing, dots);
  if (!made.trouble.empty()) made.bytes.clear();
  return made;
}

}  // namespace drawing
}  // namespace evenmat
