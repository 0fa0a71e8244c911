#include "cli/figure/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <string>
#include <utility>

#include "cli/drawing/text.h"
#include "cli/figure/look.h"

namespace evenmat {
namespace {

bool is_within(const Ring& ring, const At& at) {
  bool within = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    if ((ring[i].y > at.y) != (ring[j].y > at.y) &&
        at.x < (ring[j].x - ring[i].x) * (at.y - ring[i].y) / (ring[j].y - ring[i].y) + ring[i].x)
      within = !within;
  }
  return within;
}

bool covers(const ScenePaper& paper, const At& at) {
  if (paper.kind == ScenePaper::Kind::window) return false;
  if (!is_within(paper.outline, at)) return false;
  return std::none_of(paper.openings.begin(), paper.openings.end(),
                      [&](const Ring& opening) { return is_within(opening, at); });
}

// A stretch between neighbouring edges.
struct Stretch {
  double from = 0, to = 0;
  [[nodiscard]] double middle() const { return (from + to) / 2; }
  [[nodiscard]] double length() const { return to - from; }
};

constexpr std::size_t most_stretches = 160;

std::vector<Stretch> stretches(const Scene& scene, double At::*axis) {
  std::vector<double> edges;
  for (const ScenePaper& paper : scene.papers) {
    for (const At& at : paper.outline) edges.push_back(at.*axis);
    for (const Ring& opening : paper.openings) {
      for (const At& at : opening) edges.push_back(at.*axis);
    }
  }
  std::sort(edges.begin(), edges.end());
  std::vector<Stretch> all;
  constexpr double least = 1e-6;
  for (std::size_t i = 1; i < edges.size(); ++i) {
    if (edges[i] - edges[i - 1] > least) all.push_back({edges[i - 1], edges[i]});
  }
  // Of very many the widest will do.
  if (all.size() > most_stretches) {
    std::stable_sort(all.begin(), all.end(),
                     [](const Stretch& a, const Stretch& b) { return a.length() > b.length(); });
    all.resize(most_stretches);
  }
  return all;
}

struct Label : Callout {
  double top = 0, height = 0;
};

std::string details_of(const ScenePaper& paper, Unit unit) {
  std::string words =
      fmt::format("{} x {}", length_text(paper.size.width, unit), length_text(paper.size.height, unit));
  if (paper.kind == ScenePaper::Kind::window) return words + ", window";
  if (paper.kind == ScenePaper::Kind::leaf) return words;
  const Piece& piece = *paper.piece->piece;
  if (!paper.piece->copies.empty()) words += fmt::format(", {} alike", paper.piece->copies.size());
  if (piece.tilt && piece.tilt->value != 0)
    words += fmt::format(", tilted {}\u00b0", length_text(piece.tilt->value, Unit::millimetre));
  if (is_raised(piece)) words += ", raised " + length_text(piece.raised->value, unit);
  if (piece.stamped) words += ", stamped";
  return words;
}

Type name_type(double size) { return {.size = size, .bold = true}; }

// How a column's labels are set: the type's size, and whether a name may take several lines.
struct Setting {
  double size = 7.5;
  bool one_line = false;
};

class Column {
 public:
  Column(const Box& box, const Setting& setting) : box_(box), setting_(setting) {}

  [[nodiscard]] double height_of(const Label& label) const {
    if (setting_.one_line)
      return std::max(extent_of(in_one_line(label), {.size = setting_.size}).height, line().height);
    return extent_of(label.name, name_type(setting_.size), box_.width).height +
           extent_of(label.details, {.size = setting_.size}, box_.width).height;
  }
  [[nodiscard]] double gap() const { return setting_.size * (setting_.one_line ? 0.15 : 0.45); }

