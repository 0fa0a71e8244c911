// Pieces and their neighbours: beside, level with, clear of and over one another; what may not overlap;
// artwork that stays uncovered; and the maker's own `rules`.
#include <fmt/format.h>

#include <algorithm>

#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

// The gap between a piece and its neighbour when the piece lies on that side of it.
Sum gap_beside(const Box& piece, const Box& neighbour, Edge side) {
  switch (side) {
    case Edge::left:
      return neighbour.left - piece.right;
    case Edge::right:
      return piece.left - neighbour.right;
    case Edge::top:
      return neighbour.top - piece.bottom;
    case Edge::bottom:
      break;
  }
  return piece.top - neighbour.bottom;
}

std::string_view side_words(Edge side) {
  switch (side) {
    case Edge::left:
      return "left of";
    case Edge::right:
      return "right of";
    case Edge::top:
      return "above";
    case Edge::bottom:
      break;
  }
  return "below";
}

std::string_view line_words(Line line) {
  switch (line) {
    case Line::left:
      return "left edge";
    case Line::right:
      return "right edge";
    case Line::top:
      return "top";
    case Line::bottom:
      return "bottom";
    case Line::width:
      return "width";
    case Line::height:
      return "height";
    case Line::centre_across:
      return "centre across";
    case Line::centre_down:
      break;
  }
  return "middle";
}

void write_wished_neighbours(Writer& writer, const Thing& thing) {
  const Piece& piece = *thing.piece;
  const std::string& name = piece.name.value;
  const Box box = writer.box(thing.body);
  const std::size_t gap_wish = piece.gap ? writer.new_wish() : 0;
  for (const Beside& beside : piece.beside) {
    const Sum gap = gap_beside(box, writer.box(writer.thing(beside.name.value).body), beside.side);
    const std::size_t rule = writer.stated(
        at_least(gap, 0), fmt::format("{} is {} {}", name, side_words(beside.side), beside.name.value),
        beside.name.spot, writer.new_wish());
    if (piece.gap) {
      writer.tell_leant_on(rule);
      const std::string what = fmt::format("the gap between {} and {}", name, beside.name.value);
      writer.wished(*piece.gap, gap, what, gap_wish, {what, false, std::nullopt, thing.body});
    }
  }
  for (const LevelWith& level : piece.level_with) {
    writer.stated(
        equals(writer.measure(thing, level.line), writer.measure(writer.thing(level.name.value), level.line)),
        fmt::format("the {} of {} is level with that of {}", line_words(level.line), name, level.name.value),
        level.name.spot, writer.new_wish());
  }
  const std::size_t clear_wish = piece.clearance ? writer.new_wish() : 0;
  for (const Name& other : piece.clear_of) {
    const Rational clearance =
        piece.clearance && piece.clearance->at_least ? *piece.clearance->at_least : Rational(0);
    const std::size_t there = writer.thing(other.value).body;
    // In file order, as where the two may not overlap.
    const bool first = thing.body < there;
    const std::size_t rule = writer.stated(
        apart(writer.box(first ? thing.body : there), writer.box(first ? there : thing.body), clearance),
        piece.clearance ? fmt::format("{} keeps {} clear of {}", name, piece.clearance->text, other.value)
                        : fmt::format("{} is clear of {}", name, other.value),
        piece.clearance ? piece.clearance->spot : other.spot,
        piece.clearance ? clear_wish : writer.new_wish());
    writer.tell(rule, {fmt::format("the clearance between {} and {}", name, other.value), false, std::nullopt,
                       thing.body});
    writer.tell_apart(rule);
    for (const NumberPart part : {NumberPart::exact, NumberPart::at_least}) {
      if (!piece.clearance) break;
      auto number = number_of(*piece.clearance, part, clearance);
      if (number) number->about = fmt::format("the clearance between {} and {}", name, other.value);
      for (std::size_t way = 0; number && way < 4; ++way) writer.uses(rule, *number, 1, way);
    }
  }
}

void write_uncovered(Writer& writer, const Thing& above, const Thing& below) {
  if (!below.artwork) return;
  writer.tell_apart(writer.given(
      apart(writer.box(above.body), writer.box(*below.artwork), 0),
      fmt::format("{} does not cover the artwork of {}", above.piece->name.value, below.piece->name.value),
      above.piece->name.spot));
}

// The direction in which the maker says that `a` and `b` lie apart, as an index into gaps(a, b).
std::optional<std::size_t> stated_direction(const Piece& a, const Piece& b) {
  const auto index = [](Edge side, bool turned) -> std::size_t {
    const bool low = (side == Edge::left || side == Edge::top) != turned;
    return (is_across(side) ? 0U : 2U) + (low ? 0U : 1U);
  };
  for (const Beside& beside : a.beside) {
    if (beside.name.value == b.name.value) return index(beside.side, false);
  }
  for (const Beside& beside : b.beside) {
    if (beside.name.value == a.name.value) return index(beside.side, true);
  }
  return std::nullopt;
}

void write_pair(Writer& writer, const Thing& a, const Thing& b) {
  const Piece& first = *a.piece;
  const Piece& second = *b.piece;
  if (names(first.over, second)) return write_uncovered(writer, a, b);
  if (names(second.over, first)) return write_uncovered(writer, b, a);
  const Box box_a = writer.box(a.body);
  const Box box_b = writer.box(b.body);
  const std::size_t rule = writer.given(
      apart(box_a, box_b, 0), fmt::format("{} and {} do not overlap", first.name.value, second.name.value),
      second.name.spot);
  writer.tell_apart(rule);
  std::vector<Sum> between = gaps(box_a, box_b);
  writer.separate({rule, a.body, b.body, std::move(between), stated_direction(first, second)});
}

}  // namespace

void write_neighbours(Writer& writer) {
  const std::vector<Piece>& pieces = writer.design().pieces;
  for (const Piece& piece : pieces) {
    const Thing& thing = writer.thing(piece.name.value);
    write_wished_neighbours(writer, thing);
    const Thing& under = writer.thing(piece.on.value);
    if (under.piece != nullptr) write_uncovered(writer, thing, under);
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      if (pieces[i].kind != pieces[j].kind || pieces[i].on.value != pieces[j].on.value) continue;
      write_pair(writer, writer.thing(pieces[i].name.value), writer.thing(pieces[j].name.value));
    }
  }
}

void write_statements(Writer& writer) {
  for (const Statement& statement : writer.design().rules) {
    std::vector<std::vector<Relation>> choices;
    for (const auto& comparisons : statement.choices) {
      choices.emplace_back();
      for (const Comparison& comparison : comparisons) {
        Sum sum(comparison.constant);
        for (const StatementTerm& term : comparison.terms) {
          sum.add(writer.measure(writer.thing(term.name), term.line), term.factor);
        }
        choices.back().push_back({std::move(sum), comparison.equal});
      }
    }
    const std::size_t rule =
        writer.stated(std::move(choices), statement.text, statement.spot, writer.new_wish());
    writer.tell(rule, {fmt::format("the rule \"{}\"", statement.text), false, std::nullopt, 0});
    for (const StatementNumber& length : statement.lengths) {
      writer.uses(
          rule, {statement.spot, statement.text, statement.numbered, length.number, {}, std::nullopt, false},
          length.factor, length.choice, length.comparison);
    }
  }
}

}  // namespace evenmat::writing
