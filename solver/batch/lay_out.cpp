// Whole steps of a grid back to lengths, and cut trees to lists.
#include "solver/batch/lay_out.h"

#include <algorithm>
#include <tuple>

#include "solver/batch/labels.h"
#include "solver/cutting/steps.h"

namespace evenmat::batch {
namespace {

using cutting::Layout;
using cutting::Part;

bool is_base(const CutPiece& piece) {
  return std::any_of(piece.uses.begin(), piece.uses.end(), [](const PieceUse& use) { return use.base; });
}

class LayOut {
 public:
  LayOut(PlannedPaper& planned, const BatchTrimmer& trimmer)
      : plan_(planned.plan), paper_(*planned.paper), trimmer_(trimmer), layouts_(planned.layouts) {
    for (const CutPiece& piece : plan_.pieces) first_.push_back(is_base(piece));
  }

  void run() {
    sort_sheets();
    for (Layout& layout : layouts_) layout.root = with_trimmed_edge(layout.root, stock_of(layout), paper_);
    cutting::put_in_cutting_order(layouts_, first_, paper_.job.blade, paper_.hold);
    for (std::size_t begin = 0; begin < layouts_.size();) {
      std::size_t end = begin;
      while (end < layouts_.size() && round_of(layouts_[end]) == round_of(layouts_[begin])) ++end;
      add_round(begin, end);
      begin = end;
    }
    label(plan_.plan, plan_.pieces);
    for (CutSheet& sheet : plan_.stock) sheet.keep = sheet.is_offcut() && worth_keeping(sheet.size);
  }

 private:
  [[nodiscard]] Rational back(cutting::Measure steps) const { return paper_.grid.back(steps); }
  [[nodiscard]] const CutSheet& stock_of(const Layout& layout) const {
    return plan_.stock[paper_.stock[layout.sheet]];
  }

  // An offcut is there once what gives it has been cut: after all sheets, and after offcuts larger than
  // itself.
  [[nodiscard]] std::pair<bool, Rational> round_of(const Layout& layout) const {
    const CutSheet& sheet = stock_of(layout);
    if (!sheet.is_offcut()) return {false, 0};
    return {true, Rational(-sheet.size.width * sheet.size.height)};
  }

  // The steps of the layouts from `begin` to before `end`, done before those of any later ones.
  void add_round(std::size_t begin, std::size_t end) {
    const std::vector<Layout> layouts(layouts_.begin() + static_cast<std::ptrdiff_t>(begin),
                                      layouts_.begin() + static_cast<std::ptrdiff_t>(end));
    cutting::Work work = cutting::work_of(layouts, first_, paper_.job.blade, paper_.hold);
    const std::size_t steps_before = plan_.steps.size();
    for (std::size_t i = 0; i < layouts.size(); ++i) {
      for (cutting::StraightCut& cut : work.cuts[i]) cut.step += steps_before;
      plan_.plan.push_back(laid(layouts[i], work.cuts[i]));
      plan_.plan.back().letter = letter_of(begin + i);
    }
    for (cutting::Step& step : work.steps) {
      step.number += steps_before;
      for (cutting::StepWork& one : step.works) one.layout += begin;
      plan_.steps.push_back(told(step));
    }
  }

  void sort_sheets() {
    const auto rank = [&](const Layout& layout) {
      const std::vector<int> counts = cutting::pieces_in(layout.root, first_.size());
      bool bases = false;
      for (std::size_t kind = 0; kind < counts.size(); ++kind)
        bases = bases || (counts[kind] > 0 && first_[kind]);
      return std::tuple(round_of(layout), !bases, layout.sheet, -layout.times);
    };
    std::stable_sort(layouts_.begin(), layouts_.end(),
                     [&](const Layout& a, const Layout& b) { return rank(a) < rank(b); });
  }

  LaidSheet laid(const Layout& layout, const std::vector<cutting::StraightCut>& cuts) const {
    LaidSheet sheet;
    sheet.sheet = paper_.stock[layout.sheet];
    sheet.times = layout.times;
    collect(layout.root, sheet);
    if (stock_of(layout).trim_first > 0) sheet.leftovers.back().keep = false;
    std::erase_if(sheet.leftovers, [](const Leftover& left) { return left.width == 0 || left.height == 0; });
    for (const cutting::StraightCut& cut : cuts) {
      sheet.cuts.push_back(
          {back(cut.x), back(cut.y), back(cut.width), back(cut.height), cut.across, back(cut.at), cut.step});
    }
    Rational area = 0;
    for (const LaidPiece& piece : sheet.pieces) area += piece.width * piece.height;
    const Size& whole = stock_of(layout).size;
    sheet.used = area / (whole.width * whole.height);
    return sheet;
  }

  // The trimmed edge is the last part of its tree, and so the last of what is left.
  void collect(const Part& part, LaidSheet& sheet) const {
    const Size size{back(part.width), back(part.height)};
    switch (part.what) {
      case Part::What::piece:
        sheet.pieces.push_back({part.kind, back(part.x), back(part.y), size.width, size.height, part.turned});
        break;
      case Part::What::waste:
        sheet.leftovers.push_back({back(part.x), back(part.y), size.width, size.height, worth_keeping(size)});
        break;
      case Part::What::cut:
        for (const Part& smaller : part.parts) collect(smaller, sheet);
        break;
    }
  }

  [[nodiscard]] bool worth_keeping(const Size& size) const {
    return std::min(size.width, size.height) >= trimmer_.hold &&
           std::max(size.width, size.height) >= 2 * trimmer_.hold;
  }

  [[nodiscard]] StepYield told(const cutting::Yield& yield) const {
    StepYield told;
    told.what = yield.what == cutting::Yield::What::piece   ? StepYield::What::piece
                : yield.what == cutting::Yield::What::strip ? StepYield::What::strip
                                                            : StepYield::What::leftover;
    told.size = {back(yield.width), back(yield.height)};
    told.kind = yield.kind;
    told.count = yield.count;
    return told;
  }

  [[nodiscard]] CutStep told(const cutting::Step& step) const {
    CutStep told_step{step.number, back(step.set), {}};
    for (const cutting::StepWork& work : step.works) {
      SheetWork told_work;
      told_work.laid = work.layout;
      told_work.across = work.across;
      told_work.from = told(work.from);
      told_work.cuts = work.cuts;
      told_work.hold = work.hold;
      for (const cutting::Yield& yield : work.yields) {
        if (yield.width > 0 && yield.height > 0) told_work.yields.push_back(told(yield));
      }
      told_step.works.push_back(std::move(told_work));
    }
    return told_step;
  }

  PaperPlan& plan_;
  const PaperJob& paper_;
  const BatchTrimmer& trimmer_;
  std::vector<Layout> layouts_;
  std::vector<bool> first_;  // of each kind, whether it is a base's
};

}  // namespace

void lay_out(PlannedPaper& planned, const BatchTrimmer& trimmer) {
  if (!planned.layouts.empty()) LayOut(planned, trimmer).run();
}

std::string letter_of(std::size_t index) {
  std::string letters;
  for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / 26) {
    letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
  }
  return letters;
}

}  // namespace evenmat::batch
