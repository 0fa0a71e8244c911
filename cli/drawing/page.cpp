#include "cli/drawing/page.h"

#include <algorithm>

namespace evenmat {
inline namespace drawing {
namespace {

constexpr double hair = 1e-3;

struct Around {
  std::optional<Box> box;

  void add(const At& at) {
    if (!box) {
      box = Box{at.x, at.y, 0, 0};
      return;
    }
    const double right = std::max(box->right(), at.x);
    const double bottom = std::max(box->bottom(), at.y);
    box->left = std::min(box->left, at.x);
    box->top = std::min(box->top, at.y);
    box->width = right - box->left;
    box->height = bottom - box->top;
  }
  void add(const Box& other) {
    add(At{other.left, other.top});
    add(At{other.right(), other.bottom()});
  }
  void operator()(const Shape& shape) {
    for (const At& at : shape.outline) add(at);
  }
  void operator()(const Polyline& line) {
    for (const At& at : line.points) add(at);
  }
  void operator()(const Text& text) { add(text.box); }
};

}  // namespace

bool overlap(const Box& a, const Box& b) {
  return a.left + hair < b.right() && b.left + hair < a.right() && a.top + hair < b.bottom() &&
         b.top + hair < a.bottom();
}

bool contains(const Box& outer, const Box& inner) {
  return outer.left <= inner.left + hair && outer.top <= inner.top + hair &&
         inner.right() <= outer.right() + hair && inner.bottom() <= outer.bottom() + hair;
}

Ring ring_of(const Box& box) {
  return {{box.left, box.top}, {box.right(), box.top}, {box.right(), box.bottom()}, {box.left, box.bottom()}};
}

Box box_around(const Ring& ring) {
  Around around;
  for (const At& at : ring) around.add(at);
  return around.box.value_or(Box{});
}

Box used(const Page& page) {
  Around around;
  for (const Mark& mark : page.marks) std::visit(around, mark);
  return around.box.value_or(Box{});
}

Page blank_page(PageSize size) {
  constexpr double a_millimetre = 72 / 25.4;
  if (size == PageSize::letter) return {8.5 * 72, 11 * 72.0, {}};
  if (size == PageSize::roll) return {8.5 * 72, 200 * 72.0, {}};
  return {210 * a_millimetre, 297 * a_millimetre, {}};
}

Box within_margins(const Page& page) {
  return {page_margin, page_margin, page.width - 2 * page_margin, page.height - 2 * page_margin};
}

}  // namespace drawing
}  // namespace evenmat
