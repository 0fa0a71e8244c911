// One text laid out in lines by Pango. Only for measuring (text.cpp) and writing (render.cpp), so that both
// come to the same.
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <optional>
#include <string_view>

#include "cli/drawing/page.h"
#include "cli/drawing/text.h"

namespace evenmat {
inline namespace drawing {

class Layout {
 public:
  // `cairo`: what it will be shown on; none to measure alone.
  Layout(std::string_view words, const Type& type, std::optional<double> room, Align align,
         cairo_t* cairo = nullptr);

  [[nodiscard]] PangoLayout* get() const { return layout_.get(); }
  [[nodiscard]] Extent extent() const;

 private:
  struct Unref {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
    void operator()(PangoContext* context) const { g_object_unref(context); }
  };
  std::unique_ptr<PangoContext, Unref> context_;
  std::unique_ptr<PangoLayout, Unref> layout_;
};

}  // namespace drawing
}  // namespace evenmat
