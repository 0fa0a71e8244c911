#include "cli/plan/badges.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <tuple>
#include <utility>

#include "cli/drawing/text.h"
#include "cli/figure/look.h"

namespace evenmat {
namespace {

constexpr double badge_height = 9;
constexpr double leader = 7;  // from the sheet's edge to what is numbered beside it

Type number_type(double size) { return {.size = 6.3 * size, .bold = true}; }

// Round at both ends.
Ring pill(const Box& box) {
  const double radius = std::min(box.width, box.height) / 2;
  Ring ring;
  constexpr int steps = 10;
  for (const bool right : {true, false}) {
    for (int i = 0; i <= steps; ++i) {
      const double angle = std::numbers::pi * (static_cast<double>(i) / steps + (right ? -0.5 : 0.5));
      ring.push_back({(right ? box.right() - radius : box.left + radius) + radius * std::cos(angle),
                      box.middle().y + radius * std::sin(angle)});
    }
  }
  return ring;
}

bool hits(const Box& box, const std::vector<Box>& others) {
  return std::any_of(others.begin(), others.end(), [&](const Box& other) { return overlap(box, other); });
}

class Numbering {
 public:
  Numbering(const std::vector<CutLine>& cuts, const Box& sheet, std::vector<Box> taken,
            const std::vector<Box>& pieces)
      : cuts_(cuts), sheet_(sheet), taken_(std::move(taken)), pieces_(pieces) {}

  CutBadges run() {
    std::vector<std::size_t> homeless;
    for (const std::vector<std::size_t>& strip : strips()) {
      if (is_crowded(strip)) {
        add_run(strip, number_one(strip));
        continue;
      }
      std::vector<std::size_t> barred;
      for (const std::size_t cut : strip) {
        if (on_its_line(cut, 1) || on_its_line(cut, 0.8)) continue;
        (is_barred(cuts_[cut]) ? barred : homeless).push_back(cut);
      }
      if (!barred.empty()) add_run(barred, barred.size() < strip.size());
    }
    beside_the_sheet(homeless, true);
    beside_the_sheet(homeless, false);
    return std::move(badges_);
  }

 private:
  // Cuts of one step that lie side by side between the same ends, in the order of their first ones.
  [[nodiscard]] std::vector<std::vector<std::size_t>> strips() const {
    std::map<std::tuple<std::size_t, bool, double, double>, std::size_t> known;
    std::vector<std::vector<std::size_t>> all;
    for (std::size_t i = 0; i < cuts_.size(); ++i) {
      const CutLine& cut = cuts_[i];
      const bool level = cut.level();
      const auto key =
          std::tuple(cut.step, level, level ? cut.from.x : cut.from.y, level ? cut.to.x : cut.to.y);
      const auto [strip, is_new] = known.emplace(key, all.size());
      if (is_new) all.emplace_back();
      all[strip->second].push_back(i);
    }
    return all;
  }

  // Whether even small numbers would lie on the lines to either side; or, of many, leave no room for anything
  // else.
  [[nodiscard]] bool is_crowded(const std::vector<std::size_t>& strip) const {
    constexpr std::size_t several = 4, many = 8;
    if (strip.size() < several) return false;
    std::vector<double> places;
    for (const std::size_t cut : strip)
      places.push_back(cuts_[cut].level() ? cuts_[cut].from.y : cuts_[cut].from.x);
    std::sort(places.begin(), places.end());
    const CutLine& first = cuts_[strip.front()];
    const Box number = badge_box({0, 0}, first.step, 0.8);
    const double across = first.level() ? number.height : number.width;
    const double apart = (places.back() - places.front()) / static_cast<double>(places.size() - 1);
    return apart < (strip.size() < many ? across / 2 + 1 : across + 4.5);
  }

  // A few of them are tried, from the middle outwards: the others are as close to their neighbours.
  bool number_one(const std::vector<std::size_t>& strip) {
    constexpr std::size_t tries = 5;
    const std::size_t middle = strip.size() / 2;
    for (const double size : {1.0, 0.8}) {
      for (std::size_t i = 0; i < tries; ++i) {
        const std::size_t off = (i + 1) / 2;
        const std::size_t which = i % 2 == 0 ? middle + off : middle - off;
        if (which < strip.size() && on_its_line(strip[which], size)) return true;
      }
    }
    return false;
  }

  void add_run(const std::vector<std::size_t>& cuts, bool numbered) {
    badges_.runs.push_back({cuts, numbered});
  }

  // Whether pieces lie between its end and the edge where its number would stand.
  [[nodiscard]] bool is_barred(const CutLine& cut) const {
    const Box way = cut.level() ? Box{cut.to.x, cut.to.y - 0.2, sheet_.right() - cut.to.x, 0.4}
                                : Box{cut.to.x - 0.2, cut.to.y, 0.4, sheet_.bottom() - cut.to.y};
    return (cut.level() ? way.width : way.height) > 0.1 && hits(way, pieces_);
  }

  void put(std::size_t cut, const At& middle, double size) {
    const Box box = badge_box(middle, cuts_[cut].step, size);
    taken_.push_back(box);
    badges_.boxes.push_back(box);
    badges_.beside = std::max(badges_.beside, box.right() - sheet_.right());
    badges_.below = std::max(badges_.below, box.bottom() - sheet_.bottom());
    add_badge(badges_.marks, middle, cuts_[cut].step, size);
  }

