#include "cli/cut/telling.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <numeric>
#include <string_view>
#include <utility>

#include "cli/printable.h"
#include "cli/wording.h"
#include "model/length.h"

namespace evenmat {
namespace {

constexpr std::string_view no_break_space = "\u00A0";

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

std::string unbroken(std::string text) { return replaced(std::move(text), " ", no_break_space); }

}  // namespace

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

std::string layer_name(const CutTelling& telling, const PieceUse& use) {
  return telling.one_card() ? use.layer : fmt::format("{} ({})", use.layer, card_name(telling, use.card));
}

std::string kind_name(const CutPiece& piece) {
  std::vector<std::string> layers;
  for (const PieceUse& use : piece.uses) {
    if (std::find(layers.begin(), layers.end(), use.layer) == layers.end()) layers.push_back(use.layer);
  }
  return joined(layers, " or ");
}

std::string size_words(const Size& size, Unit unit) {
  return unbroken(fmt::format("{} x {}", length_text(size.width, unit), length_text(size.height, unit)));
}

std::string measure_words(const Rational& length, Unit unit) { return unbroken(length_text(length, unit)); }

std::string with_plain_blanks(std::string text) { return replaced(std::move(text), no_break_space, " "); }

Size turned(const Size& size) { return {size.height, size.width}; }

std::string exact_words(const Rational& length, Unit unit) {
  const std::string text = length_text(length, unit);
  return text.starts_with("about") ? fraction_text(length) : text;
}

// Millimetres are told as decimals, and so is what is no length.
std::string amount_words(const Rational& amount) { return length_text(amount, Unit::millimetre); }

std::string run_words(const std::set<std::size_t>& numbers,
                      const std::function<std::string(std::size_t)>& word) {
  std::vector<std::string> runs;
  for (auto first = numbers.begin(); first != numbers.end();) {
    auto last = first;
    for (auto next = std::next(first); next != numbers.end() && *next == *last + 1; ++next) last = next;
    if (*last < *first + 2) {
      runs.push_back(word(*first++));
    } else {
      runs.push_back(fmt::format("{} to {}", word(*first), word(*last)));
      first = std::next(last);
    }
  }
  return listed(runs);
}

int taken(const PaperPlan& paper, std::size_t stock) {
  int times = 0;
  for (const LaidSheet& laid : paper.plan) times += laid.sheet == stock ? laid.times : 0;
  return times;
}

}  // namespace evenmat
