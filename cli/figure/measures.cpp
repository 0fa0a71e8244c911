#include "cli/figure/measures.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "cli/drawing/text.h"
#include "cli/figure/look.h"

namespace evenmat {
namespace {

constexpr double row_height = 11;
constexpr double first_row = 5;  // from the picture to the nearest row's edge
constexpr std::size_t most_rows = 8;

// Along one way: from left to right, or from top to bottom.
struct Span {
  double from = 0, to = 0;  // on the page
  std::string words;
  Extent extent;  // of the words as they read
  double words_from = 0;
  std::size_t row = 0;

  [[nodiscard]] bool is_within() const { return extent.width + 14 <= to - from; }
  [[nodiscard]] double low() const { return std::min(from, words_from) - 2; }
  [[nodiscard]] double high() const { return std::max(to, words_from + extent.width) + 2; }
};

// Upright or on its head; a leaf that is turned over has its corners the other way round.
bool lies_straight(const ScenePaper& paper) {
  const Ring& ring = paper.outline;
  constexpr double hair = 1e-9;
  return ring.size() == 4 && std::abs(ring[0].y - ring[1].y) < hair &&
         std::abs(ring[1].x - ring[2].x) < hair && std::abs(ring[1].x - ring[0].x) > hair;
}

using Sights = std::vector<std::optional<Sight>>;

// From end to end, or all that there is to see.
bool is_measured(const ScenePaper& paper, const Sight& sight, const Box& extent, bool down) {
  constexpr double hair = 1e-6;
  const Box box = box_around(paper.outline);
  const auto reaches = [&](const Box& over) {
    return down ? over.top < box.top + hair && over.bottom() > box.bottom() - hair
                : over.left < box.left + hair && over.right() > box.right() - hair;
  };
  const bool whole = down ? box.height > extent.height - hair : box.width > extent.width - hair;
  return reaches(sight.seen) || (whole && paper.kind == ScenePaper::Kind::leaf);
}

std::vector<Span> spans_of(const Scene& scene, const Sights& sights, Unit unit, const Box& picture,
                           double scale, const Box& free, bool down) {
  std::vector<Span> spans;
  const double start = down ? picture.top : picture.left;
  for (std::size_t i = 0; i < scene.papers.size(); ++i) {
    const ScenePaper& paper = scene.papers[i];
    if (paper.copy > 0 || !sights[i] || !lies_straight(paper)) continue;
    if (!is_measured(paper, *sights[i], scene.extent, down)) continue;
    const Box box = box_around(paper.outline);
    Span span;
    span.from = start + scale * (down ? box.top : box.left);
    span.to = start + scale * (down ? box.bottom() : box.right());
    span.words = length_text(down ? paper.size.height : paper.size.width, unit);
    const auto same = [&](const Span& other) {
      return std::abs(other.from - span.from) < 0.01 && std::abs(other.to - span.to) < 0.01;
    };
    if (std::any_of(spans.begin(), spans.end(), same)) continue;
    span.extent = extent_of(span.words, measure_type());
    // Too long to stand within: behind the end, or before the start where there is no room.
    const double end = down ? free.bottom() : free.right();
    if (span.is_within()) {
      span.words_from = (span.from + span.to - span.extent.width) / 2;
    } else if (span.to + 3 + span.extent.width <= end) {
      span.words_from = span.to + 3;
    } else {
      span.words_from = span.from - 3 - span.extent.width;
      if (span.words_from < (down ? free.top : free.left)) continue;
    }
    spans.push_back(std::move(span));
  }
  std::stable_sort(spans.begin(), spans.end(),
                   [](const Span& a, const Span& b) { return a.to - a.from < b.to - b.from; });
  return spans;
}

// Each into the nearest row in which it meets no other; how many rows that takes.
std::size_t set_rows(std::vector<Span>& spans) {
  std::size_t rows = 0;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    Span& span = spans[i];
    const auto meets = [&](std::size_t row) {
      return std::any_of(spans.begin(), spans.begin() + static_cast<std::ptrdiff_t>(i),
                         [&](const Span& other) {
                           return other.row == row && other.low() < span.high() && span.low() < other.high();
                         });
    };
    span.row = 0;
    while (meets(span.row)) ++span.row;
    rows = std::max(rows, span.row + 1);
  }
  return rows;
}

// Where a row's line runs, from the picture outward.
double offset(std::size_t row) { return first_row + row_height * (static_cast<double>(row) + 0.5); }

class Ladder {
 public:
  Ladder(const Box& picture, bool down) : picture_(picture), down_(down) {}