  // How many other lines the box hides some of: no more than need be.
  [[nodiscard]] double lines_hidden(std::size_t cut, const Box& box) const {
    double hidden = 0;
    for (std::size_t i = 0; i < cuts_.size(); ++i) {
      const CutLine& line = cuts_[i];
      const Box along{line.from.x - 0.5, line.from.y - 0.5, line.to.x - line.from.x + 1,
                      line.to.y - line.from.y + 1};
      if (i != cut && overlap(box, along)) ++hidden;
    }
    return hidden;
  }

  // As near its start as it hides nothing, so that numbers stand in a row.
  bool on_its_line(std::size_t cut, double size) {
    const CutLine& line = cuts_[cut];
    const bool level = line.level();
    const Box at_start = badge_box(line.from, line.step, size);
    const double half = (level ? at_start.width : at_start.height) / 2;
    const double from = level ? line.from.x : line.from.y;
    const double to = level ? line.to.x : line.to.y;
    std::optional<At> best;
    double best_cost = 0;
    constexpr double step = 1.5;
    const auto count = static_cast<int>((to - from) / step);
    for (int i = 0; i <= count; ++i) {
      const double along = from + i * step;
      if (along - half < from - half / 2 || along + half > to + half / 2) continue;
      const At middle = level ? At{along, line.from.y} : At{line.from.x, along};
      const double off = std::abs(along - (from + 2.2 * half));
      if (best && off >= best_cost) continue;
      const Box box{middle.x - at_start.width / 2, middle.y - at_start.height / 2, at_start.width,
                    at_start.height};
      if (box.left < sheet_.left - half || box.top < sheet_.top - half || hits(box, taken_)) continue;
      const double cost = off + 60 * lines_hidden(cut, box);
      if (best && cost >= best_cost) continue;
      best = middle;
      best_cost = cost;
    }
    if (!best) return false;
    put(cut, *best, size);
    return true;
  }

  // Cuts at one setting that go on from one another are told by one number there. Level ones right of the
  // sheet, the others below.
  void beside_the_sheet(const std::vector<std::size_t>& homeless, bool level) {
    struct Row {
      std::size_t cut = 0;  // the one that reaches farthest
      double wish = 0, at = 0;
      std::vector<std::size_t> cuts;
    };
    std::map<std::pair<double, std::size_t>, Row> rows;
    for (const std::size_t cut : homeless) {
      const CutLine& line = cuts_[cut];
      if (line.level() != level) continue;
      const double wish = level ? line.from.y : line.from.x;
      Row& row = rows[{wish, line.step}];
      const auto reach = [&](std::size_t one) { return level ? cuts_[one].to.x : cuts_[one].to.y; };
      if (row.cuts.empty() || reach(cut) > reach(row.cut)) row.cut = cut;
      row.wish = wish;
      row.cuts.push_back(cut);
    }
    constexpr double size = 0.9;
    const double first = level ? sheet_.top : sheet_.left;
    const double last = level ? sheet_.bottom() : sheet_.right();
    std::vector<Row> placed;
    double least = first;
    const auto half_of = [&](const Row& row) {
      const Box box = badge_box({0, 0}, cuts_[row.cut].step, size);
      return (level ? box.height : box.width) / 2 + 0.4;
    };
    for (auto& [key, row] : rows) {
      const double half = half_of(row);
      row.at = std::max(row.wish, least + half);
      least = row.at + half;
      placed.push_back(std::move(row));
    }
    // Those that were pushed past the end push back.
    double most = last;
    for (std::size_t i = placed.size(); i-- > 0;) {
      const double half = half_of(placed[i]);
      placed[i].at = std::min(placed[i].at, most - half);
      most = placed[i].at - half;
    }
    for (const Row& row : placed) {
      const CutLine& line = cuts_[row.cut];
      if (row.at - half_of(row) < first - 0.5) {
        add_run(row.cuts, false);
        continue;
      }
      badges_.outside.insert(badges_.outside.end(), row.cuts.begin(), row.cuts.end());
      const double half = badge_box({0, 0}, line.step, size).width / 2;
      const double lane =
          level ? sheet_.right() + leader + half : sheet_.bottom() + leader + badge_height / 2;
      const At middle = level ? At{lane, row.at} : At{row.at, lane};
      const At edge = level ? At{sheet_.right() + 1, line.to.y} : At{line.to.x, sheet_.bottom() + 1};
      const At end = level ? At{lane - half, row.at} : At{row.at, lane - badge_height / 2};
      badges_.marks.emplace_back(Polyline{{line.to, edge, end}, leader_line()});
      put(row.cut, middle, size);
    }
  }

  const std::vector<CutLine>& cuts_;
  Box sheet_;
  std::vector<Box> taken_;
  const std::vector<Box>& pieces_;
  CutBadges badges_;
};

}  // namespace

Box badge_box(const At& middle, std::size_t step, double size) {
  const double height = badge_height * size;
  const Extent extent = extent_of(fmt::format("{}", step), number_type(size));
  const double width = std::max(height, extent.width + 4 * size);
  return {middle.x - width / 2, middle.y - height / 2, width, height};
}

void add_badge(std::vector<Mark>& marks, const At& middle, std::size_t step, double size) {
  marks.emplace_back(Shape{.outline = pill(badge_box(middle, step, size)),
                           .fill = Colour{1, 1, 1},
                           .stroke = Stroke{cut_line().colour, 0.7}});
  marks.emplace_back(text_around(middle, fmt::format("{}", step), number_type(size)));
}

CutBadges badges_of(const std::vector<CutLine>& cuts, const Box& sheet, const std::vector<Box>& taken,
                    const std::vector<Box>& pieces) {
  return Numbering(cuts, sheet, taken, pieces).run();
}

}  // namespace evenmat
