// From a paper's needs to the planner's whole numbers, and the untrue edge of a sheet.
#include "solver/batch/paper_job.h"

#include <algorithm>

#include "solver/cutting/plan_sheets.h"

namespace evenmat::batch {
namespace {

// The least that comes off with the edge: a blade that takes more takes all of it.
Rational trimmed_off(const CutSheet& sheet, const BatchTrimmer& trimmer) {
  return sheet.trim_first == 0 ? Rational(0) : std::max(sheet.trim_first, trimmer.blade_loss);
}

// Pieces of other papers' sizes have no say in the grid.
std::vector<Rational> lengths_of(const PaperNeeds& needs, const BatchTrimmer& trimmer) {
  std::vector<Rational> lengths{trimmer.blade_loss};
  for (const CutPiece& piece : needs.pieces)
    lengths.insert(lengths.end(), {piece.size.width, piece.size.height});
  for (const CutSheet& sheet : needs.stock) {
    lengths.insert(lengths.end(), {sheet.size.width, sheet.size.height, trimmed_off(sheet, trimmer)});
  }
  return lengths;
}

cutting::Kind kind_of(const CutPiece& cut, const Grid& grid) {
  cutting::Kind kind;
  kind.width = grid.on(cut.size.width);
  kind.height = grid.on(cut.size.height);
  kind.upright = cut.upright;
  kind.turned = cut.turned;
  kind.count = cut.count;
  return kind;
}

void add_sheet(PaperJob& paper, const PaperNeeds& needs, std::size_t index, const BatchTrimmer& trimmer) {
  const CutSheet& stock = needs.stock[index];
  cutting::Sheet sheet;
  sheet.width = paper.grid.on(stock.size.width);
  sheet.height = paper.grid.on(stock.size.height - trimmed_off(stock, trimmer));
  sheet.have = stock.have;
  sheet.offcut =
      std::any_of(needs.may.begin(), needs.may.end(), [&](const auto& may) { return !may[index]; });
  paper.job.sheets.push_back(sheet);
  paper.stock.push_back(index);
  paper.is_sheet.push_back(!stock.is_offcut());
}

// Which of the job's offcuts a kind may be cut from: the job has room for all or none.
void settle_offcuts(PaperJob& paper, const PaperNeeds& needs, std::size_t kind) {
  bool all = true;
  bool none = true;
  for (std::size_t i = 0; i < paper.stock.size(); ++i) {
    if (!paper.job.sheets[i].offcut) continue;
    (needs.may[kind][paper.stock[i]] ? none : all) = false;
  }
  paper.job.kinds[kind].from_offcuts = all;
  paper.exact = paper.exact && (all || none);
  std::vector<bool>& takes = paper.takes.emplace_back();
  for (std::size_t i = 0; i < paper.stock.size(); ++i)
    takes.push_back(needs.may[kind][paper.stock[i]] && fits_by_size(paper.job, kind, i));
}

}  // namespace

bool fits_by_size(const cutting::Job& job, std::size_t kind, std::size_t sheet) {
  cutting::Job any = job;
  any.kinds[kind].from_offcuts = true;
  return cutting::can_hold(any, kind, sheet);
}

bool can_be_trimmed(const CutSheet& sheet, const BatchTrimmer& trimmer) {
  return sheet.trim_first == 0 ||
         (sheet.size.width <= trimmer.longest && trimmed_off(sheet, trimmer) < sheet.size.height);
}

std::optional<PaperJob> job_of(const PaperNeeds& needs, const BatchTrimmer& trimmer) {
  std::optional<Grid> grid = grid_of(lengths_of(needs, trimmer));
  if (!grid) return std::nullopt;
  // No cut is as short as that: with a finer grid the limit is a step at least.
  if (trimmer.longest < grid->step) grid->step /= Rational(floor(grid->step / trimmer.longest) + 1);
  PaperJob paper;
  paper.grid = *grid;
  paper.hold = grid->at_least(trimmer.hold);
  paper.job.blade = grid->on(trimmer.blade_loss);
  paper.job.sliver = grid->at_least(trimmer.sliver);
  paper.job.longest = grid->at_most(trimmer.longest);
  for (const CutPiece& piece : needs.pieces) paper.job.kinds.push_back(kind_of(piece, *grid));
  for (std::size_t i = 0; i < needs.stock.size(); ++i) {
    if (can_be_trimmed(needs.stock[i], trimmer)) add_sheet(paper, needs, i, trimmer);
  }
  for (std::size_t kind = 0; kind < paper.job.kinds.size(); ++kind) settle_offcuts(paper, needs, kind);
  return paper;
}

cutting::Part with_trimmed_edge(const cutting::Part& root, const CutSheet& sheet, const PaperJob& paper) {
  if (sheet.trim_first == 0) return root;
  cutting::Part whole;
  whole.what = cutting::Part::What::cut;
  whole.width = root.width;
  whole.height = paper.grid.on(sheet.size.height);
  whole.across = true;
  whole.order_matters = true;
  cutting::Part edge;
  edge.width = root.width;
  edge.height = whole.height - root.height - paper.job.blade;
  whole.parts = {root, edge};
  return whole;
}

}  // namespace evenmat::batch
