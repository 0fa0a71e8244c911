#include "cli/draw/contact_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "cli/drawing/flow.h"
#include "cli/explore/facts.h"
#include "cli/figure/figure.h"
#include "cli/figure/legend.h"
#include "cli/figure/scene.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr double gap = 18;                // between cells
constexpr double scene_gap = 8;           // between the card closed and the same opened out
constexpr std::size_t most_amounts = 10;  // that are told below a picture
const Type caption_type{.size = 7};
const Type number_type{.size = 9, .bold = true};

struct Cell {
  std::vector<Scene> scenes;  // below one another
  std::string number;
  std::vector<std::string> lines;
};

std::vector<std::string> words_of(const Facts& facts) {
  std::vector<std::string> words;
  for (const Fact& fact : facts) words.push_back(fact.words);
  return words;
}

// What is said below each card: the amounts in which these cards differ, and its paper.
struct Captions {
  std::vector<std::vector<std::string>> of_cards;
  std::vector<std::string> same;  // in all of them
};

Captions captions_of(const Card& card, const std::vector<OpenAmount>& open,
                     const std::vector<const Alternative*>& cards) {
  Captions captions;
  std::vector<std::vector<std::string>> amounts;
  for (const Alternative* one : cards) amounts.push_back(words_of(amount_facts(open, *one, card.unit)));
  const auto is_same = [&](std::size_t i) {
    return cards.size() > 1 && std::all_of(amounts.begin(), amounts.end(), [&](const auto& of_one) {
             return i < of_one.size() && of_one[i] == amounts.front()[i];
           });
  };
  for (std::size_t i = 0; i < amounts.front().size(); ++i) {
    if (is_same(i) && !amounts.front()[i].empty()) captions.same.push_back(amounts.front()[i]);
  }
  PaperSigns signs;
  for (std::size_t c = 0; c < cards.size(); ++c) {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < amounts[c].size(); ++i) {
      if (!amounts[c][i].empty() && !is_same(i)) lines.push_back(amounts[c][i]);
    }
    if (lines.size() > most_amounts) {
      const std::size_t more = lines.size() - most_amounts + 1;
      lines.resize(most_amounts - 1);
      lines.push_back(fmt::format("and {} more", more));
    }
    for (std::string& words : words_of(paper_facts(card, *cards[c], false, signs))) {
      if (!words.empty()) lines.push_back(std::move(words));
    }
    captions.of_cards.push_back(std::move(lines));
  }
  return captions;
}

bool same_lies(const PlacedPiece& a, const PlacedPiece& b) {
  return a.left == b.left && a.top == b.top && a.width == b.width && a.height == b.height;
}

// Whether the cards differ on a face that is not seen closed from the front.
bool differ_inside(const std::vector<const Alternative*>& cards) {
  const SizedVersion& first = cards.front()->sized.versions.front();
  for (const Alternative* one : cards) {
    const SizedVersion& version = one->sized.versions.front();
    for (std::size_t i = 0; i < std::min(first.pieces.size(), version.pieces.size()); ++i) {
      if (version.pieces[i].face != "front" && !same_lies(version.pieces[i], first.pieces[i])) return true;
    }
  }
  return false;
}

struct Grid {
  double scale = 0;  // points for one of the unit
  std::size_t columns = 1;
  double cell_width = 0, cell_height = 0;
};

// Of all the cells: how tall they are at a scale, with what is said below.
class Cells {
 public:
  explicit Cells(std::vector<Cell> cells) : cells_(std::move(cells)) {
    for (const Cell& cell : cells_) {
      double tall = 0;
      for (const Scene& scene : cell.scenes) {
        wide_ = std::max(wide_, scene.extent.width);
        tall += scene.extent.height;
      }
      tall_ = std::max(tall_, tall);
      scenes_ = std::max(scenes_, cell.scenes.size());
    }
  }

  [[nodiscard]] const std::vector<Cell>& all() const { return cells_; }

  // Of the grids in which all stand on one page the one with the largest scale; where that would be too small
  // to see anything, fewer go on a page.
  [[nodiscard]] Grid grid(Unit unit, double width, double height) const {
    const double true_size = unit == Unit::inch ? 72 : 72 / 25.4;
    const double alone = std::min({true_size, width / wide_, 0.6 * height / tall_});
    // Of its true size, or for one too large for a page of what it could be there.
    const double least = std::min(0.16 * true_size, 0.4 * alone);
    for (const std::size_t count : {24U, 15U, 12U, 8U, 6U, 4U, 2U, 1U}) {
      const Grid best = largest(std::min<std::size_t>(cells_.size(), count), true_size, width, height);
      if (best.scale >= least) return best;
    }
    // All that is said leaves even one alone no such room: a row a page.
    return {alone, 1, width, height - gap};
  }

