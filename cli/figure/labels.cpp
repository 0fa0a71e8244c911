#include "cli/figure/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <numbers>
#include <numeric>
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
  Extent name_extent, details_extent;  // in one line, at the size of `measured`
  double top = 0, height = 0;
};
constexpr double measured = 7.5;

// Clockwise unless it says otherwise, as in a card file.
std::string tilt_words(const Rational& degrees) {
  const Rational amount = degrees < 0 ? Rational(-degrees) : degrees;
  return fmt::format("tilted {}\u00b0{}", length_text(amount, Unit::millimetre),
                     degrees < 0 ? " anticlockwise" : "");
}

std::string details_of(const ScenePaper& paper, Unit unit) {
  std::string words =
      fmt::format("{} x {}", length_text(paper.size.width, unit), length_text(paper.size.height, unit));
  if (paper.kind == ScenePaper::Kind::window) return words + ", window";
  if (paper.kind == ScenePaper::Kind::leaf) return words;
  const Piece& piece = *paper.piece->piece;
  if (!paper.piece->copies.empty()) words += fmt::format(", {} alike", paper.piece->copies.size());
  if (piece.tilt && piece.tilt->value != 0) words += ", " + tilt_words(piece.tilt->value);
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

  // How tall each is. What does not fit whatever its words is not measured: false.
  bool measure(std::vector<Label>& labels) const {
    const double least = line().height * (setting_.one_line ? 1 : 2) + gap();
    if (least * static_cast<double>(labels.size()) - gap() > box_.height) return false;
    for (Label& label : labels) label.height = height_of(label);
    return true;
  }
  [[nodiscard]] double height_of(const Label& label) const {
    // Letters grow with the type: what goes into one line need not be measured again at each size.
    const double times = setting_.size / measured;
    if (setting_.one_line) return std::max(label.name_extent.height * times, line().height);
    const auto height = [&](const std::string& words, const Extent& extent, const Type& type) {
      const bool one_line = extent.width * times < box_.width - 1;
      return one_line ? extent.height * times : extent_of(words, type, box_.width).height;
    };
    return height(label.name, label.name_extent, name_type(setting_.size)) +
           height(label.details, label.details_extent, {.size = setting_.size});
  }
  [[nodiscard]] double gap() const { return setting_.size * (setting_.one_line ? 0.15 : 0.45); }

  // Near their spots, in the order that they have, none over another. False where they do not fit.
  bool stack(std::vector<Label>& labels) const {
    double total = -gap();
    for (const Label& label : labels) total += label.height + gap();
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

  // Where a label's leader begins.
  [[nodiscard]] At mouth(const Label& label) const { return {box_.left - 2, label.top + line().height / 2}; }

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
    const double angle = 2 * std::numbers::pi * i / corners;
    dot.push_back({to.x + 1.2 * std::cos(angle), to.y + 1.2 * std::sin(angle)});
  }
  marks.emplace_back(Shape{.outline = dot, .fill = leader_line().colour});
}

// Those of the largest things, placed; how many are left out is written below them.
std::vector<Label> largest_that_fit(std::vector<Label> labels, const Box& column, const Setting& setting,
                                    std::vector<Mark>& marks) {
  Box rest = column;
  const Extent line = extent_of("and 1 more", {.size = setting.size});
  rest.height -= line.height + 1;
  const Column above(rest, setting);
  std::vector<std::size_t> by_size(labels.size());
  std::iota(by_size.begin(), by_size.end(), 0U);
  std::stable_sort(by_size.begin(), by_size.end(),
                   [&](std::size_t a, std::size_t b) { return labels[a].size > labels[b].size; });
  std::vector<bool> kept(labels.size(), false);
  double total = -above.gap();
  std::size_t count = 0;
  for (const std::size_t i : by_size) {
    labels[i].height = above.height_of(labels[i]);
    total += labels[i].height + above.gap();
    if (total > rest.height) break;
    kept[i] = true;
    ++count;
  }
  const std::size_t more = labels.size() - count;
  std::vector<Label> chosen;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (kept[i]) chosen.push_back(std::move(labels[i]));
  }
  above.stack(chosen);
  const Text words = text_at({column.left, rest.bottom()}, fmt::format("and {} more", more),
                             {.size = setting.size}, column.width);
  if (contains(column, words.box)) marks.emplace_back(words);
  return chosen;
}

// Which side of the line from a to b a point is on.
double side(const At& a, const At& b, const At& point) {
  return (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x);
}

