#include "solver/explore/stated.h"

#include <algorithm>
#include <initializer_list>

namespace evenmat::exploring {
namespace {

Wish exactly(const Rational& value, Spot spot) {
  Wish wish;
  wish.at_least = wish.at_most = value;
  wish.spot = spot;
  // By its number a wish is known to be an exact one.
  wish.text = fraction_text(value);
  wish.numbered = {wish.text, {{NumberPart::exact, value, 0, wish.text.size()}}};
  return wish;
}

void replace(std::optional<Wish>& wish, Spot spot, const Rational& value) {
  if (wish && wish->spot == spot) wish = exactly(value, spot);
}

void replace_in_sides(SideWishes& sides, Spot spot, const Rational& value) {
  for (auto* wish :
       {&sides.all, &sides.left, &sides.right, &sides.top, &sides.bottom, &sides.across, &sides.down})
    replace(*wish, spot, value);
}

void replace_in_piece(Piece& piece, Spot spot, const Rational& value) {
  replace_in_sides(piece.border, spot, value);
  replace_in_sides(piece.margin, spot, value);
  for (auto* wish : {&piece.frame, &piece.width, &piece.height, &piece.from_left, &piece.from_right,
                     &piece.from_top, &piece.from_bottom, &piece.gap, &piece.tuck})
    replace(*wish, spot, value);
}

// What a layer says nothing about: it is said now, unless a variant says it otherwise.
void add_to_piece(Piece& piece, const OpenAmount& open, const Rational& value) {
  if (piece.name.value != open.name) return;
  const Wish wish = exactly(value, {});
  if (open.key == "border" && !piece.border.any()) piece.border.all = wish;
  if (open.key == "margin" && !piece.margin.any()) piece.margin.all = wish;
  if (open.key == "width" && !piece.width) piece.width = wish;
  if (open.key == "height" && !piece.height) piece.height = wish;
}

void take_way(Design& design, const OpenAmount& open, const Rational& value) {
  for (Statement& statement : design.rules) {
    if (statement.spot != open.spot) continue;
    const auto way = static_cast<std::size_t>(value);
    if (way >= statement.choices.size()) continue;
    std::vector<Comparison> taken = std::move(statement.choices[way]);
    statement.choices = {std::move(taken)};
    statement.lengths.clear();  // they say which number a change would be offered of, and none is
  }
}

void state(Design& design, const Amount& amount, const Rational& value) {
  const OpenAmount& open = amount.open;
  if (!amount.rules.empty()) return take_way(design, open, value);
  if (open.key == "cut-back" && design.base.cut_back && design.base.cut_back->by.spot == open.spot)
    design.base.cut_back->by = exactly(value, open.spot);
  for (Piece& piece : design.pieces) {
    if (open.spot.line > 0) {
      replace_in_piece(piece, open.spot, value);
    } else {
      add_to_piece(piece, open, value);
    }
  }
}

}  // namespace

Card with_stated(const Card& card, const std::vector<Amount>& amounts, const std::vector<Rational>& values) {
  Card stated = card;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    state(stated.design, amounts[i], values[i]);
    for (Variant& variant : stated.variants) state(variant.design, amounts[i], values[i]);
  }
  return stated;
}

}  // namespace evenmat::exploring
