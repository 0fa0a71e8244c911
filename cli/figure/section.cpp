#include "cli/figure/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "cli/drawing/number.h"
#include "cli/drawing/text.h"
#include "cli/figure/labels.h"
#include "cli/figure/look.h"
#include "model/papers.h"
#include "solver/body/closed_card.h"

namespace evenmat {
namespace {

using Interval = std::pair<double, double>;

// Where a line across at this height meets a ring without dents.
std::optional<Interval> across(const Quad& quad, const Rational& y) {
  std::optional<Interval> met;
  const auto add = [&](const Rational& x) {
    const double at = number(x);
    met = met ? Interval{std::min(met->first, at), std::max(met->second, at)} : Interval{at, at};
  };
  for (std::size_t i = 0; i < quad.size(); ++i) {
    const Point& a = quad[i];
    const Point& b = quad[(i + 1) % quad.size()];
    if (a.y == b.y || (a.y < y && b.y < y) || (a.y > y && b.y > y)) continue;
    add(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
  }
  if (met && met->second - met->first < 1e-9) return std::nullopt;
  return met;
}

// What of a sheet the line meets, its openings left out.
std::vector<Interval> met_by(const Sheet& sheet, const Rational& y) {
  const auto whole = across(sheet.outline, y);
  if (!whole) return {};
  std::vector<Interval> left{*whole};
  for (const Quad& opening : sheet.openings) {
    const auto gap = across(opening, y);
    if (!gap) continue;
    std::vector<Interval> rest;
    for (const auto& [from, to] : left) {
      if (gap->first > from) rest.emplace_back(from, std::min(to, gap->first));
      if (gap->second < to) rest.emplace_back(std::max(from, gap->second), to);
    }
    std::erase_if(rest, [](const Interval& one) { return one.second - one.first < 1e-9; });
    left = std::move(rest);
  }
  return left;
}

class Heap {
 public:
  // How high what lies below reaches anywhere between.
  [[nodiscard]] double top(double from, double to) const {
    double top = 0;
    for (const SectionBar& bar : bars_) {
      if (bar.left < to - 1e-9 && from < bar.right - 1e-9) top = std::max(top, bar.high);
    }
    return top;
  }
  // One thing in several stretches lies at one height.
  void lay(SectionBar bar, const std::vector<Interval>& stretches, double thickness) {
    double low = 0;
    for (const auto& [from, to] : stretches) low = std::max(low, top(from, to));
    bar.low = low;
    bar.high = low + thickness;
    std::vector<SectionBar> laid;
    for (const auto& [from, to] : stretches) {
      bar.left = from;
      bar.right = to;
      laid.push_back(bar);
    }
    bars_.insert(bars_.end(), laid.begin(), laid.end());
  }
  std::vector<SectionBar> done() { return std::move(bars_); }

 private:
  std::vector<SectionBar> bars_;
};

struct Thickness {
  double value = 0;
  std::string told;
};

class Thicknesses {
 public:
  explicit Thicknesses(const Card& card) : card_(card) {
    for (const Paper& paper : card.papers) {
      if (!paper.thickness || paper.thickness->value <= 0) continue;
      const double one = number(paper.thickness->value);
      unstated_ = unstated_ == 0 ? one : std::min(unstated_, one);
    }
    if (unstated_ == 0) unstated_ = card.unit == Unit::inch ? 0.01 : 0.25;
  }
  [[nodiscard]] Thickness of_paper(const Maybe<std::string>& paper) const {
    const Maybe<Rational> stated = stated_of_paper(card_.papers, paper, &Paper::thickness);
    if (!stated) return {unstated_, "thickness not stated"};
    return {number(stated->value), thickness_with_unit(stated->value, card_.unit)};
  }

 private:
  const Card& card_;
  double unstated_ = 0;
};

Look look_of(const SectionBar& bar) {
  if (bar.foam) return foam_look();
  if (bar.leaf) return base_look();
  return look_of(bar.role);
}

// What a line across at this height meets.
std::vector<SectionBar> bars_at(const Card& card, const Design& design, const SizedVersion& version,
                                const std::vector<ClosedPaper>& pile, const Rational& y) {
  const Thicknesses thicknesses(card);
  Heap heap;
  for (const ClosedPaper& paper : pile) {
    const std::vector<Interval> met = met_by(paper.sheet, y);
    if (met.empty()) continue;
    SectionBar bar;
    if (!paper.piece) {
      bar.name = "the " + paper.leaf;
      bar.leaf = true;
      const Thickness own = thicknesses.of_paper(design.base.paper);
      bar.thickness = own.told;
      heap.lay(std::move(bar), met, own.value);
      continue;
    }
    const Piece& piece = *version.pieces[*paper.piece].piece;
    if (piece.stamped) continue;  // ink
    bar.name = piece.name.value;
    bar.role = piece.role;
    const Thickness own = thicknesses.of_paper(piece.paper);
    bar.thickness = own.told;
    const auto lay_foam = [&] {
      if (!piece.raised || piece.raised->value <= 0) return;
      SectionBar foam;
      foam.name = "the foam under " + piece.name.value;
      foam.foam = true;
      foam.thickness = length_with_unit(piece.raised->value, card.unit);
      // Foam is set back from the edge, so that it does not show. Common practice, no source.
      std::vector<Interval> set_back;
      for (const auto& [from, to] : met) {
        const double by = 0.12 * (to - from);
        set_back.emplace_back(from + by, to - by);
      }
      heap.lay(std::move(foam), set_back, number(piece.raised->value));
    };
    // Under a layer that looks away, foam is nearer to the front than its paper.
    if (paper.toward) lay_foam();
    if (paper.toward && piece.raised) {
      // It rests on its foam, whatever lies beside that.
      heap.lay(std::move(bar), met, own.value);
    } else {
      heap.lay(std::move(bar), met, own.value);
      if (!paper.toward) lay_foam();
    }
  }
  return heap.done();
}

// Heights between the edges of the papers, a few of very many.
std::vector<Rational> heights_between(const std::vector<ClosedPaper>& pile) {
  std::set<Rational> edges;
  for (const ClosedPaper& paper : pile) {
    for (const Point& corner : paper.sheet.outline) edges.insert(corner.y);
  }
  std::vector<Rational> all;
  for (auto edge = edges.begin(); edge != edges.end() && std::next(edge) != edges.end(); ++edge)
    all.emplace_back((*edge + *std::next(edge)) / 2);
  constexpr std::size_t most = 40;
  const std::size_t step = all.size() / most + 1;
  std::vector<Rational> some;
  for (std::size_t i = 0; i < all.size(); i += step) some.push_back(all[i]);
  return some;
}

struct Reach {
  double high = 0;
  std::size_t papers = 0;
};

Reach reach_of(const std::vector<SectionBar>& bars) {
  Reach reach;
  std::set<std::string> names;
  for (const SectionBar& bar : bars) {
    reach.high = std::max(reach.high, bar.high);
    names.insert(bar.name);
  }
  reach.papers = names.size();
  return reach;
}

bool reaches_further(const Reach& a, const Reach& b) {
  constexpr double hair = 1e-9;
  return a.high > b.high + hair || (a.high > b.high - hair && a.papers > b.papers);
}

}  // namespace

Section section_of(const Card& card, const Design& design, const SizedVersion& version) {
  if (!version.closed) return {};
  const std::vector<ClosedPaper> pile = closed_pile(card, design, version);
  std::vector<Rational> heights = heights_between(pile);
  heights.insert(heights.begin(), version.closed->thickest_at.y);
  Section best;
  Reach most;
  for (const Rational& y : heights) {
    std::vector<SectionBar> bars = bars_at(card, design, version, pile, y);
    const Reach reach = reach_of(bars);
    if (!reaches_further(reach, most)) continue;
    most = reach;
    best = {y, std::move(bars)};
  }
  return best;
}

SectionFigure section_figure(const Section& section, Unit unit, const Box& room) {
  const std::vector<SectionBar>& bars = section.bars;
  SectionFigure figure;
  figure.room = {room.left, room.top, room.width, 0};
  if (bars.empty()) return figure;
  double left = bars.front().left;
  double right = bars.front().right;
  double high = 0;
  double thinnest = bars.front().high - bars.front().low;
  std::set<std::string> names;
  for (const SectionBar& bar : bars) {
    left = std::min(left, bar.left);
    right = std::max(right, bar.right);
    high = std::max(high, bar.high);
    thinnest = std::min(thinnest, bar.high - bar.low);
    names.insert(bar.name);
  }
  const double title_height = extent_of("A", title_type()).height + 4;
  const double column = std::min(0.38 * room.width, 190.0);
  const double wide = room.width - column;
  double across = wide / std::max(right - left, 1e-9);
  constexpr double label_pitch = 22;
  const double tall = std::min(room.height - title_height - 4,
                               std::max(60.0, label_pitch * static_cast<double>(names.size())));
  // The thinnest is still seen as a bar, as long as there is room.
  constexpr double least_bar = 3;
  const double up = std::min(0.8 * tall / high, std::max(least_bar / thinnest, 40 / high));
  // Never lower than true: a small card on thick foam is drawn narrower instead.
  across = std::min(across, up);
  const double floor = room.top + title_height + std::max(up * high, 0.5 * (tall + up * high));
  std::vector<Callout> named;
  std::set<std::string> told;
  for (const SectionBar& bar : bars) {
    const Box box{room.left + (bar.left - left) * across, floor - bar.high * up,
                  (bar.right - bar.left) * across, (bar.high - bar.low) * up};
    Look look = look_of(bar);
    look.edge.width = std::min(look.edge.width, 0.5);
    Shape shape{.outline = ring_of(box), .fill = look.fill, .stroke = look.edge};
    if (bar.foam) shape.texture = look.texture;
    figure.marks.emplace_back(std::move(shape));
  }
  // Of one in several stretches the last is named, which is the nearest to its label.
  for (std::size_t i = bars.size(); i-- > 0;) {
    const SectionBar& bar = bars[i];
    if (!told.insert(bar.name).second) continue;
    const At spot{room.left + (bar.right - left) * across - 3, floor - (bar.high + bar.low) / 2 * up};
    named.push_back({spot, bar.name, bar.thickness, bar.high - bar.low});
  }
  const Box labels{room.left + wide + 18, room.top + title_height, column - 18, tall};
  const Labels set = callouts(std::move(named), labels);
  figure.marks.insert(figure.marks.end(), set.marks.begin(), set.marks.end());
  // To what a ruler shows at a glance.
  const Rational step = unit == Unit::inch ? Rational(1, 8) : Rational(1);
  const Rational about = round_down(section.at + step / 2, step);
  const double times = up / across;
  const std::string heights = times < 1.05
                                  ? std::string("as high as true")
                                  : fmt::format("{:.{}f} times as high as true", times, times < 9.5 ? 1 : 0);
  const std::string title =
      fmt::format("From the side, {}, at about {} from its top", heights, length_with_unit(about, unit));
  figure.marks.emplace_back(text_at({room.left, room.top}, shortened_to(title, title_type(), room.width),
                                    title_type(), room.width));
  figure.room.height = std::max(set.bottom, floor) + 4 - room.top;
  return figure;
}

void add_section(Flow& flow, const Section& section, Unit unit, double below) {
  if (section.bars.empty()) return;
  constexpr double a_label = 22;
  const double wanted =
      std::clamp(60 + a_label * static_cast<double>(section.bars.size()), 110.0, flow.whole_height());
  flow.figure(wanted, below, [&](const Box& room) { return section_figure(section, unit, room); });
}

}  // namespace evenmat
