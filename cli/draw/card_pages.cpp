#include "cli/draw/card_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "cli/closed_words.h"
#include "cli/drawing/flow.h"
#include "cli/figure/figure.h"
#include "cli/figure/legend.h"
#include "cli/figure/scene.h"
#include "cli/figure/section.h"
#include "cli/wording.h"
#include "model/faces.h"
#include "model/versions.h"

namespace evenmat {
namespace {

// So much height as its labels want, or as a picture of some size does.
double height_for(const Scene& scene, double least, double most) {
  constexpr double a_label = 24;
  const auto labels = std::count_if(scene.papers.begin(), scene.papers.end(),
                                    [](const ScenePaper& paper) { return paper.copy == 0; });
  return std::clamp(40 + a_label * static_cast<double>(labels), least, most);
}

constexpr double below_figure = 16;

void add_figure(Flow& flow, const Scene& scene, const std::string& version, Unit unit, double least) {
  const Figure figure = flow.figure(height_for(scene, least, flow.whole_height()), below_figure,
                                    [&](const Box& room) { return figure_of(scene, unit, room); });
  const At origin{figure.picture.left - scene.origin.x * figure.scale,
                  figure.picture.top - scene.origin.y * figure.scale};
  flow.page().views.push_back({scene.title, scene.face, version, origin, figure.scale});
}

std::string closed_line(const Card& card, const SizedVersion& version) {
  const Size& front = version.closed ? version.closed->front : card.design.base.front.size;
  std::string words =
      fmt::format("{} x {}{}", length_text(front.width, card.unit), length_with_unit(front.height, card.unit),
                  card.design.base.fold.value == Fold::flat ? "" : " closed");
  if (version.closed && version.closed->thickness > 0)
    words += ", " + thickness_words(*version.closed, card.unit);
  return words + ". All lengths in " + (card.unit == Unit::inch ? "inches." : "millimetres.");
}

// Whether a layer or window is as it is in another version.
bool same_piece(const PlacedPiece& a, const PlacedPiece& b) {
  return a.face == b.face && a.left == b.left && a.top == b.top && a.width == b.width &&
         a.height == b.height && a.copies == b.copies && a.artwork_at == b.artwork_at;
}

// Whether a face has the same on it in both.
bool same_face(const SizedVersion& one, const SizedVersion& other, const std::string& face) {
  std::vector<const PlacedPiece*> on_one;
  std::vector<const PlacedPiece*> on_other;
  for (const PlacedPiece& placed : one.pieces) {
    if (placed.face == face) on_one.push_back(&placed);
  }
  for (const PlacedPiece& placed : other.pieces) {
    if (placed.face == face) on_other.push_back(&placed);
  }
  return std::equal(on_one.begin(), on_one.end(), on_other.begin(), on_other.end(),
                    [](const PlacedPiece* a, const PlacedPiece* b) {
                      return a->piece->name.value == b->piece->name.value && same_piece(*a, *b);
                    });
}

// `beside`: a version that is drawn already; what is the same in both is not drawn again.
void add_version(Flow& flow, const Card& card, const SizedCard& sized, std::size_t index,
                 const std::vector<std::string>& views, const SizedVersion* beside) {
  const auto wanted = [&](const std::string& view) {
    return views.empty() || std::find(views.begin(), views.end(), view) != views.end();
  };
  const SizedVersion& version = sized.versions[index];
  const Design& design = design_of(card, index);
  flow.new_page();
  const std::string title = title_of(card);
  flow.heading(sized.versions.size() == 1 ? title
               : index == 0               ? title + ": the plain card"
                                          : title + ": " + version.name);
  flow.paragraph(closed_line(card, version));
  if (version.verdict == Verdict::undecided) {
    flow.paragraph("Not settled: this is the best card found so far. Do not cut by it.",
                   {.size = 8, .bold = true});
  }
  if (version.folding.leaves.empty()) return;
  const Scene closed = closed_scene(card, design, version);
  std::optional<Scene> open = open_scene(card, design, version);
  if (!wanted("open")) open.reset();
  std::vector<Scene> all;
  if (views.empty()) {
    all = face_scenes(card, design, version);
    // A card that does not fold is its front.
    if (design.base.fold.value == Fold::flat)
      std::erase_if(all, [](const Scene& face) { return face.face == "front"; });
  }
  for (const std::string& view : views) {
    const std::vector<std::string> faces = face_names(design.base);
    if (std::find(faces.begin(), faces.end(), view) != faces.end())
      all.push_back(face_scene(card, design, version, view));
  }
  const std::size_t whole = all.size();
  if (beside != nullptr && views.empty())
    std::erase_if(all, [&](const Scene& face) { return same_face(version, *beside, face.face); });
  std::vector<Scene> drawn = all;
  if (wanted("closed")) drawn.push_back(closed);
  if (open) drawn.push_back(*open);
  add_legend(flow, legend_of(drawn));
  flow.space(8);
  if (wanted("closed")) add_figure(flow, closed, version.name, card.unit, 320);
  const bool like_plain = beside != nullptr && all.empty() && views.empty();
  if (like_plain) {
    flow.paragraph("Its layers have the sizes and places of the plain card.");
    return;
  }
  if (open) add_figure(flow, *open, version.name, card.unit, 235);
  if (wanted("side") && (beside == nullptr || !views.empty()))
    add_section(flow, section_of(card, design, version), card.unit, below_figure);
  for (const Scene& face : all) add_figure(flow, face, version.name, card.unit, 320);
  if (all.size() < whole) flow.paragraph("The other faces are like those of the plain card.");
}

}  // namespace

std::vector<std::string> view_names(const Card& card) {
  std::vector<std::string> names{"closed", "open", "side"};
  for (const std::string& face : face_names(card.design.base)) {
    if (face != "reveal") names.push_back(face);
  }
  return names;
}

Drawing card_drawing(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions,
                     const std::vector<std::string>& views, PageSize size) {
  Flow flow(size);
  const SizedVersion* plain = nullptr;
  for (const std::size_t index : versions) {
    add_version(flow, card, sized, index, views, plain);
    if (index == 0) plain = sized.versions.data();
  }
  return flow.done(title_of(card),
                   "To look at; cut by the sizes that are told, and build one card whole first.");
}

}  // namespace evenmat
