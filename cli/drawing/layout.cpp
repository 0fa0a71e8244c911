#include "cli/drawing/layout.h"

#include <cmath>
#include <string>

#include "cli/printable.h"

namespace evenmat {
inline namespace drawing {
namespace {

// With what stands in for it: any font without serifs.
constexpr const char* font_families = "DejaVu Sans,sans-serif";

}  // namespace

Layout::Layout(std::string_view words, const Type& type, std::optional<double> room, Align align,
               cairo_t* cairo) {
  context_.reset(pango_font_map_create_context(pango_cairo_font_map_get_default()));
  if (cairo != nullptr) pango_cairo_update_context(cairo, context_.get());
  // A point of the font is a point of the page, and no letter is moved to a raster: what is measured holds
  // for every format.
  pango_cairo_context_set_resolution(context_.get(), 72);
  using Options = std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)>;
  const Options options(cairo_font_options_create(), &cairo_font_options_destroy);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context_.get(), options.get());
  pango_context_set_round_glyph_positions(context_.get(), 0);
  // What a name is written in must not depend on the machine's own language.
  pango_context_set_language(context_.get(), pango_language_from_string("en"));
  layout_.reset(pango_layout_new(context_.get()));

  using Font = std::unique_ptr<PangoFontDescription, decltype(&pango_font_description_free)>;
  const Font font(pango_font_description_new(), &pango_font_description_free);
  pango_font_description_set_family(font.get(), font_families);
  pango_font_description_set_size(font.get(), static_cast<int>(std::lround(type.size * PANGO_SCALE)));
  if (type.bold) pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
  if (type.italic) pango_font_description_set_style(font.get(), PANGO_STYLE_ITALIC);
  pango_layout_set_font_description(layout_.get(), font.get());

  const std::string safe = printable(words);
  pango_layout_set_text(layout_.get(), safe.c_str(), static_cast<int>(safe.size()));
  if (room) {
    pango_layout_set_width(layout_.get(), static_cast<int>(std::ceil(*room * PANGO_SCALE)));
    pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
  }
  // A name that reads from right to left stands where any other would.
  pango_layout_set_auto_dir(layout_.get(), 0);
  pango_layout_set_alignment(layout_.get(), align == Align::left     ? PANGO_ALIGN_LEFT
                                            : align == Align::centre ? PANGO_ALIGN_CENTER
                                                                     : PANGO_ALIGN_RIGHT);
}

Extent Layout::extent() const {
  PangoRectangle logical;
  pango_layout_get_extents(layout_.get(), nullptr, &logical);
  return {static_cast<double>(logical.width) / PANGO_SCALE,
          static_cast<double>(logical.height) / PANGO_SCALE};
}

}  // namespace drawing
}  // namespace evenmat
