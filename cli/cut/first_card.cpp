#include "cli/cut/first_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// The steps after which a piece lies free: those of all cuts of what it was part of.
std::set<std::size_t> steps_to(const LaidSheet& laid, const LaidPiece& piece) {
  std::set<std::size_t> steps;
  for (const SheetCut& cut : laid.cuts) {
    if (piece.x >= cut.x && piece.y >= cut.y && piece.x + piece.width <= cut.x + cut.width &&
        piece.y + piece.height <= cut.y + cut.height)
      steps.insert(cut.step);
  }
  return steps;
}

// So many pieces of a kind, those that are free first, of one of a letter's sheets.
struct Source {
  std::size_t laid = 0;
  int count = 0;
  std::set<std::size_t> steps;
};

Source source_in(const PaperPlan& paper, std::size_t index, std::size_t kind, int wanted) {
  const LaidSheet& laid = paper.plan[index];
  std::vector<std::set<std::size_t>> ways;
  for (const LaidPiece& piece : laid.pieces) {
    if (piece.kind == kind) ways.push_back(steps_to(laid, piece));
  }
  const auto later = [](const std::set<std::size_t>& steps) {
    return std::tuple(steps.empty() ? 0 : *steps.rbegin(), steps.size());
  };
  std::stable_sort(ways.begin(), ways.end(),
                   [&](const auto& a, const auto& b) { return later(a) < later(b); });
  Source source{index, std::min(wanted, static_cast<int>(ways.size())), {}};
  for (int i = 0; i < source.count; ++i) {
    const auto& way = ways[static_cast<std::size_t>(i)];
    source.steps.insert(way.begin(), way.end());
  }
  return source;
}

using Kinds = std::set<std::size_t>;

int kinds_in(const LaidSheet& laid, const Kinds& wanted) {
  Kinds found;
  for (const LaidPiece& piece : laid.pieces) {
    if (wanted.contains(piece.kind)) found.insert(piece.kind);
  }
  return static_cast<int>(found.size());
}

// Where most of them lie on one sheet; of sheets with as many on one that is cut already, then on one that
// gives most of all that is wanted, then in the earliest steps.
std::optional<Source> best_source(const PaperPlan& paper, std::size_t kind, int count, const Kinds& wanted,
                                  const std::set<std::size_t>& in_use) {
  std::optional<Source> best;
  const auto worth = [&](const Source& one) {
    return std::tuple(-one.count, !in_use.contains(one.laid), -kinds_in(paper.plan[one.laid], wanted),
                      one.steps);
  };
  for (std::size_t i = 0; i < paper.plan.size(); ++i) {
    const Source source = source_in(paper, i, kind, count);
    if (source.count > 0 && (!best || worth(source) < worth(*best))) best = source;
  }
  return best;
}

std::string steps_words(const std::set<std::size_t>& steps) {
  if (steps.empty()) return "as it is";
  return fmt::format("{} {}", steps.size() == 1 ? "step" : "steps",
                     run_words(steps, [](std::size_t step) { return fmt::format("{}", step); }));
}

// What one of a letter's sheets gives for the card.
struct FromSheet {
  std::vector<std::string> layers;
  std::set<std::size_t> steps;
};

// "one A, steps 1 and 2: mat; one B, as it is: base"; empty where nothing of it is for the card.
std::string sources_words(const PaperPlan& paper, std::size_t card, std::size_t version, int made) {
  std::map<std::size_t, FromSheet> sheets;
  std::set<std::size_t> in_use;
  Kinds wanted;
  for (std::size_t kind = 0; kind < paper.pieces.size(); ++kind) {
    for (const PieceUse& use : paper.pieces[kind].uses) {
      if (use.card == card && use.version == version) wanted.insert(kind);
    }
  }
  for (std::size_t kind = 0; kind < paper.pieces.size(); ++kind) {
    for (const PieceUse& use : paper.pieces[kind].uses) {
      if (use.card != card || use.version != version) continue;
      const auto source = best_source(paper, kind, std::max(1, use.count / made), wanted, in_use);
      if (!source) continue;
      in_use.insert(source->laid);
      FromSheet& sheet = sheets[source->laid];
      sheet.layers.push_back(source->count > 1 ? fmt::format("{} {}", source->count, use.layer) : use.layer);
      sheet.steps.insert(source->steps.begin(), source->steps.end());
    }
  }
  std::vector<std::string> told;
  for (const auto& [laid, sheet] : sheets) {
    told.push_back(fmt::format("one {}, {}: {}", paper.plan[laid].letter, steps_words(sheet.steps),
                               joined(sheet.layers, ", ")));
  }
  return joined(told, "; ");
}

}  // namespace

std::vector<FirstCardRow> first_card_rows(const CutTelling& telling) {
  std::vector<FirstCardRow> rows;
  if (cards_made(telling.batch) < 2) return rows;
  for (std::size_t card = 0; card < telling.cards.size(); ++card) {
    const std::vector<int>& made = telling.batch.made[card];
    const auto first = std::find_if(made.begin(), made.end(), [](int count) { return count > 0; });
    if (first == made.end()) continue;
    const auto version = static_cast<std::size_t>(first - made.begin());
    bool named = telling.one_card();
    for (const PaperPlan& paper : telling.batch.papers) {
      std::string sources = sources_words(paper, card, version, *first);
      if (sources.empty()) continue;
      if (!named) rows.push_back({card_name(telling, card), {}});
      named = true;
      rows.push_back({paper.paper, std::move(sources)});
    }
  }
  return rows;
}

std::string first_card_text(const CutTelling& telling) {
  std::string text;
  std::vector<Row> rows;  // of one card file
  for (FirstCardRow& row : first_card_rows(telling)) {
    if (row.sources.empty() && !rows.empty()) {
      text += table(rows, telling.style);
      rows.clear();
    }
    rows.push_back({.name = std::move(row.name), .note = std::move(row.sources), .indent = 2});
  }
  if (rows.empty()) return {};
  return "\n" + telling.style.strong("First card") + "\n" +
         paragraph("Cut the pieces of one card first, lay them together, and only then cut the rest.", 2) +
         text + table(rows, telling.style);
}

}  // namespace evenmat
