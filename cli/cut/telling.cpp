#include "cli/cut/telling.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "cli/printable.h"
#include "cli/wording.h"
#include "model/length.h"

namespace evenmat {

int cards_made(const CutBatch& batch, std::size_t card) {
  if (card >= batch.made.size()) return 0;
  return std::accumulate(batch.made[card].begin(), batch.made[card].end(), 0);
}

int cards_made(const CutBatch& batch) {
  int all = 0;
  for (std::size_t card = 0; card < batch.made.size(); ++card) all += cards_made(batch, card);
  return all;
}

std::string card_name(const CutTelling& telling, std::size_t card) {
  const std::string& title = telling.cards[card].card->title;
  const auto same = std::count_if(telling.cards.begin(), telling.cards.end(),
                                  [&](const BatchCard& other) { return other.card->title == title; });
  return title.empty() || same > 1 ? printable(telling.cards[card].file) : title;
}

std::string version_name(const CutTelling& telling, std::size_t card, std::size_t version) {
  return version == 0 ? "the plain card" : telling.cards[card].sized->versions[version].name;
}

std::string pile_name(const CutTelling& telling, const PieceUse& use) {
  std::vector<std::string> of;
  if (telling.cards[use.card].sized->versions.size() > 1)
    of.push_back(version_name(telling, use.card, use.version));
  if (!telling.one_card()) of.push_back(card_name(telling, use.card));
  return of.empty() ? use.layer : fmt::format("{} ({})", use.layer, joined(of, ", "));
}

std::string kind_name(const CutPiece& piece) {
  std::vector<std::string> layers;
  for (const PieceUse& use : piece.uses) {
    if (std::find(layers.begin(), layers.end(), use.layer) == layers.end()) layers.push_back(use.layer);
  }
  return joined(layers, " or ");
}

std::string size_words(const Size& size, Unit unit) {
  return fmt::format("{} x {}", length_text(size.width, unit), length_text(size.height, unit));
}

Size turned(const Size& size) { return {size.height, size.width}; }

// Millimetres are told as decimals, and so is what is no length.
std::string amount_words(const Rational& amount) { return length_text(amount, Unit::millimetre); }

int taken(const PaperPlan& paper, std::size_t stock) {
  int times = 0;
  for (const LaidSheet& laid : paper.plan) times += laid.sheet == stock ? laid.times : 0;
  return times;
}

}  // namespace evenmat