bool cross(const At& a, const At& b, const At& c, const At& d) {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

// Labels whose leaders cross change places, until none do or it has been tried often enough: each such change
// makes the two leaders shorter together.
void untangle(std::vector<Label>& labels, const Column& column) {
  constexpr int most_changes = 200;
  for (int change = 0; change < most_changes; ++change) {
    bool changed = false;
    for (std::size_t i = 0; i < labels.size() && !changed; ++i) {
      for (std::size_t j = i + 1; j < labels.size() && !changed; ++j) {
        if (!cross(column.mouth(labels[i]), labels[i].spot, column.mouth(labels[j]), labels[j].spot))
          continue;
        std::swap(labels[i], labels[j]);
        column.stack(labels);
        changed = true;
      }
    }
    if (!changed) return;
  }
}

}  // namespace

std::vector<std::optional<Sight>> sights_of(const Scene& scene) {
  const std::vector<Stretch> across = stretches(scene, &At::x);
  const std::vector<Stretch> down = stretches(scene, &At::y);
  const double enough = 0.05 * std::max(scene.extent.width, scene.extent.height);
  // Spots of neighbours that lie at one height are spread over it, those nearer to the labels higher up: then
  // their leaders do not cross.
  const auto height_in = [&](const Stretch& y, double x) {
    const double part = 0.15 + 0.7 * (1 - x / std::max(scene.extent.width, 1e-9));
    return y.length() > 4 * enough ? y.from + part * y.length() : y.middle();
  };
  std::vector<std::optional<Sight>> sights(scene.papers.size());
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
      const Box cell{x.from, y.from, x.length(), y.length()};
      if (!sights[paper]) {
        sights[paper] = Sight{{at.x, height_in(y, at.x)}, cell};
        room[paper] = free;
        continue;
      }
      Sight& sight = *sights[paper];
      sight.seen = box_around({{sight.seen.left, sight.seen.top},
                               {sight.seen.right(), sight.seen.bottom()},
                               {cell.left, cell.top},
                               {cell.right(), cell.bottom()}});
      const bool better = free > room[paper] * 1.001 || (free > room[paper] * 0.999 && at.x > sight.spot.x);
      if (!better) continue;
      sight.spot = {at.x, height_in(y, at.x)};
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
      sights[i] = Sight{at, box_around(paper.outline)};
      break;
    }
  }
  return sights;
}

Labels callouts(std::vector<Callout> all, const Box& column) {
  std::stable_sort(all.begin(), all.end(),
                   [](const Callout& a, const Callout& b) { return a.spot.y < b.spot.y; });
  std::vector<Label> labels;
  for (Callout& one : all) {
    const Extent name = extent_of(one.name, name_type(measured));
    const Extent details = extent_of(one.details, {.size = measured});
    labels.push_back({std::move(one), name, details, 0, 0});
  }
  Labels told;
  told.bottom = column.top;
  if (labels.empty()) return told;
  constexpr Setting settings[] = {{7.5, false}, {7, false},  {6.5, false}, {6, false},
                                  {6, true},    {5.5, true}, {5, true}};
  Setting setting = settings[0];
  bool fits = false;
  for (const Setting& one : settings) {
    setting = one;
    const Column tried(column, setting);
    fits = tried.measure(labels) && tried.stack(labels);
    if (fits) break;
  }
  const Column set(column, setting);
  if (!fits) {
    labels = largest_that_fit(std::move(labels), column, setting, told.marks);
    told.bottom = column.bottom();
  }
  if (fits) untangle(labels, set);
  std::vector<Mark> words;
  for (const Label& label : labels) {
    add_leader(set.mouth(label), label.spot, told.marks);
    set.write(label, words);
    told.bottom = std::max(told.bottom, label.top + label.height);
  }
  told.marks.insert(told.marks.end(), words.begin(), words.end());
  return told;
}

std::vector<Callout> names_of(const Scene& scene, const std::vector<std::optional<Sight>>& sights, Unit unit,
                              const Box& picture, double scale) {
  std::vector<Callout> all;
  for (std::size_t i = 0; i < scene.papers.size(); ++i) {
    const ScenePaper& paper = scene.papers[i];
    if (!sights[i] || paper.copy > 0) continue;
    const At& seen = sights[i]->spot;
    const At spot{picture.left + seen.x * scale, picture.top + seen.y * scale};
    const Box box = box_around(paper.outline);
    all.push_back({spot, paper.name, details_of(paper, unit), box.width * box.height});
  }
  return all;
}

}  // namespace evenmat
