#include "cli/drawing/text.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <utility>

#include "cli/drawing/layout.h"
#include "cli/printable.h"

namespace evenmat {
inline namespace drawing {
std::string trouble_with_fonts() {
  // The map lists some names whether there is a font behind them or not; letters tell.
  return lacks_letters("a")
             ? "There is no font on this machine to write with. Install one, such as the package "
               "fonts-dejavu-core."
             : "";
}

bool lacks_letters(std::string_view words) {
  const Layout layout(words, {}, std::nullopt, Align::left);
  return pango_layout_get_unknown_glyphs_count(layout.get()) > 0;
}

Extent extent_of(std::string_view words, const Type& type, std::optional<double> room) {
  return Layout(words, type, room, Align::left).extent();
}

Text text_at(const At& at, std::string words, const Type& type, double room, Align align) {
  const Extent extent = extent_of(words, type, room);
  const double width = align == Align::left ? std::min(extent.width, room) : room;
  return {{at.x, at.y, width, extent.height}, std::move(words), type, align, Turn::none};
}

Text text_around(const At& middle, std::string words, const Type& type, Turn turn) {
  Extent extent = extent_of(words, type);
  if (turn == Turn::up) std::swap(extent.width, extent.height);
  return {{middle.x - extent.width / 2, middle.y - extent.height / 2, extent.width, extent.height},
          std::move(words),
          type,
          Align::centre,
          turn};
}

std::string shortened_to(std::string_view words, const Type& type, double room) {
  std::string whole = printable(words);
  if (extent_of(whole, type).width <= room) return whole;
  constexpr int least = 5;
  int low = least;
  int high = std::max(columns(whole), least);
  while (low < high) {
    const int middle = (low + high + 1) / 2;
    if (extent_of(shortened(words, middle), type).width <= room) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return shortened(words, low);
}

}  // namespace drawing
}  // namespace evenmat
