#include "cli/draw/clash_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "cli/check/why.h"
#include "cli/drawing/flow.h"
#include "cli/drawing/number.h"
#include "cli/figure/figure.h"
#include "cli/figure/legend.h"
#include "cli/figure/scene.h"
#include "cli/figure/section.h"
#include "cli/report/telling.h"
#include "cli/wording.h"
#include "model/versions.h"

namespace evenmat {
namespace {

constexpr double below_figure = 12;

// "1/8 in sticks out".
std::string name_of(const Miss& miss, Unit unit) {
  const std::string by = length_with_unit(miss.by, unit);
  switch (miss.kind) {
    case Miss::Kind::sticks_out:
      return by + " sticks out";
    case Miss::Kind::overlaps:
      return by + " overlaps";
    case Miss::Kind::too_near:
      return by + " missing";
    case Miss::Kind::too_far:
      return by + " too much";
    case Miss::Kind::off_size:
    case Miss::Kind::other:
      break;
  }
  return by + " off";
}

std::string details_of(const Miss& miss, const Design& design) {
  if (!miss.says.empty() || miss.names.empty()) return miss.says;
  const std::string& name = miss.names.front();
  if (miss.kind == Miss::Kind::overlaps && miss.names.size() > 1)
    return fmt::format("{} and {} would lie over one another", name, miss.names[1]);
  const auto piece = std::find_if(design.pieces.begin(), design.pieces.end(),
                                  [&](const Piece& one) { return one.name.value == name; });
  const std::string on = piece == design.pieces.end() ? "what it is on" : name_of_below(*piece, design.base);
  if (miss.kind == Miss::Kind::sticks_out) return fmt::format("{} would reach past the edge of {}", name, on);
  return fmt::format("{} would lie too near the edge of {}", name, on);
}

// Whether a layer or window turns with something that it lies on: its own place is told as it was before
// that.
bool is_turned_along(const std::string& name, const Design& design) {
  const auto find = [&](const std::string& one) {
    return std::find_if(design.pieces.begin(), design.pieces.end(),
                        [&](const Piece& piece) { return piece.name.value == one; });
  };
  for (auto piece = find(name); piece != design.pieces.end();) {
    piece = find(piece->on.value);
    if (piece != design.pieces.end() && piece->tilt && piece->tilt->value != 0) return true;
  }
  return false;
}

// What is hatched: what has a place that is drawn as it is told.
bool is_hatched(const Miss& miss, const Design& design) {
  return miss.place && (miss.names.empty() || !is_turned_along(miss.names.front(), design));
}

bool is_on(const Miss& miss, const std::string& face) { return miss.place && miss.place->face == face; }

// In the scene of the face it is on. What sticks out of all that is drawn is part of the scene too.
std::vector<Hatched> clashes_on(Scene& scene, const NearestCard& nearest, const Design& design, Unit unit) {
  std::vector<Hatched> clashes;
  for (const Miss& miss : nearest.misses) {
    if (!is_on(miss, scene.face) || !is_hatched(miss, design)) continue;
    const Box place{number(miss.place->left) - scene.origin.x, number(miss.place->top) - scene.origin.y,
                    number(miss.place->width), number(miss.place->height)};
    clashes.push_back({place, name_of(miss, unit), details_of(miss, design)});
    scene.extent.width = std::max(scene.extent.width, place.right());
    scene.extent.height = std::max(scene.extent.height, place.bottom());
  }
  return clashes;
}

void add_pictures(Flow& flow, const Card& card, const NearestCard& nearest) {
  const Design& design = design_of(card, nearest.version);
  if (!card.variants.empty()) {
    flow.paragraph(fmt::format("Drawn: {}.", nearest.version == 0
                                                 ? "the plain card"
                                                 : card.variants[nearest.version - 1].name.value));
  }
  flow.paragraph(
      "As it would lie if what cannot hold were missed by as little as can be. Nothing here is a size to cut "
      "by.");
  if (nearest.off_marks) {
    flow.paragraph("Only the marks stand in the way: some of these sizes lie between them.");
  }
  std::vector<Scene> drawn;
  for (Scene& scene : face_scenes(card, design, nearest.sized)) {
    const bool clashes = std::any_of(nearest.misses.begin(), nearest.misses.end(),
                                     [&](const Miss& miss) { return is_on(miss, scene.face); });
    if (clashes) drawn.push_back(std::move(scene));
  }
  // Nothing has a place: the face with most on it says most.
  if (drawn.empty()) {
    std::vector<Scene> all = face_scenes(card, design, nearest.sized);
    drawn.push_back(std::move(*std::max_element(all.begin(), all.end(), [](const Scene& a, const Scene& b) {
      return a.papers.size() < b.papers.size();
    })));
  }
  std::vector<LegendEntry> legend = legend_of(drawn);
  const bool hatches = std::any_of(nearest.misses.begin(), nearest.misses.end(),
                                   [&](const Miss& miss) { return is_hatched(miss, design); });
  if (hatches) legend.push_back({"clash", clash_look(), {}});
  add_legend(flow, legend);
  flow.space(6);
  for (Scene& scene : drawn) {
    const std::vector<Hatched> clashes = clashes_on(scene, nearest, design, card.unit);
    const double wanted = std::clamp(60 + 26.0 * static_cast<double>(scene.papers.size() + clashes.size()),
                                     280.0, std::min(flow.whole_height(), 620.0));
    flow.figure(wanted, below_figure,
                [&](const Box& room) { return figure_of(scene, card.unit, room, {}, clashes); });
  }
  for (const Miss& miss : nearest.misses) {
    if (is_hatched(miss, design)) continue;
    flow.paragraph(fmt::format("{}: {}.", name_of(miss, card.unit), details_of(miss, design)),
                   {.bold = true});
  }
}

void add_unlimited(Flow& flow, const Card& card, const CheckedCard& checked, const SizedCard& sized) {
  const std::string failing = checked.failing.empty() ? "" : checked.failing.front();
  std::size_t index = 0;
  for (std::size_t i = 0; i < sized.versions.size(); ++i) {
    if (sized.versions[i].name == failing) index = i;
  }
  const Design& design = design_of(card, index);
  const SizedVersion& version = sized.versions[index];
  flow.paragraph(
      "As it would be if nothing were asked of what is seen of its layers, how thick it is and what it "
      "weighs. Nothing here is a size to cut by.");
  const Scene closed = closed_scene(card, design, version);
  add_legend(flow, legend_of({closed}));
  flow.space(6);
  flow.figure(280, below_figure, [&](const Box& room) { return figure_of(closed, card.unit, room); });
  add_section(flow, section_of(card, design, version), card.unit, below_figure);
}

std::string line_words(const Spot& spot) { return spot.line > 0 ? fmt::format("line {}", spot.line) : ""; }

void add_conflict(Flow& flow, const Card& card, const Conflict& conflict) {
  const std::vector<Column> rules{{44, Align::right}, {flow.width() - 60, Align::left}};
  std::string versions;
  if (!card.variants.empty() && conflict.versions.size() <= card.variants.size()) {
    std::vector<std::string> names;
    for (const std::string& name : conflict.versions) names.push_back(name.empty() ? "the plain card" : name);
    versions = " in " + listed(names);
  }
  flow.subheading((conflict.rules.size() == 1 ? "This cannot hold" : "These cannot all hold") + versions);
  for (const Remark& rule : conflict.rules) flow.row(rules, {line_words(rule.spot), rule.says});
  if (!conflict.story.empty()) {
    flow.space(4);
    const std::vector<Column> story{
        {14, Align::right}, {56, Align::right}, {62, Align::left}, {flow.width() - 148, Align::left}};
    for (const StoryLine& line : story_lines(conflict.story, card.unit))
      flow.row(story, {line.sign, line.amount, line.total.empty() ? "" : "= " + line.total, line.says});
  } else if (conflict.short_by) {
    const Rational size = *conflict.short_by < 0 ? Rational(-*conflict.short_by) : *conflict.short_by;
    flow.paragraph(fmt::format("{} {}.", length_with_unit(size, card.unit),
                               *conflict.short_by < 0 ? "is left over" : "is missing"));
  } else if (conflict.off_mark) {
    flow.paragraph(
        fmt::format("The nearest mark is {} away.", length_with_unit(*conflict.off_mark, card.unit)));
  }
  for (const std::string& hint : conflict.hints) flow.paragraph(hint);
  if (conflict.changes.empty()) return;
  flow.space(4);
  flow.paragraph(
      conflict.changes.size() == 1 ? "To mend it, change this:" : "To mend it, change one of these:",
      {.bold = true});
  for (const Change& change : conflict.changes) {
    flow.row(rules, {line_words(change.spot),
                     fmt::format("\"{}\" to \"{}\". {}{}", change.from, change.to, change.says,
                                 change.mends_card ? " That mends the whole card." : "")});
  }
}

}  // namespace

Card without_limits(Card card) {
  const auto let_go = [](Design& design) {
    design.limit = {};
    for (Piece& piece : design.pieces) piece.show.reset();
  };
  let_go(card.design);
  for (Variant& variant : card.variants) let_go(variant.design);
  return card;
}

Drawing clash_drawing(const Card& card, const CheckedCard& checked, const ClashPicture& picture,
                      PageSize size) {
  Flow flow(size);
  const std::string title = title_of(card);
  flow.heading(title + ": cannot be built as stated");
  if (picture.nearest) {
    add_pictures(flow, card, *picture.nearest);
  } else if (picture.unlimited && picture.unlimited->verdict == Verdict::buildable) {
    add_unlimited(flow, card, checked, *picture.unlimited);
  }
  flow.heading("Why");
  for (const Conflict& conflict : checked.conflicts) add_conflict(flow, card, conflict);
  if (checked.conflicts.empty()) {
    flow.paragraph("Why was not known in the time allowed. A longer --limit may tell.");
  } else if (!checked.all_conflicts) {
    flow.paragraph("There may be more that cannot hold.");
  }
  if (!checked.mend.empty()) {
    flow.subheading(fmt::format("To mend the whole card, change {}",
                                counted(static_cast<int>(checked.mend.size()), "thing")));
    for (const Change& change : checked.mend) {
      flow.paragraph(fmt::format("line {}: \"{}\" to \"{}\". {}", change.spot.line, change.from, change.to,
                                 change.says));
    }
  }
  return flow.done(title, "Not a plan to cut by.");
}

}  // namespace evenmat
