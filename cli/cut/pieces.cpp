#include "cli/cut/pieces.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// As the layer stands, whichever way its kind was counted.
Size cut_size(const CutPiece& piece, const PieceUse& use) {
  return use.turned ? turned(piece.size) : piece.size;
}

std::string rough_note(const PieceUse& use) {
  switch (use.rough) {
    case Rough::die:
      return "rough, for the die";
    case Rough::by_hand:
      return "rough, cut out by hand";
    case Rough::stamp_first:
      return "rough, to be stamped first";
    case Rough::none:
      break;
  }
  return {};
}

constexpr std::string_view may_not_turn = "may not turn", lies_turned = "lies turned";

std::string way_to_lie(const CutPile& pile) {
  if (pile.upright && pile.turned) return {};
  return std::string(pile.upright ? may_not_turn : lies_turned);
}

std::string second_pass(const PieceUse& use, Unit unit) {
  const std::string size = size_words(use.finished, unit);
  switch (use.rough) {
    case Rough::die:
      return fmt::format("the die cuts it to {}", size);
    case Rough::by_hand:
      return fmt::format("cut out by hand to {}", size);
    case Rough::stamp_first:
      return fmt::format("stamp or print it, let it dry, then trim to {}, the work in its middle", size);
    case Rough::none:
      break;
  }
  return {};
}

// So many pieces for every card of the batch, whatever its version; absent where some have more than others.
std::optional<int> for_every_card(const CutTelling& telling, const CutPile& pile) {
  const int cards = cards_made(telling.batch, pile.use.card);
  const std::vector<int>& made = telling.batch.made[pile.use.card];
  if (cards == 0 || pile.count % cards != 0) return std::nullopt;
  for (std::size_t version = 0; version < made.size(); ++version) {
    if (pile.of_versions[version] != pile.count / cards * made[version]) return std::nullopt;
  }
  return pile.count / cards;
}

// "one for every card", "only for the choir", "the plain card 7, for the choir 4"; empty of a card of one
// version.
std::string versions_words(const CutTelling& telling, const CutPile& pile) {
  if (pile.of_versions.empty()) return {};
  if (const auto each = for_every_card(telling, pile))
    return *each == 1 ? "one for every card" : fmt::format("{} for every card", *each);
  std::vector<std::string> versions;
  for (std::size_t version = 0; version < pile.of_versions.size(); ++version) {
    const int count = pile.of_versions[version];
    const std::string name = version_name(telling, pile.use.card, version);
    if (count == pile.count) return "only " + name;
    if (count > 0) versions.push_back(fmt::format("{} {}", name, count));
  }
  return joined(versions, ", ");
}

// What is said of every pile alike, and so but once; empty where it is not.
std::string said_of_all(const std::vector<CutPile>& piles,
                        const std::function<std::string(const CutPile&)>& words) {
  if (piles.size() < 2) return {};
  const std::string first = words(piles.front());
  const bool same =
      std::all_of(piles.begin(), piles.end(), [&](const CutPile& pile) { return words(pile) == first; });
  return same ? first : "";
}

// "Of each: one for every card. None of these may turn."
std::string common_words(const std::string& versions, const std::string& way) {
  std::vector<std::string> told;
  if (!versions.empty()) {
    told.push_back(
        fmt::format("{}: {}.", versions.starts_with("only ") ? "All of these" : "Of each", versions));
  }
  if (way == may_not_turn) told.emplace_back("None of these may turn.");
  if (way == lies_turned) told.emplace_back("All of these lie turned.");
  return joined(told, " ");
}

}  // namespace

std::vector<CutPile> piles_of(const CutTelling& telling, const PaperPlan& paper) {
  std::vector<CutPile> piles;
  for (const CutPiece& piece : paper.pieces) {
    for (const PieceUse& use : piece.uses) {
      const Size size = cut_size(piece, use);
      auto pile = std::find_if(piles.begin(), piles.end(), [&](const CutPile& one) {
        return one.use.card == use.card && one.use.layer == use.layer && one.use.rough == use.rough &&
               one.use.finished == use.finished && one.size == size;
      });
      const std::size_t versions = telling.cards[use.card].sized->versions.size();
      if (pile == piles.end()) {
        pile = piles.insert(
            pile, {use, size, piece.upright, piece.turned, 0, std::vector<int>(versions > 1 ? versions : 0)});
      }
      pile->count += use.count;
      if (versions > 1) pile->of_versions[use.version] += use.count;
    }
  }
  return piles;
}

std::string piles_text(const CutTelling& telling, const PaperPlan& paper) {
  const Unit unit = telling.unit();
  const std::vector<CutPile> piles = piles_of(telling, paper);
  const auto versions = [&](const CutPile& pile) { return versions_words(telling, pile); };
  const std::string of_all = said_of_all(piles, versions);
  const std::string way = said_of_all(piles, way_to_lie);
  std::vector<Row> rows;
  for (const CutPile& pile : piles) {
    std::vector<std::string> notes;
    for (const std::string& note : {of_all.empty() ? versions(pile) : std::string(), rough_note(pile.use),
                                    way.empty() ? way_to_lie(pile) : std::string()}) {
      if (!note.empty()) notes.push_back(note);
    }
    rows.push_back({.name = layer_name(telling, pile.use),
                    .cells = {fmt::format("{} of {}", pile.count, size_words(pile.size, unit))},
                    .note = joined(notes, "; "),
                    .indent = 2});
  }
  const std::string common = common_words(of_all, way);
  return table(rows, telling.style) + (common.empty() ? "" : paragraph(common, 2));
}

std::string second_pass_text(const CutTelling& telling) {
  const Unit unit = telling.unit();
  std::vector<Row> rows = {{.name = "Second pass, once the rough pieces are cut", .heading = true}};
  for (const PaperPlan& paper : telling.batch.papers) {
    for (const CutPile& pile : piles_of(telling, paper)) {
      if (pile.use.rough == Rough::none) continue;
      rows.push_back({.name = layer_name(telling, pile.use),
                      .cells = {size_words(pile.size, unit)},
                      .note = second_pass(pile.use, unit),
                      .indent = 2});
    }
  }
  return rows.size() > 1 ? "\n" + table(rows, telling.style) : "";
}

}  // namespace evenmat
