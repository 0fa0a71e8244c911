#include "solver/batch/stock.h"

#include <algorithm>
#include <set>
#include <utility>

#include "solver/batch/things.h"

namespace evenmat::batch {
namespace {

CutSheet sheet_of(const Paper& paper, const std::string& file, Unit from, Unit to) {
  CutSheet sheet;
  const Size& size = paper.sheet->size;
  sheet.size = {convert(size.width, from, to), convert(size.height, from, to)};
  if (paper.have) sheet.have = paper.have->value;
  if (paper.cost) sheet.cost = paper.cost->value;
  if (paper.trim_first) sheet.trim_first = convert(paper.trim_first->value, from, to);
  sheet.file = file;
  sheet.spot = paper.sheet->spot;
  sheet.up = paper.up;
  if (paper.grain) sheet.grain = paper.grain->value;
  return sheet;
}

bool may_turn(const CutSheet& sheet) { return !sheet.up && sheet.trim_first == 0; }

Size turned(const Size& size) { return {size.height, size.width}; }

// A square's height counts as its longer side however it lies, so its grain is told anew.
void turn(CutSheet& sheet) {
  const bool square = sheet.size.width == sheet.size.height;
  if (square) sheet.grain = sheet.grain == "long" ? "short" : "long";
  sheet.size = turned(sheet.size);
}

// One maker writes the same sheet upright and another lying.
bool one_size(const CutSheet& a, const CutSheet& b) {
  return a.size == b.size || (a.size == turned(b.size) && may_turn(a) && may_turn(b));
}

void add_what_is_said(CutSheet& sheet, const CutSheet& by_another) {
  if (!sheet.have) sheet.have = by_another.have;
  if (!sheet.cost) sheet.cost = by_another.cost;
  if (sheet.trim_first == 0) sheet.trim_first = by_another.trim_first;
  if (sheet.grain.empty()) sheet.grain = by_another.grain;
  sheet.up = sheet.up || by_another.up;
}

void add_entries(std::vector<Stack>& stacks, const std::vector<BatchCard>& cards, std::size_t card,
                 const std::string& name) {
  std::set<std::size_t> counted;  // stacks that this file has an entry for
  const std::size_t before = stacks.size();
  for (const Paper& paper : cards[card].card->papers) {
    if (paper.name.value != name || !paper.sheet) continue;
    CutSheet sheet = sheet_of(paper, cards[card].file, cards[card].card->unit, unit_of(cards));
    std::size_t same = 0;
    while (same < before && (counted.contains(same) || !one_size(stacks[same].sheet, sheet))) ++same;
    if (same == before) {
      stacks.push_back({std::move(sheet), {{card, &paper}}});
    } else {
      counted.insert(same);
      add_what_is_said(stacks[same].sheet, sheet);
      stacks[same].entries.push_back({card, &paper});
    }
  }
}

bool any_up(const std::vector<Paper>& papers, const std::string& name) {
  return std::any_of(papers.begin(), papers.end(),
                     [&](const Paper& paper) { return paper.name.value == name && paper.up; });
}

}  // namespace

std::vector<Stack> stacks_of(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                             const std::string& paper) {
  std::vector<Stack> stacks;
  for (std::size_t c = 0; c < cards.size(); ++c) add_entries(stacks, cards, c, paper);
  for (const MorePaper& file : more) {
    for (const Paper& left_over : file.papers) {
      if (left_over.name.value != paper || !left_over.sheet) continue;
      stacks.push_back({sheet_of(left_over, file.file, file.unit, unit_of(cards)), {}});
      stacks.back().sheet.from = CutSheet::From::more;
    }
  }
  return stacks;
}

bool keeps_up(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
              const std::string& paper) {
  return std::any_of(cards.begin(), cards.end(),
                     [&](const BatchCard& card) { return any_up(card.card->papers, paper); }) ||
         std::any_of(more.begin(), more.end(),
                     [&](const MorePaper& file) { return any_up(file.papers, paper); });
}

bool grain_runs_down(const CutSheet& sheet) {
  return (sheet.size.height >= sheet.size.width) == (sheet.grain == "long");
}

std::optional<bool> lay_along_grain(std::vector<Stack>& stacks, bool up) {
  std::optional<bool> down;
  // The first that cannot turn settles it for the others.
  for (const bool untrue : {true, false}) {
    for (const Stack& stack : stacks) {
      if (down || stack.sheet.grain.empty() || (stack.sheet.trim_first > 0) != untrue) continue;
      down = grain_runs_down(stack.sheet);
    }
  }
  for (Stack& stack : stacks) {
    if (up || stack.sheet.grain.empty() || stack.sheet.trim_first > 0) continue;
    if (grain_runs_down(stack.sheet) != *down) turn(stack.sheet);
  }
  return down;
}

}  // namespace evenmat::batch
