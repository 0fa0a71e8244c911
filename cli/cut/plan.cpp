#include "cli/cut/plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// How many sheets of each size are taken, offcuts aside.
std::vector<std::pair<Size, int>> sizes_taken(const PaperPlan& paper) {
  std::vector<std::pair<Size, int>> sizes;
  for (std::size_t i = 0; i < paper.stock.size(); ++i) {
    const int times = paper.stock[i].is_offcut() ? 0 : taken(paper, i);
    if (times == 0) continue;
    const auto same = std::find_if(sizes.begin(), sizes.end(),
                                   [&](const auto& one) { return one.first == paper.stock[i].size; });
    if (same == sizes.end()) {
      sizes.emplace_back(paper.stock[i].size, times);
    } else {
      same->second += times;
    }
  }
  return sizes;
}

std::string bound_words(const PaperPlan& paper) {
  if (paper.cost) {
    return paper.proven
               ? fmt::format(", at a cost of {}, the least possible", amount_words(*paper.cost))
               : fmt::format(", at a cost of {}; no plan can cost less than {}", amount_words(*paper.cost),
                             amount_words(paper.cost_at_least.value_or(0)));
  }
  return paper.proven ? ", the fewest possible"
                      : fmt::format("; no plan can use fewer than {}", paper.at_least);
}

// "4 indigo mat, 2 edge strip": the pieces of one sheet by pile, in the order in which they lie.
std::string gives(const CutTelling& telling, const PaperPlan& paper, const LaidSheet& laid,
                  const LabelledRun& run) {
  std::vector<std::pair<std::string, int>> piles;
  for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
    const CutPiece& piece = paper.pieces[laid.pieces[i].kind];
    const std::string name =
        i < run.uses.size() ? pile_name(telling, piece.uses[run.uses[i]]) : kind_name(piece);
    const auto same =
        std::find_if(piles.begin(), piles.end(), [&](const auto& one) { return one.first == name; });
    if (same == piles.end()) {
      piles.emplace_back(name, 1);
    } else {
      ++same->second;
    }
  }
  std::vector<std::string> told;
  for (const auto& [name, count] : piles) told.push_back(fmt::format("{} {}", count, name));
  return joined(told, "; ");
}

// To the whole per cent below, so that a sheet that is not used up never looks as if it were.
std::string per_cent(const Rational& share) { return fmt::format("{} %", floor(share * 100).str()); }

}  // namespace

std::string offcut_words(const CutSheet& sheet) {
  switch (sheet.from) {
    case CutSheet::From::cut_back:
      return fmt::format("from the strips that the cut-back of the {} gives up", sheet.comes_of);
    case CutSheet::From::window:
      return fmt::format("from what comes out of {}", sheet.comes_of);
    case CutSheet::From::hollow:
      return fmt::format("from the hidden middle of {}", sheet.comes_of);
    case CutSheet::From::stated:
    case CutSheet::From::more:
      break;
  }
  return {};
}

std::string sheets_words(const PaperPlan& paper, Unit unit) {
  if (paper.sheets == 0) return "No sheet: all of it comes of what other cuts give up.";
  const auto sizes = sizes_taken(paper);
  std::string words = counted(paper.sheets, "sheet");
  if (sizes.size() == 1) {
    words += " of " + size_words(sizes.front().first, unit);
  } else {
    std::vector<std::string> parts;
    for (const auto& [size, times] : sizes)
      parts.push_back(fmt::format("{} of {}", times, size_words(size, unit)));
    words += fmt::format(" ({})", joined(parts, ", "));
  }
  return words + bound_words(paper) + ".";
}

std::string plan_text(const CutTelling& telling, const PaperPlan& paper) {
  std::vector<Row> rows = {
      {.name = "Sheets", .cells = {"", "used"}, .note = "", .heading = true, .indent = 2}};
  for (const LaidSheet& laid : paper.plan) {
    const CutSheet& sheet = paper.stock[laid.sheet];
    std::string first = sheet.is_offcut() ? offcut_words(sheet) + ": " : "";
    if (sheet.trim_first > 0) {
      first +=
          fmt::format("with {} trimmed off its bottom edge: ", length_text(sheet.trim_first, telling.unit()));
    }
    const std::vector<LabelledRun> all =
        laid.runs.empty() ? std::vector<LabelledRun>{{laid.times, {}}} : laid.runs;
    for (const LabelledRun& run : all) {
      rows.push_back({.name = laid.letter,
                      .cells = {fmt::format("{} of {}", run.times, size_words(sheet.size, telling.unit())),
                                per_cent(laid.used)},
                      .note = first + gives(telling, paper, laid, run),
                      .indent = 4});
    }
  }
  return table(rows, telling.style);
}

}  // namespace evenmat
