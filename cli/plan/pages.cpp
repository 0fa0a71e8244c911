#include "cli/plan/pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "cli/cut/plan.h"
#include "cli/drawing/text.h"
#include "cli/plan/figure.h"
#include "cli/plan/legend.h"
#include "cli/plan/names.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr double gap = 16;  // between two figures
constexpr double gap_below = 12;

// The key below a figure, in rows of a width: a swatch, its letter, what it stands for.
struct KeyRow {
  std::vector<Mark> marks;  // from its own top left corner
  double height = 0;
};

KeyRow key_row(const PlanName& name, int count, double width) {
  constexpr double to_letter = swatch_width + 4, to_words = to_letter + 15;
  KeyRow row;
  row.marks.emplace_back(swatch({0, 1}, name.look));
  row.marks.emplace_back(
      text_at({to_letter, 0}, name.letter, {.size = 7, .bold = true, .italic = true}, to_words));
  Text words = text_at({to_words, 0}, fmt::format("{}, {}: {}", name.name, name.size, count), {.size = 7},
                       width - to_words);
  row.height = std::max(words.box.height, swatch_height + 2.0) + 1.5;
  row.marks.emplace_back(std::move(words));
  return row;
}

// A figure with what goes below it.
struct Block {
  PlanFigure figure;
  std::vector<KeyRow> key;
  std::vector<Text> notes;
  double width = 0, height = 0;
  bool key_apart = false;  // too long to stay with the figure: rows of their own follow
};

class PaperPages {
 public:
  PaperPages(Flow& flow, const CutTelling& telling, const PaperPlan& paper)
      : flow_(flow), telling_(telling), paper_(paper), names_(plan_names(telling, paper)) {}

  // A heading stands over its first figures.
  void add() {
    head_ = told();
    head_height_ = extent_of(paper_.paper, heading_type(), flow_.width()).height + 20;
    for (const auto& [words, type] : head_) head_height_ += extent_of(words, type, flow_.width()).height + 2;
    const std::vector<Block> all = blocks();
    if (!all.empty()) flow_.keep_together(head_height_ + row_of(all, 0).height);
    flow_.heading(paper_.paper);
    for (const auto& [words, type] : head_) flow_.paragraph(words, type);
    flow_.space(5);
    lay(all);
  }

 private:
  using Told = std::vector<std::pair<std::string, Type>>;

  [[nodiscard]] Told told() const {
    Told all;
    if (!paper_.trouble.empty()) all.emplace_back(paper_.trouble, Type{});
    if (!paper_.plan.empty()) all.emplace_back(sheets_words(paper_, telling_.unit()), Type{});
    for (const Shortage& missing : paper_.missing) all.emplace_back(missing.says, Type{});
    std::vector<std::string> steps;
    for (const CutStep& step : paper_.steps) {
      steps.push_back(fmt::format("step\u00A0{} at {}\u00A0{}", step.number,
                                  measure_words(step.set, telling_.unit()), unit_name(telling_.unit())));
    }
    if (!steps.empty())
      all.emplace_back(fmt::format("Set the trimmer: {}.", joined(steps, ", ")), note_type());
    return all;
  }

  // At the smallest size at which half of the pieces have their names, and the others their letters, and cuts
  // their numbers; or at the one where most is told.
  std::vector<Block> blocks() {
    // Of the smallest two rows go on a page with a heading above them.
    constexpr double half_a_page = 274;
    const double beside = (flow_.width() - gap) / 2 - (has_arrows() ? 36 : 18);
    const std::array<Extent, 4> sizes = {Extent{beside, half_a_page}, Extent{beside, 300}, Extent{370, 440},
                                         Extent{flow_.width() - 45, flow_.whole_height()}};
    std::vector<Block> best;
    double best_cost = 0;
    for (const Extent& size : sizes) {
      std::vector<Block> all = at_size(size);
      const double cost = cost_of(all);
      constexpr double worth_more_paper = 0.12;
      if (best.empty() || cost < best_cost - worth_more_paper) {
        best = std::move(all);
        best_cost = cost;
      }
      if (best_cost <= well_told) break;
    }
    return best;
  }