  [[nodiscard]] double captions(double width) const {
    double most = 0;
    for (const Cell& cell : cells_) {
      double height = extent_of(cell.number, number_type).height + 2;
      for (const std::string& line : cell.lines) height += extent_of(line, caption_type, width).height;
      most = std::max(most, height);
    }
    return most + 4;
  }

 private:
  // So many on a page.
  [[nodiscard]] Grid largest(std::size_t count, double true_size, double width, double height) const {
    Grid best;
    for (std::size_t columns = 1; columns <= std::min<std::size_t>(count, 6); ++columns) {
      const std::size_t rows = (count + columns - 1) / columns;
      Grid grid;
      grid.columns = columns;
      grid.cell_width = (width - gap * static_cast<double>(columns - 1)) / static_cast<double>(columns);
      const double room = height / static_cast<double>(rows) - gap - captions(grid.cell_width);
      grid.scale = std::min({true_size, grid.cell_width / wide_, (room - between()) / tall_});
      grid.cell_height = grid.scale * tall_ + between() + captions(grid.cell_width);
      if (grid.scale > best.scale) best = grid;
    }
    return best;
  }

  [[nodiscard]] double between() const { return scene_gap * static_cast<double>(scenes_ - 1); }

  std::vector<Cell> cells_;
  double wide_ = 1e-9, tall_ = 1e-9;
  std::size_t scenes_ = 1;
};

void add_cell(const Cell& cell, const Grid& grid, const At& corner, std::vector<Mark>& marks) {
  double y = corner.y;
  const Text number = text_at({corner.x, y}, cell.number, number_type, grid.cell_width);
  y += number.box.height + 2;
  marks.emplace_back(number);
  for (std::size_t i = 0; i < cell.scenes.size(); ++i) {
    if (i > 0) y += scene_gap;
    const std::vector<Mark> papers = papers_of(cell.scenes[i], {corner.x, y}, grid.scale);
    marks.insert(marks.end(), papers.begin(), papers.end());
    y += cell.scenes[i].extent.height * grid.scale;
  }
  y += 4;
  for (const std::string& line : cell.lines) {
    const Text text = text_at({corner.x, y}, line, caption_type, grid.cell_width);
    y += text.box.height;
    marks.emplace_back(text);
  }
}

}  // namespace

Drawing contact_sheet(const Card& card, const std::vector<OpenAmount>& open,
                      const std::vector<const Alternative*>& cards, PageSize size) {
  Flow flow(size);
  const std::string title = title_of(card);
  const std::size_t drawn_count = std::min(cards.size(), most_drawn);
  flow.heading(title + ": " + counted(static_cast<int>(drawn_count), "card") + " side by side" +
               (drawn_count < cards.size() ? ", the first" : ""));
  if (cards.empty()) return flow.done(title, "");
  const bool inside = differ_inside(cards);
  const Captions captions =
      captions_of(card, open, {cards.begin(), cards.begin() + static_cast<std::ptrdiff_t>(drawn_count)});
  std::vector<Cell> list;
  std::vector<Scene> drawn;
  for (std::size_t i = 0; i < drawn_count; ++i) {
    const Alternative& one = *cards[i];
    const SizedVersion& version = one.sized.versions.front();
    Cell cell;
    cell.number = fmt::format("{}.{}", i + 1, one.as_sized ? "  as sized" : "");
    cell.scenes.push_back(closed_scene(card, card.design, version));
    if (auto opened = open_scene(card, card.design, version); opened && inside)
      cell.scenes.push_back(std::move(*opened));
    cell.lines = captions.of_cards[i];
    if (i == 0) drawn = cell.scenes;
    list.push_back(std::move(cell));
  }
  add_legend(flow, legend_of(drawn));
  const Cells cells(std::move(list));
  const double true_size = card.unit == Unit::inch ? 72 : 72 / 25.4;
  constexpr double note_height = 20;
  // Below its head the first page is a little shorter; a picture without pages is laid out as a page would
  // be.
  const double page_height = std::min(flow.left().height, 650.0) - note_height;
  const Grid grid = cells.grid(card.unit, flow.width(), page_height);
  flow.paragraph(fmt::format("All at {:.0f} % of their true size{}.", 100 * grid.scale / true_size,
                             card.variants.empty() ? "" : "; the plain card of each"));
  if (!captions.same.empty()) flow.paragraph("The same in all: " + joined(captions.same, "; ") + ".");
  flow.space(6);
  for (std::size_t i = 0; i < cells.all().size(); i += grid.columns) {
    const Box row = flow.take(grid.cell_height + gap);
    for (std::size_t j = 0; j < grid.columns && i + j < cells.all().size(); ++j) {
      const double x = row.left + static_cast<double>(j) * (grid.cell_width + gap);
      add_cell(cells.all()[i + j], grid, {x, row.top}, flow.page().marks);
    }
  }
  return flow.done(title, "To compare; cut by the sizes that are told.");
}

}  // namespace evenmat