  // Near their spots, in the order of these, none over another. False where they do not fit.
  bool place(std::vector<Label>& labels) const {
    double total = -gap();
    for (Label& label : labels) {
      label.height = height_of(label);
      total += label.height + gap();
    }
    if (total > box_.height) return false;
    double from = box_.top;
    for (Label& label : labels) {
      label.top = std::max(from, label.spot.y - label.height / 2);
      from = label.top + label.height + gap();
    }
    double to = box_.bottom();
    for (std::size_t i = labels.size(); i-- > 0;) {
      labels[i].top = std::min(labels[i].top, to - labels[i].height);
      to = labels[i].top - gap();
    }
    return true;
  }

  void write(const Label& label, std::vector<Mark>& marks) const {
    if (setting_.one_line) {
      // Apart, so that a name that reads from right to left leaves the size as it is.
      const Text details =
          text_at({box_.left, label.top}, label.details, {.size = setting_.size}, box_.width);
      const std::string words = in_one_line(label);
      const Text name = text_at({box_.left, label.top}, words, {.size = setting_.size}, box_.width);
      marks.emplace_back(name);
      if (label.details.empty()) return;
      marks.emplace_back(details);
      std::get<Text>(marks.back()).box.left += name.box.width + between();
      return;
    }
    const Text name = text_at({box_.left, label.top}, label.name, name_type(setting_.size), box_.width);
    const double below = label.top + name.box.height;
    marks.emplace_back(name);
    if (!label.details.empty())
      marks.emplace_back(text_at({box_.left, below}, label.details, {.size = setting_.size}, box_.width));
  }

  [[nodiscard]] Extent line() const { return extent_of("Ag", {.size = setting_.size}); }

 private:
  [[nodiscard]] double between() const { return 0.6 * setting_.size; }
  [[nodiscard]] std::string in_one_line(const Label& label) const {
    const double details = extent_of(label.details, {.size = setting_.size}).width;
    return shortened_to(label.name, {.size = setting_.size}, box_.width - details - between() - 1);
  }

  const Box& box_;
  Setting setting_;
};

void add_leader(const At& from, const At& to, std::vector<Mark>& marks) {
  const std::vector<At> way{from, {from.x - 5, from.y}, to};
  marks.emplace_back(Polyline{way, {{1, 1, 1}, 1.6}});
  marks.emplace_back(Polyline{way, leader_line()});
  Ring dot;
  constexpr int corners = 8;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * 3.14159265358979 * i / corners;
    dot.push_back({to.x + 1.2 * std::cos(angle), to.y + 1.2 * std::sin(angle)});
  }
  marks.emplace_back(Shape{.outline = dot, .fill = leader_line().colour});
}

// Those of the largest things, placed; how many are left out is written below them.
std::vector<Label> largest_that_fit(std::vector<Label> labels, const Box& column, const Setting& setting,
                                    std::vector<Mark>& marks) {
  const std::size_t all = labels.size();
  const auto smaller = [](const Label& a, const Label& b) { return a.size < b.size; };
  Box rest = column;
  const Extent line = extent_of("and 1 more", {.size = setting.size});
  rest.height -= line.height + 1;
  const Column above(rest, setting);
  do {
    // The last of the smallest first.
    const auto least = std::min_element(labels.rbegin(), labels.rend(), smaller);
    labels.erase(std::next(least).base());
  } while (!labels.empty() && !above.place(labels));
  const Text words = text_at({column.left, rest.bottom()}, fmt::format("and {} more", all - labels.size()),
                             {.size = setting.size}, column.width);
  if (contains(column, words.box)) marks.emplace_back(words);
  return labels;
}

}  // namespace