  // What is not told in place, as a share of the pieces; what is not told at all weighs more. And how much
  // there is to find one's way in.
  static double cost_of(const std::vector<Block>& blocks) {
    double cost = 0;
    double pieces = 0;
    double crowded = 0;
    for (const Block& block : blocks) {
      const PlanFigure& figure = block.figure;
      double lettered = 0;
      for (const PlanKeyEntry& entry : figure.key) lettered += entry.count;
      pieces += static_cast<double>(figure.named) + lettered;
      crowded = std::max(crowded, figure.crowded);
      cost += 0.5 * lettered + 4 * static_cast<double>(figure.bare) + 2 * static_cast<double>(figure.outside);
      // A run of cuts is well told in words; a single one is not.
      constexpr int a_run = 4;
      for (const UnnumberedCuts& cuts : figure.unnumbered) cost += cuts.count < a_run ? 20 : 1;
    }
    return (pieces > 0 ? cost / pieces : 0) + 5 * crowded;
  }

  // All sheets to one scale.
  std::vector<Block> at_size(const Extent& size) {
    double scale = true_size();
    for (const LaidSheet& laid : paper_.plan) {
      const Size& sheet = paper_.stock[laid.sheet].size;
      scale = std::min({scale, size.width / sheet.width.convert_to<double>(),
                        size.height / sheet.height.convert_to<double>()});
    }
    // With the heading above it, unless that is long; and on a page that has hardly begun.
    double whole = flow_.whole_height();
    if (flow_.left().height > 0.75 * whole) whole = flow_.left().height;
    const double most_height = whole - (head_height_ < whole / 2 ? head_height_ : 0);
    for (;;) {
      std::vector<Block> all;
      bool fits = true;
      letter(scale);
      for (std::size_t i = 0; i < paper_.plan.size() && fits; ++i) {
        all.push_back(block_of(i, scale));
        fits = all.back().width <= flow_.width() && all.back().height <= most_height;
      }
      if (fits) return all;
      scale *= 0.94;
    }
  }

  // At this scale some pieces have no room for their names: these have the first letters, as they come.
  // (Which they are does not hang on the letters.)
  void letter(double scale) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < paper_.plan.size(); ++i) {
      for (const PlanKeyEntry& entry : plan_figure(telling_, paper_, names_, i, scale, least_words).key) {
        if (std::find(order.begin(), order.end(), entry.name) == order.end()) order.push_back(entry.name);
      }
    }
    give_letters(names_, order);
  }

  [[nodiscard]] bool has_arrows() const {
    return std::any_of(paper_.stock.begin(), paper_.stock.end(),
                       [](const CutSheet& sheet) { return sheet.up || !sheet.grain.empty(); });
  }

  // Points for one of the unit.
  [[nodiscard]] double true_size() const { return telling_.unit() == Unit::inch ? 72 : 72 / 25.4; }

  Block block_of(std::size_t laid, double scale) {
    constexpr double most_key = 96;
    Block block;
    block.figure = plan_figure(telling_, paper_, names_, laid, scale, least_words);
    block.width = std::max(block.figure.width, block.figure.key.empty() ? 0.0 : least_words);
    block.height = block.figure.height;
    double height = 0;
    for (const PlanKeyEntry& entry : block.figure.key) {
      block.key.push_back(key_row(names_.names[entry.name], entry.count, block.width));
      height += block.key.back().height;
    }
    block.key_apart = height > most_key;
    if (block.key_apart) {
      block.key.clear();
      for (const PlanKeyEntry& entry : block.figure.key)
        block.key.push_back(key_row(names_.names[entry.name], entry.count, key_width()));
    } else if (height > 0) {
      block.height += key_gap + height;
    }
    if (!block.figure.unnumbered.empty()) {
      Text note =
          text_at({0, block.height + 3}, unnumbered_words(block.figure.unnumbered), note_type(), block.width);
      block.height = note.box.bottom();
      block.notes.push_back(std::move(note));
    }
    return block;
  }

  [[nodiscard]] double key_width() const { return (flow_.width() - gap) / 2; }

  void put(std::vector<Mark> marks, const At& at) {
    for (Mark& mark : marks) {
      move_by(mark, at);
      flow_.page().marks.push_back(std::move(mark));
    }
  }

  void put_block(const Block& block, const At& at) {
    put(block.figure.marks, at);
    double y = at.y + block.figure.height + key_gap;
    for (const KeyRow& row : block.key) {
      if (block.key_apart) break;
      put(row.marks, {at.x, y});
      y += row.height;
    }
    for (const Text& note : block.notes) put({note}, at);
  }

  struct BlockRow {
    std::size_t end = 0;
    double height = 0;
  };

  // Beside one another as long as there is room.
  [[nodiscard]] BlockRow row_of(const std::vector<Block>& blocks, std::size_t first) const {
    double width = blocks[first].width;
    BlockRow row{first + 1, blocks[first].height};
    while (row.end < blocks.size() && !blocks[first].key_apart && !blocks[row.end].key_apart &&
           width + gap + blocks[row.end].width <= flow_.width()) {
      width += gap + blocks[row.end].width;
      row.height = std::max(row.height, blocks[row.end].height);
      ++row.end;
    }
    return row;
  }

  void lay(const std::vector<Block>& blocks) {
    for (std::size_t first = 0; first < blocks.size();) {
      const BlockRow row = row_of(blocks, first);
      const Box box = flow_.take(row.height);
      double x = box.left;
      for (std::size_t i = first; i < row.end; ++i) {
        put_block(blocks[i], {x, box.top});
        x += blocks[i].width + gap;
      }
      if (blocks[first].key_apart) lay_key(blocks[first].key);
      flow_.space(gap_below);
      first = row.end;
    }
  }

  void lay_key(const std::vector<KeyRow>& key) {
    flow_.space(key_gap);
    for (std::size_t i = 0; i < key.size(); i += 2) {
      const bool two = i + 1 < key.size();
      const Box row = flow_.take(std::max(key[i].height, two ? key[i + 1].height : 0.0));
      put(key[i].marks, {row.left, row.top});
      if (two) put(key[i + 1].marks, {row.left + key_width() + gap, row.top});
    }
  }

  // "step 4, 47 cuts from top to bottom along b"
  static std::string unnumbered_words(const std::vector<UnnumberedCuts>& all) {
    constexpr std::size_t most_named = 4;
    std::vector<std::string> words;
    for (const UnnumberedCuts& cuts : all) {
      std::vector<std::string> along = cuts.alongside;
      if (along.size() > most_named) {
        along.resize(most_named);
        along.emplace_back("others");
      }
      words.push_back(fmt::format("step\u00A0{}, {} {}{}", cuts.step, counted(cuts.count, "cut"),
                                  cuts.across ? "from left to right" : "from top to bottom",
                                  along.empty() ? "" : " along " + listed(along)));
    }
    return "Too close together for a number each: " + joined(words, "; ") + ".";
  }

  static constexpr double least_words = 130;  // what words have at least, however narrow the sheet
  static constexpr double key_gap = 5;
  static constexpr double well_told = 0.3;

  Flow& flow_;
  const CutTelling& telling_;
  const PaperPlan& paper_;
  PlanNames names_;
  Told head_;
  double head_height_ = 0;
};

