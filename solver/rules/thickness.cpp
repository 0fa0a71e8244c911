// How thick the closed card may be. Foam and adhesive are lengths that the maker states and can change, so
// each has a variable of its own, and so has the thickness of the card; every pile that is too thick as
// stated must come to no more than that, or some of it must lie apart.
#include <fmt/format.h>

#include "model/folding.h"
#include "solver/rules/piles.h"
#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

// As paper and foam are told: thousandths of an inch, or hundredths of a millimetre.
Rational step_of(Unit unit) { return unit == Unit::inch ? Rational(1, 1000) : Rational(1, 100); }

struct Stuff {
  std::size_t card = 0;                      // the rectangle whose width is what the card may come to
  std::map<std::size_t, std::size_t> under;  // by solid: the one with its foam and adhesive
};

void hold_at_zero(Writer& writer, std::size_t rectangle, std::initializer_list<Measure> measures) {
  for (const Measure measure : measures)
    writer.given(equals(Sum::of(variable(rectangle, measure)), 0), "thickness has no place");
}

std::size_t state(Writer& writer, Relation relation, const std::string& says, const StatedLength& length,
                  const Amount& amount, const std::string& about) {
  const std::size_t rule = writer.stated(std::move(relation), says, length.spot, writer.new_wish());
  writer.tell(rule, amount);
  writer.uses(
      rule,
      {length.spot, length.text, length.numbered, 0, about, Rational(0), false, step_of(writer.card().unit)},
      -1);
  return rule;
}

Stuff write_stuff(Writer& writer, const Piles& piles) {
  Stuff stuff;
  stuff.card = writer.add_rectangle(Rectangle::Kind::thickness, "the closed card");
  hold_at_zero(writer, stuff.card, {Measure::left, Measure::top, Measure::height});
  const StatedLength& limit = *writer.design().limit.thickness;
  state(writer, equals(writer.width(stuff.card), limit.value),
        fmt::format("the closed card is at most {} thick", limit.text), limit,
        {"the closed card", true, std::nullopt, stuff.card}, "the thickness of the closed card");
  for (std::size_t i = 0; i < piles.solids.size(); ++i) {
    const Solid& solid = piles.solids[i];
    if (!solid.piece) continue;
    const Piece& piece = writer.design().pieces[*solid.piece];
    if (!piece.raised && !piece.adhesive) continue;
    const std::size_t under = writer.add_rectangle(Rectangle::Kind::thickness, piece.name.value);
    writer.rectangle(under).on = stuff.card;
    stuff.under.emplace(i, under);
    hold_at_zero(writer, under, {Measure::left, Measure::top});
    const auto add = [&](const std::optional<StatedLength>& length, Measure measure, const char* what,
                         const char* says) {
      const Sum thickness = Sum::of(variable(under, measure));
      if (!length) {
        writer.given(equals(thickness, 0), "nothing is under it");
        return;
      }
      writer.given(at_least(thickness, 0), "foam and adhesive have a thickness");
      const std::string of = fmt::format("the {} under {}", what, piece.name.value);
      state(writer, equals(thickness, length->value),
            fmt::format(fmt::runtime(says), piece.name.value, length->text), *length,
            {of, false, std::nullopt, under}, of);
    };
    add(piece.raised, Measure::width, "foam", "{} is raised {}");
    add(piece.adhesive, Measure::height, "adhesive", "the adhesive under {} is {} thick");
  }
  return stuff;
}

Box box_of(Writer& writer, const Solid& solid) {
  if (solid.leaf) {
    const Folding folding = folding_of(writer.design().base);
    return writer.box(writer.thing(folding.leaves[*solid.leaf].toward).cell);
  }
  return closed_box(writer, writer.thing(writer.design().pieces[*solid.piece].name.value));
}

void write_pile(Writer& writer, const Piles& piles, const Pile& pile, const Stuff& stuff) {
  Sum thickness;
  std::vector<std::string> of;
  for (const std::size_t i : pile.solids) {
    const Solid& solid = piles.solids[i];
    thickness += Sum(solid.paper);
    if (const auto under = stuff.under.find(i); under != stuff.under.end())
      thickness += writer.width(under->second) + writer.height(under->second);
    if (solid.piece && solid.paper > 0) of.push_back(writer.design().pieces[*solid.piece].name.value);
    if (solid.leaf) of.push_back("the " + folding_of(writer.design().base).leaves[*solid.leaf].name);
  }
  std::string told;
  for (std::size_t i = 0; i < of.size(); ++i)
    told += (i == 0 ? "" : i + 1 == of.size() ? " and " : ", ") + of[i];
  std::vector<std::vector<Relation>> choices{{at_most(thickness, writer.width(stuff.card))}};
  for (const auto& [a, b] : pile.may_part) {
    for (auto& way : apart(box_of(writer, piles.solids[a]), box_of(writer, piles.solids[b]), 0))
      choices.push_back(std::move(way));
  }
  for (const InWindow& place : pile.may_be_in) {
    const Box box = box_of(writer, piles.solids[place.solid]);
    const Box window = closed_box(writer, writer.thing(writer.design().pieces[place.window].name.value));
    choices.push_back({at_least(box.left, window.left), at_most(box.right, window.right),
                       at_least(box.top, window.top), at_most(box.bottom, window.bottom)});
  }
  const std::size_t rule =
      writer.given(std::move(choices), "papers, foam and adhesive over one another add up");
  writer.tell(rule, {fmt::format("the paper of {}", told), false, std::nullopt, stuff.card});
}

}  // namespace

void write_thickness(Writer& writer, PileSet set) {
  const auto& limit = writer.design().limit.thickness;
  if (!limit) return;
  const auto piles = piles_over(writer.card(), writer.design(), limit->value);
  if (!piles || piles->piles.empty()) return;
  const Stuff stuff = write_stuff(writer, *piles);
  for (const Pile& pile : chosen_piles(*piles, set)) write_pile(writer, *piles, pile, stuff);
}

}  // namespace evenmat::writing
