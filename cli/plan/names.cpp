#include "cli/plan/names.h"

#include <algorithm>
#include <utility>

#include "cli/printable.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// Of a name: a page has room for a few such.
constexpr int most_columns = 120;

// As columns of a table are counted: after z comes aa.
std::string letter_of(std::size_t index) {
  std::string letters;
  for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('a' + (rest - 1) % 26));
  return letters;
}

// With what is still to be done to it, so that nobody takes it for finished.
std::string told(const CutTelling& telling, const PieceUse& use) {
  return layer_name(telling, use) + (use.rough == Rough::none ? "" : ", rough");
}

void add_folds(const CutTelling& telling, const PieceUse& use, PlanName& name) {
  const BatchCard& card = telling.cards[use.card];
  const Folding& folding = card.sized->versions[use.version].folding;
  name.folds_down = folding.across;
  for (const ScoreLine& score : folding.scores)
    name.folds.push_back(convert(score.at, card.card->unit, telling.unit()).convert_to<double>());
}

PlanName name_of(const CutTelling& telling, const PaperPlan& paper, const LaidSheet& laid,
                 std::size_t piece) {
  const CutPiece& kind = paper.pieces[laid.pieces[piece].kind];
  std::vector<const PieceUse*> uses;
  for (const LabelledRun& run : laid.runs) {
    const PieceUse* use = &kind.uses[run.uses[piece]];
    if (std::find(uses.begin(), uses.end(), use) == uses.end()) uses.push_back(use);
  }
  if (uses.empty()) uses.push_back(&kind.uses.front());
  std::vector<std::string> names;
  for (const PieceUse* use : uses) {
    std::string one = told(telling, *use);
    if (std::find(names.begin(), names.end(), one) == names.end()) names.push_back(std::move(one));
  }
  const PieceUse& first = *uses.front();
  PlanName name;
  name.name = shortened(joined(names, " or "), most_columns);
  const LaidPiece& lies = laid.pieces[piece];
  name.size = with_plain_blanks(size_words({lies.width, lies.height}, telling.unit()));
  name.base = first.base;
  name.role = role_of(telling, first);
  name.look = first.base ? base_look() : look_of(name.role, 0.75);
  name.turned = first.turned;
  // Where one place gives bases of several folds, none of them is shown.
  if (first.base) add_folds(telling, first, name);
  for (const PieceUse* use : uses) {
    PlanName other;
    if (use->base) add_folds(telling, *use, other);
    if (other.folds != name.folds || other.folds_down != name.folds_down || use->turned != first.turned)
      name.folds.clear();
  }
  return name;
}

bool told_alike(const PlanName& a, const PlanName& b) {
  return a.name == b.name && a.size == b.size && a.base == b.base && a.folds == b.folds &&
         a.folds_down == b.folds_down && a.turned == b.turned;
}

}  // namespace

Role role_of(const CutTelling& telling, const PieceUse& use) {
  if (use.base) return Role::none;
  for (const PlacedPiece& placed : telling.cards[use.card].sized->versions[use.version].pieces) {
    if (placed.piece->name.value == use.layer) return placed.piece->role;
  }
  return Role::none;
}

PlanNames plan_names(const CutTelling& telling, const PaperPlan& paper) {
  PlanNames all;
  for (const LaidSheet& laid : paper.plan) {
    std::vector<std::size_t>& of_pieces = all.of_pieces.emplace_back();
    for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
      PlanName name = name_of(telling, paper, laid, i);
      const auto same = std::find_if(all.names.begin(), all.names.end(),
                                     [&](const PlanName& other) { return told_alike(name, other); });
      of_pieces.push_back(static_cast<std::size_t>(same - all.names.begin()));
      if (same != all.names.end()) continue;
      all.names.push_back(std::move(name));
    }
  }
  give_letters(all, {});
  return all;
}

void give_letters(PlanNames& names, const std::vector<std::size_t>& order) {
  std::vector<bool> given(names.names.size(), false);
  std::size_t next = 0;
  const auto give = [&](std::size_t name) {
    if (given[name]) return;
    given[name] = true;
    names.names[name].rank = next;
    names.names[name].letter = letter_of(next++);
  };
  for (const std::size_t name : order) give(name);
  for (std::size_t name = 0; name < names.names.size(); ++name) give(name);
}

}  // namespace evenmat