  void add(const std::vector<Span>& spans, std::vector<Mark>& marks) {
    for (const Span& span : spans) words_.push_back(words_box(span));
    for (const Span& span : spans) {
      for (const double at : {span.from, span.to}) extension(at, span.row, marks);
    }
    for (const Span& span : spans) {
      line(span, marks);
      marks.emplace_back(
          Text{words_box(span), span.words, measure_type(), Align::centre, down_ ? Turn::up : Turn::none});
    }
  }

 private:
  // `along` the way measured, `out` from the picture.
  [[nodiscard]] At place(double along, double out) const {
    return down_ ? At{picture_.left - out, along} : At{along, picture_.top - out};
  }

  [[nodiscard]] Box words_box(const Span& span) const {
    const double out = offset(span.row) + span.extent.height / 2;
    const At at = place(span.words_from, out);
    if (down_) return {at.x, at.y, span.extent.height, span.extent.width};
    return {at.x, at.y, span.extent.width, span.extent.height};
  }

  void line(const Span& span, std::vector<Mark>& marks) const {
    const double out = offset(span.row);
    const auto stretch = [&](double from, double to, bool start, bool end) {
      marks.emplace_back(Polyline{{place(from, out), place(to, out)}, measure_line(), start, end});
    };
    if (!span.is_within()) {
      stretch(span.from, span.to, span.to - span.from > 9, span.to - span.from > 9);
      return;
    }
    stretch(span.words_from - 1.5, span.from, false, true);
    stretch(span.words_from + span.extent.width + 1.5, span.to, false, true);
  }

  // From the picture out to the line, broken where words are.
  void extension(double along, std::size_t row, std::vector<Mark>& marks) const {
    std::vector<std::pair<double, double>> gaps;
    for (const Box& box : words_) {
      const double low = down_ ? box.top : box.left;
      const double high = down_ ? box.bottom() : box.right();
      if (along < low - 1 || along > high + 1) continue;
      gaps.emplace_back(down_ ? picture_.left - box.right() : picture_.top - box.bottom(),
                        down_ ? picture_.left - box.left : picture_.top - box.top);
    }
    std::sort(gaps.begin(), gaps.end());
    double out = 2;
    const double end = offset(row) + 2;
    Stroke stroke = measure_line();
    stroke.width = 0.3;
    const auto stretch = [&](double to) {
      if (to > out) marks.emplace_back(Polyline{{place(along, out), place(along, to)}, stroke});
    };
    for (const auto& [from, to] : gaps) {
      if (from >= end) break;
      stretch(std::min(from, end));
      out = std::max(out, to);
    }
    if (out < end) stretch(end);
  }

  const Box& picture_;
  bool down_;
  std::vector<Box> words_;
};

double add_ladder(const Scene& scene, const Sights& sights, Unit unit, const Box& picture, double scale,
                  const Box& free, bool down, std::vector<Mark>& marks) {
  std::vector<Span> spans = spans_of(scene, sights, unit, picture, scale, free, down);
  while (set_rows(spans) > most_rows) spans.erase(spans.begin());
  if (spans.empty()) return 0;
  std::size_t rows = 0;
  for (const Span& span : spans) rows = std::max(rows, span.row + 1);
  Ladder(picture, down).add(spans, marks);
  return first_row + row_height * static_cast<double>(rows) + 2;
}

}  // namespace

Measures measures_of(const Scene& scene, const std::vector<std::optional<Sight>>& sights, Unit unit,
                     const Box& picture, double scale, const Box& free) {
  Measures measures;
  measures.above = add_ladder(scene, sights, unit, picture, scale, free, false, measures.marks);
  measures.beside = add_ladder(scene, sights, unit, picture, scale, free, true, measures.marks);
  return measures;
}

}  // namespace evenmat
