#include "cli/worksheet/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "cli/closed_words.h"
#include "cli/cut/telling.h"
#include "cli/figure/figure.h"
#include "cli/figure/scene.h"
#include "cli/making.h"
#include "cli/wording.h"
#include "cli/worksheet/assembly.h"
#include "cli/worksheet/units.h"

namespace evenmat {
namespace {

constexpr double between_pictures = 14;

std::string numbers(const std::set<Rational>& lengths, Unit unit) {
  std::vector<std::string> texts;
  for (const Rational& length : lengths) texts.push_back(ruler_length(length, unit));
  return joined(texts, ", ");
}

std::string copies_words(const PlacedPiece& placed, Unit unit) {
  std::set<Rational> lefts;
  std::set<Rational> tops;
  for (const auto& [left, top] : placed.copies) {
    lefts.insert(left);
    tops.insert(top);
  }
  return fmt::format("{} alike: {} from the left, {} from the top", placed.copies.size(),
                     numbers(lefts, unit), numbers(tops, unit));
}

std::string tilt_words(const Rational& degrees) {
  const Rational amount = degrees < 0 ? Rational(-degrees) : degrees;
  return fmt::format("tilted {} {} {}, places to its outermost corners",
                     length_text(amount, Unit::millimetre), amount == 1 ? "degree" : "degrees",
                     degrees < 0 ? "anticlockwise" : "clockwise");
}

std::string capital(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

}  // namespace

Type body_type() { return {.size = 8.5}; }

void add_pictures(Flow& flow, const Card& card, const Design& design, const SizedVersion& version,
                  double most_height) {
  const std::optional<Scene> open = open_scene(card, design, version);
  // Labels stand beside the picture, so that the opened card, which is wider, takes more of the page.
  // The labels tell the sizes, and a table the places.
  const FigureStyle style{.measures = false};
  flow.figure(std::min(flow.whole_height() / 3, most_height), 6, [&](const Box& room) {
    const double closed_width = open ? (room.width - between_pictures) * 0.46 : room.width;
    Figure both = figure_of(closed_scene(card, design, version), card.unit,
                            {room.left, room.top, closed_width, room.height}, style);
    if (!open) return both;
    const double from = room.left + closed_width + between_pictures;
    const Figure opened =
        figure_of(*open, card.unit, {from, room.top, room.right() - from, room.height}, style);
    both.marks.insert(both.marks.end(), opened.marks.begin(), opened.marks.end());
    both.room.height = std::max(both.room.height, opened.room.height);
    return both;
  });
}

std::vector<std::string> closed_sentences(const Card& card, const SizedVersion& version) {
  std::vector<std::string> sentences;
  if (!version.closed) return sentences;
  const ClosedCard& closed = *version.closed;
  const auto size = [&](const Size& one) {
    return fmt::format("{} {}", size_words(one, card.unit), unit_name(card.unit));
  };
  const bool folded = version.folding.leaves.size() > 1;
  std::string first = fmt::format("{} {}", folded ? "Closed" : "The card is", size(closed.front));
  if (closed.over_all != closed.front) first += fmt::format(", over all {}", size(closed.over_all));
  if (folded) first += fmt::format("; opened out {}", size(version.folding.blank));
  sentences.push_back(first + ".");
  const std::string thickness = thickness_words(closed, card.unit);
  const std::string weight = weight_words(closed, card.unit);
  if (!thickness.empty()) {
    sentences.push_back(capital(thickness) + (weight.empty() ? "." : fmt::format("; it weighs {}.", weight)));
  } else if (!weight.empty()) {
    sentences.push_back(fmt::format("It weighs {}.", weight));
  }
  const std::string lacking = not_counted_words(closed);
  if (!lacking.empty()) sentences.push_back(lacking);
  for (std::string& one : asked_mail_briefly(version.mail)) sentences.push_back(std::move(one));
  // Of a card of which no thickness is known that would promise too much.
  const std::string offered = closed.thickness > 0 ? offered_envelopes(version.mail) : "";
  if (!offered.empty()) sentences.push_back(offered);
  return sentences;
}

std::string on_words(const Design& design, const Piece& piece) {
  const std::string& on = piece.on.value;
  if (piece.kind == Piece::Kind::window) return "cut in " + on;
  const bool in_window = std::any_of(design.pieces.begin(), design.pieces.end(), [&](const Piece& other) {
    return other.kind == Piece::Kind::window && other.name.value == on;
  });
  return (!in_window ? "on " : piece.tuck ? "behind " : "in the opening of ") + on;
}

std::string place_note(const Card& card, const PlacedPiece& placed) {
  const Piece& piece = *placed.piece;
  std::vector<std::string> parts;
  if (piece.stamped) parts.emplace_back("stamped on");
  if (!placed.copies.empty()) parts.push_back(copies_words(placed, card.unit));
  if (piece.tilt && piece.tilt->value != 0) parts.push_back(tilt_words(piece.tilt->value));
  if (placed.artwork_at && piece.artwork) {
    parts.push_back(fmt::format("artwork {} {}: {} from its left, {} from its top",
                                ruler_size(piece.artwork->size, card.unit), unit_name(card.unit),
                                ruler_length(placed.artwork_at->first, card.unit),
                                ruler_length(placed.artwork_at->second, card.unit)));
  }
  if (piece.raised && piece.raised->value > 0)
    parts.push_back("on foam of " + length_with_unit(piece.raised->value, card.unit));
  std::vector<std::string> lower;
  for (const Name& one : piece.over) lower.push_back(one.value);
  if (!lower.empty()) parts.push_back("over " + listed(lower));
  return joined(parts, "; ");
}

void add_numbered(Flow& flow, const std::vector<std::string>& sentences) {
  constexpr double number_width = 22;
  const std::vector<Column> columns = {{number_width, Align::right},
                                       {flow.width() - number_width - Flow::row_indent}};
  for (std::size_t i = 0; i < sentences.size(); ++i)
    flow.row(columns, {fmt::format("{}.", i + 1), sentences[i]}, body_type(), true);
}

void add_making(Flow& flow, const Card& card, const Design& design, const SizedVersion& version) {
  const Making making = making_of(card, design, version);
  add_numbered(flow, making.order);
  if (making.lies.empty()) return;
  flow.space(3);
  for (const std::string& line : making.lies) flow.paragraph(line, body_type(), Flow::row_indent);
}

void add_assembly(Flow& flow, const Card& card, const Design& design, const SizedVersion& version) {
  std::vector<std::string> sentences;
  for (AssemblyStep& step : assembly_of(card, design, version)) sentences.push_back(std::move(step.says));
  add_numbered(flow, sentences);
}

std::vector<std::string> heat_cautions() {
  return {
      "Windows and corners: a sharp knife along a metal rule, on a mat made to be cut on, the other hand "
      "behind "
      "it; the blade covered when it is not in hand.",
      "Adhesives and inks: an open window, off the skin, closed when done. Heat tools: away from what burns, "
      "never left on unwatched. Use each as its maker says.",
      "Beginners and children cut, glue and heat only beside someone who knows the tool; in a school or a "
      "workplace its own rules come first."};
}

}  // namespace evenmat