bool is_told(const PaperPlan& paper) {
  return !paper.plan.empty() || !paper.trouble.empty() || !paper.missing.empty();
}

}  // namespace

void add_plan(Flow& flow, const CutTelling& telling) {
  const std::vector<PaperPlan>& papers = telling.batch.papers;
  if (std::none_of(papers.begin(), papers.end(), is_told)) return;
  add_plan_legend(flow, telling);
  for (const PaperPlan& paper : papers) {
    if (is_told(paper)) PaperPages(flow, telling, paper).add();
  }
}

Drawing plan_drawing(const CutTelling& telling, PageSize size) {
  std::vector<std::string> cards;
  for (std::size_t i = 0; i < telling.cards.size(); ++i) {
    const int made = cards_made(telling.batch, i);
    cards.push_back(card_name(telling, i) + (made > 0 ? fmt::format(" ({})", counted(made, "card")) : ""));
  }
  const std::string title = "Cutting plan: " + joined(cards, ", ");
  Flow flow(size);
  flow.title(title);
  const std::vector<PaperPlan>& papers = telling.batch.papers;
  if (std::none_of(papers.begin(), papers.end(), is_told)) flow.paragraph("Nothing is cut from paper.");
  const bool any_cut = std::any_of(papers.begin(), papers.end(), [](const PaperPlan& paper) {
    return std::any_of(paper.plan.begin(), paper.plan.end(),
                       [](const LaidSheet& laid) { return !laid.cuts.empty(); });
  });
  if (any_cut) {
    flow.paragraph(
        "The number on a cut is its step: all cuts of step 1 come first, then those of step 2. Each paper "
        "has "
        "its own steps.",
        note_type());
  }
  flow.space(2);
  add_plan(flow, telling);
  return flow.done(title, title);
}

}  // namespace evenmat
