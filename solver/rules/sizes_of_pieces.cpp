// How big a layer or window is: its size wishes, its artwork and margins, and its copies.
#include <fmt/format.h>

#include <algorithm>

#include "model/copies.h"
#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

void write_smallest(Writer& writer, const Thing& thing) {
  const Rectangle& cell = writer.rectangle(thing.cell);
  const auto least = [&](bool on_marks) { return on_marks ? writer.card().mark : Rational(0); };
  const std::string says = fmt::format("{} has a width and a height", thing.piece->name.value);
  const bool width = cell.width_on_marks;
  const bool height = cell.height_on_marks;
  const Amount amount{thing.piece->name.value, true, std::nullopt, thing.cell};
  writer.tell(writer.given(at_least(writer.width(thing.cell), least(width)), says), amount);
  writer.tell(writer.given(at_least(writer.height(thing.cell), least(height)), says), amount);
}

void write_artwork(Writer& writer, const Thing& thing) {
  const Piece& piece = *thing.piece;
  const Box art = writer.box(*thing.artwork);
  const std::string says = fmt::format("the artwork of {} is {}", piece.name.value, piece.artwork->text);
  const std::size_t wish = writer.new_wish();
  const auto write = [&](const Sum& measure, const Rational& value, NumberPart part) {
    const std::size_t rule = writer.stated(equals(measure, value), says, piece.artwork->spot, wish);
    writer.tell(rule,
                {fmt::format("the artwork of {}", piece.name.value), true, std::nullopt, *thing.artwork});
    StatedNumber number = number_of(*piece.artwork, part);
    number.artwork = true;
    writer.uses(rule, number, -1);
  };
  write(writer.width(*thing.artwork), piece.artwork->size.width, NumberPart::width);
  write(writer.height(*thing.artwork), piece.artwork->size.height, NumberPart::height);
  // Artwork lies square in its layer, so its margins are measured in the layer's own cut size.
  const Sides margins = sides_between(writer.cut_box(thing.cell), art);
  for (const Edge side : all_edges) {
    const auto wishes = wishes_for(piece.margin, side);
    if (std::any_of(wishes.begin(), wishes.end(), [](const Wish* kept) { return keeps_off(*kept); }))
      continue;
    writer.given(at_least(margins[side], 0),
                 fmt::format("the artwork of {} is never cut into", piece.name.value), piece.artwork->spot);
  }
  write_sides(writer, piece.margin, margins, fmt::format("the margin of {}", piece.name.value), thing.cell,
              [&](const std::string& other) -> std::optional<Sides> {
                if (!writer.has(other) || !writer.thing(other).artwork) return std::nullopt;
                const Thing& there = writer.thing(other);
                return sides_between(writer.cut_box(there.cell), writer.box(*there.artwork));
              });
}

}  // namespace

Spacing spacing_of(const Writer& writer, const Thing& thing) {
  const Grid grid = grid_of(*thing.piece);
  Spacing spacing;
  if (grid.columns > 1) {
    spacing.across = (writer.width(thing.body) - writer.box_width(thing.cell) * Rational(grid.columns)) *
                     Rational(1, grid.columns - 1);
  }
  if (grid.rows > 1) {
    spacing.down = (writer.height(thing.body) - writer.box_height(thing.cell) * Rational(grid.rows)) *
                   Rational(1, grid.rows - 1);
  }
  return spacing;
}

namespace {

void write_copies(Writer& writer, const Thing& thing) {
  const Piece& piece = *thing.piece;
  const std::string says = fmt::format("the copies of {} stand in a grid", piece.name.value);
  const Box body = writer.box(thing.body);
  const Box first = writer.box(thing.cell);
  writer.given(equals(body.left, first.left), says, piece.copies->spot);
  writer.given(equals(body.top, first.top), says, piece.copies->spot);
  const Spacing spacing = spacing_of(writer, thing);
  const std::size_t wish = piece.gap ? writer.new_wish() : 0;
  const auto write_gap = [&](const std::optional<Sum>& gap, const Sum& flush, const std::string& what) {
    if (!gap) {
      writer.given(equals(flush, 0), says, piece.copies->spot);
      return;
    }
    writer.given(at_least(*gap, 0), fmt::format("the copies of {} do not overlap", piece.name.value),
                 piece.copies->spot);
    if (piece.gap) {
      writer.wished(
          *piece.gap, *gap, what, wish,
          {fmt::format("each gap between copies of {}", piece.name.value), false, std::nullopt, thing.body});
    }
  };
  write_gap(spacing.across, writer.width(thing.body) - writer.box_width(thing.cell),
            fmt::format("the gap between copies of {}, side by side,", piece.name.value));
  write_gap(spacing.down, writer.height(thing.body) - writer.box_height(thing.cell),
            fmt::format("the gap between copies of {}, one below the other,", piece.name.value));
  if (piece.gap && piece.gap->even && spacing.across && spacing.down) {
    writer.stated(equals(*spacing.across, *spacing.down),
                  fmt::format("the gaps between copies of {} are even", piece.name.value), piece.gap->spot,
                  wish);
  }
}

}  // namespace

void write_sizes(Writer& writer, const Thing& thing) {
  const Piece& piece = *thing.piece;
  const std::string& name = piece.name.value;
  const Sum width = writer.width(thing.cell);
  const Sum height = writer.height(thing.cell);
  write_smallest(writer, thing);
  if (thing.body != thing.cell) write_copies(writer, thing);
  if (piece.size) {
    const std::size_t wish = writer.new_wish();
    const std::string says = fmt::format("{} is {}", name, piece.size->text);
    const auto write = [&](const Sum& measure, const Rational& value, NumberPart part) {
      const std::size_t rule = writer.stated(equals(measure, value), says, piece.size->spot, wish);
      writer.tell(rule, {name, true, std::nullopt, thing.cell});
      StatedNumber number = number_of(*piece.size, part);
      number.about = fmt::format("the {} of {}", part == NumberPart::width ? "width" : "height", name);
      writer.uses(rule, number, -1);
    };
    write(width, piece.size->size.width, NumberPart::width);
    write(height, piece.size->size.height, NumberPart::height);
  }
  const auto like = [&](const std::optional<Wish>& wish, Measure measure) -> std::optional<Sum> {
    if (!wish || !wish->same_as || !writer.has(*wish->same_as)) return std::nullopt;
    return Sum::of(variable(writer.thing(*wish->same_as).cell, measure));
  };
  if (piece.width) {
    writer.wished(*piece.width, width, fmt::format("the width of {}", name), writer.new_wish(),
                  {name, true, std::nullopt, thing.cell}, like(piece.width, Measure::width));
  }
  if (piece.height) {
    writer.wished(*piece.height, height, fmt::format("the height of {}", name), writer.new_wish(),
                  {name, true, std::nullopt, thing.cell}, like(piece.height, Measure::height));
  }
  if (piece.ratio) {
    writer.stated(equals(width, height * piece.ratio->value),
                  fmt::format("{} is {} wide to {} tall", name,
                              boost::multiprecision::numerator(piece.ratio->value).str(),
                              boost::multiprecision::denominator(piece.ratio->value).str()),
                  piece.ratio->spot, writer.new_wish());
  }
  if (thing.artwork) write_artwork(writer, thing);
}

}  // namespace evenmat::writing
