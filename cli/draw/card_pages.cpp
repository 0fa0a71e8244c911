#include "cli/draw/card_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "cli/closed_words.h"
#include "cli/draw/figure.h"
#include "cli/draw/scene.h"
#include "cli/draw/section.h"
#include "cli/drawing/flow.h"
#include "cli/wording.h"
#include "model/versions.h"

namespace evenmat {
namespace {

// So much height as its labels want, or as a picture of some size does.
double height_for(const Scene& scene, double least, double most) {
  constexpr double a_label = 24;
  return std::clamp(40 + a_label * static_cast<double>(scene.papers.size()), least, most);
}

void add_figure(Flow& flow, const Scene& scene, Unit unit, double least, const FigureStyle& style = {}) {
  const double wanted = height_for(scene, least, flow.whole_height());
  flow.keep_together(wanted);
  Box room = flow.left();
  room.height = std::min(room.height, wanted);
  const Figure figure = figure_of(scene, unit, room, style);
  flow.take(figure.room.height);
  std::vector<Mark>& marks = flow.page().marks;
  marks.insert(marks.end(), figure.marks.begin(), figure.marks.end());
  flow.space(16);
}

void add_section(Flow& flow, const Card& card, const Design& design, const SizedVersion& version) {
  const std::vector<SectionBar> bars = section_of(card, design, version);
  if (bars.empty()) return;
  const double wanted = std::clamp(60 + 22 * static_cast<double>(bars.size()), 110.0, flow.whole_height());
  flow.keep_together(wanted);
  Box room = flow.left();
  room.height = std::min(room.height, wanted);
  const SectionFigure figure = section_figure(bars, room);
  flow.take(figure.room.height);
  std::vector<Mark>& marks = flow.page().marks;
  marks.insert(marks.end(), figure.marks.begin(), figure.marks.end());
  flow.space(16);
}

std::string closed_line(const Card& card, const SizedVersion& version) {
  const Size& front = version.closed ? version.closed->front : card.design.base.front.size;
  std::string words = fmt::format("{} x {} closed", length_text(front.width, card.unit),
                                  length_with_unit(front.height, card.unit));
  if (card.design.base.fold.value == Fold::flat)
    words = fmt::format("{} x {}", length_text(front.width, card.unit),
                        length_with_unit(front.height, card.unit));
  if (version.closed && version.closed->thickness > 0)
    words += ", " + thickness_words(*version.closed, card.unit);
  return words + ". All lengths in " + (card.unit == Unit::inch ? "inches." : "millimetres.");
}

void add_version(Flow& flow, const Card& card, const SizedCard& sized, std::size_t index) {
  const SizedVersion& version = sized.versions[index];
  const Design& design = design_of(card, index);
  flow.new_page();
  const std::string title = card.title.empty() ? "A card" : card.title;
  flow.heading(sized.versions.size() == 1 ? title
               : index == 0               ? title + ": the plain card"
                                          : title + ": " + version.name);
  flow.paragraph(closed_line(card, version));
  if (version.verdict == Verdict::undecided) {
    flow.paragraph("Not settled: this is the best card found so far. Do not cut by it.",
                   {.size = 8, .bold = true});
  }
  flow.space(6);
  if (version.folding.leaves.empty()) return;
  add_figure(flow, closed_scene(card, design, version), card.unit, 250);
  if (const auto open = open_scene(card, design, version)) add_figure(flow, *open, card.unit, 190);
  add_section(flow, card, design, version);
  for (const Scene& face : face_scenes(card, design, version)) add_figure(flow, face, card.unit, 270);
}

}  // namespace

Drawing card_drawing(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions,
                     PageSize size) {
  Flow flow(size);
  for (const std::size_t index : versions) add_version(flow, card, sized, index);
  return flow.done(card.title.empty() ? "A card" : card.title,
                   "To look at; cut by the sizes that are told, and build one card whole first.");
}

}  // namespace evenmat
