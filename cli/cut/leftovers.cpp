#include "cli/cut/leftovers.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/cut/plan.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

bool runs_across(const Size& size, const std::string& grain) {
  return (size.width > size.height) == (grain == "long");
}

// Where one entry of a paper may not turn, nothing that is cut from it may.
bool keeps_up(const PaperPlan& paper) {
  return std::any_of(paper.stock.begin(), paper.stock.end(), [](const CutSheet& sheet) { return sheet.up; });
}

// The grain of a part of a sheet: it runs the same way, along a side that may not be the longer one.
std::string grain_of(const Size& part, const CutSheet& sheet) {
  if (sheet.grain.empty()) return {};
  return runs_across(part, "long") == runs_across(sheet.size, sheet.grain) ? "long" : "short";
}

bool alike(const Kept& a, const Kept& b) {
  return a.up == b.up && a.grain == b.grain && (a.size == b.size || (!a.up && a.size == turned(b.size)));
}

std::string way_words(const Kept& kept) {
  std::vector<std::string> notes;
  if (kept.up) notes.emplace_back("this way up");
  if (!kept.grain.empty()) notes.push_back(fmt::format("grain {}", kept.grain));
  return joined(notes, ", ");
}

// "Worth keeping, this way up: 3 of 12 x 1 1/4." Which way is told of each where it is not one for all.
std::string kept_words(const std::vector<Kept>& all, Unit unit) {
  const std::string way = way_words(all.front());
  const bool one_way =
      std::all_of(all.begin(), all.end(), [&](const Kept& kept) { return way_words(kept) == way; });
  std::vector<std::string> told;
  for (const Kept& kept : all) {
    const std::string own = one_way ? "" : way_words(kept);
    told.push_back(fmt::format("{} of {}{}", kept.count, size_words(kept.size, unit),
                               own.empty() ? "" : fmt::format(" ({})", own)));
  }
  return fmt::format("Worth keeping{}: {}.", one_way && !way.empty() ? ", " + way : "", joined(told, ", "));
}

}  // namespace

std::vector<Kept> kept_of(const PaperPlan& paper) {
  std::vector<Kept> all;
  for (const LaidSheet& laid : paper.plan) {
    const CutSheet& sheet = paper.stock[laid.sheet];
    for (const Leftover& left : laid.leftovers) {
      if (!left.keep) continue;
      const Size size{left.width, left.height};
      const Kept kept{size, laid.times, keeps_up(paper), grain_of(size, sheet)};
      const auto same =
          std::find_if(all.begin(), all.end(), [&](const Kept& one) { return alike(one, kept); });
      if (same == all.end()) {
        all.push_back(kept);
      } else {
        same->count += kept.count;
      }
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Kept& a, const Kept& b) {
    return a.size.width * a.size.height > b.size.width * b.size.height;
  });
  return all;
}

std::optional<int> untouched(const PaperPlan& paper, std::size_t stock) {
  const CutSheet& sheet = paper.stock[stock];
  if (!sheet.have) return std::nullopt;
  return *sheet.have - taken(paper, stock);
}

std::string leftovers_text(const CutTelling& telling, const PaperPlan& paper) {
  const std::vector<Kept> kept = kept_of(paper);
  std::vector<std::string> whole, offcuts;
  for (std::size_t i = 0; i < paper.stock.size(); ++i) {
    const int left = untouched(paper, i).value_or(0);
    if (left < 1) continue;
    const CutSheet& sheet = paper.stock[i];
    const std::string size = size_words(sheet.size, telling.unit());
    if (sheet.is_offcut()) {
      offcuts.push_back(fmt::format("{} of {} {}", left, size, offcut_words(sheet)));
    } else {
      whole.push_back(fmt::format("{} of {}", counted(left, "sheet"), size));
    }
  }
  std::vector<std::string> told;
  if (!kept.empty()) told.push_back(kept_words(kept, telling.unit()));
  if (!whole.empty()) told.push_back(fmt::format("Not touched: {}.", joined(whole, ", ")));
  if (!offcuts.empty()) told.push_back(fmt::format("Also left: {}.", joined(offcuts, ", ")));
  return told.empty() ? "" : paragraph(joined(told, " "), 2);
}

}  // namespace evenmat