std::vector<std::optional<At>> spots_seen(const Scene& scene) {
  const std::vector<Stretch> across = stretches(scene, &At::x);
  const std::vector<Stretch> down = stretches(scene, &At::y);
  const double enough = 0.05 * std::max(scene.extent.width, scene.extent.height);
  // Spots of neighbours that lie at one height are spread over it, those nearer to the labels higher up: then
  // their leaders do not cross.
  const auto height_in = [&](const Stretch& y, double x) {
    const double part = 0.15 + 0.7 * (1 - x / std::max(scene.extent.width, 1e-9));
    return y.length() > 4 * enough ? y.from + part * y.length() : y.middle();
  };
  std::vector<std::optional<At>> spots(scene.papers.size());
  std::vector<double> room(scene.papers.size(), 0);
  for (const Stretch& x : across) {
    for (const Stretch& y : down) {
      const At at{x.middle(), y.middle()};
      const auto top = std::find_if(scene.papers.rbegin(), scene.papers.rend(),
                                    [&](const ScenePaper& paper) { return covers(paper, at); });
      if (top == scene.papers.rend()) continue;
      const auto paper = static_cast<std::size_t>(std::distance(top, scene.papers.rend()) - 1);
      // A spot with room around it; of such the one most to the right, where the labels are.
      const double free = std::min({x.length(), y.length(), enough});
      const bool better = !spots[paper] || free > room[paper] * 1.001 ||
                          (free > room[paper] * 0.999 && at.x > spots[paper]->x);
      if (!better) continue;
      spots[paper] = At{at.x, height_in(y, at.x)};
      room[paper] = free;
    }
  }
  // A window is seen by its edge, where nothing lies over that.
  for (std::size_t i = 0; i < scene.papers.size(); ++i) {
    const ScenePaper& paper = scene.papers[i];
    if (paper.kind != ScenePaper::Kind::window || paper.outline.size() != 4) continue;
    for (const double part : {0.25, 0.75, 0.5, 0.1, 0.9}) {
      const At& from = paper.outline[1];
      const At& to = paper.outline[2];
      const At at{from.x + part * (to.x - from.x), from.y + part * (to.y - from.y)};
      const bool hidden =
          std::any_of(scene.papers.begin() + static_cast<std::ptrdiff_t>(i) + 1, scene.papers.end(),
                      [&](const ScenePaper& over) { return covers(over, at); });
      if (hidden) continue;
      spots[i] = at;
      break;
    }
  }
  return spots;
}

Labels callouts(std::vector<Callout> all, const Box& column) {
  std::stable_sort(all.begin(), all.end(),
                   [](const Callout& a, const Callout& b) { return a.spot.y < b.spot.y; });
  std::vector<Label> labels;
  for (Callout& one : all) labels.push_back({std::move(one), 0, 0});
  Labels told;
  told.bottom = column.top;
  if (labels.empty()) return told;
  constexpr Setting settings[] = {{7.5, false}, {7, false},  {6.5, false}, {6, false},
                                  {6, true},    {5.5, true}, {5, true}};
  Setting setting = settings[0];
  bool fits = false;
  for (const Setting& one : settings) {
    setting = one;
    fits = Column(column, setting).place(labels);
    if (fits) break;
  }
  const Column set(column, setting);
  if (!fits) {
    labels = largest_that_fit(std::move(labels), column, setting, told.marks);
    told.bottom = column.bottom();
  }
  std::vector<Mark> words;
  for (const Label& label : labels) {
    add_leader({column.left - 2, label.top + set.line().height / 2}, label.spot, told.marks);
    set.write(label, words);
    told.bottom = std::max(told.bottom, label.top + label.height);
  }
  told.marks.insert(told.marks.end(), words.begin(), words.end());
  return told;
}

std::vector<Callout> names_of(const Scene& scene, const std::vector<std::optional<At>>& spots, Unit unit,
                              const Box& picture, double scale) {
  std::vector<Callout> all;
  for (std::size_t i = 0; i < scene.papers.size(); ++i) {
    const ScenePaper& paper = scene.papers[i];
    if (!spots[i] || paper.copy > 0) continue;
    const At spot{picture.left + spots[i]->x * scale, picture.top + spots[i]->y * scale};
    const Box box = box_around(paper.outline);
    all.push_back({spot, paper.name, details_of(paper, unit), box.width * box.height});
  }
  return all;
}

}  // namespace evenmat
