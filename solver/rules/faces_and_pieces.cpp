// Rectangles: the faces of the base, and one or more for every layer and window, with the rules that the
// paper itself gives (where a face is, that a cut size falls on a mark).
#include <fmt/format.h>

#include "model/folding.h"
#include "solver/rules/writer.h"
#include "solver/tilt.h"

namespace evenmat::writing {
namespace {

void write_face(Writer& writer, const Face& face, const std::optional<Sum>& cut) {
  const std::size_t rectangle = writer.add_rectangle(Rectangle::Kind::face, face.name);
  writer.name(face.name, {rectangle, rectangle, nullptr, std::nullopt, face.name});
  Box whole{face.left, face.top, face.left + face.whole.width, face.top + face.whole.height};
  if (cut && face.trimmed) {
    if (*face.trimmed == Edge::left) whole.left += *cut;
    if (*face.trimmed == Edge::right) whole.right -= *cut;
    if (*face.trimmed == Edge::top) whole.top += *cut;
    if (*face.trimmed == Edge::bottom) whole.bottom -= *cut;
  }
  const Box box = writer.box(rectangle);
  const std::string says = fmt::format("the size of the {}", face.name);
  writer.given(equals(box.left, whole.left), says);
  writer.given(equals(box.top, whole.top), says);
  const Amount amount{fmt::format("the {}", face.name), true, std::nullopt, rectangle};
  writer.tell(writer.given(equals(writer.width(rectangle), whole.right - whole.left), says), amount);
  writer.tell(writer.given(equals(writer.height(rectangle), whole.bottom - whole.top), says), amount);
}

// The shortest front leaf along the way it is cut back.
Rational shortest_front(const Base& base, bool across) {
  std::optional<Rational> least;
  for (const Face& face : faces(base)) {
    const Rational& length = across ? face.whole.width : face.whole.height;
    if (face.trimmed && face.depth == 0 && face.name != "reveal" && (!least || length < *least))
      least = length;
  }
  return *least;
}

// How much a cut-back takes off the front (of a gate off each door), once its reveal stands.
Sum cut_of(Writer& writer, const Face& reveal, std::size_t rectangle, bool across) {
  const Sum open =
      across ? writer.width(rectangle) - reveal.whole.width : writer.height(rectangle) - reveal.whole.height;
  return reveal.trimmed ? open : open * Rational(1, 2);
}

// Where the reveal is not as wide as what is cut off, that has a length of its own, on the marks.
void keep_on_marks(Writer& writer, const Sum& by) {
  const std::size_t strip = writer.add_rectangle(Rectangle::Kind::face, "what is cut back");
  writer.rectangle(strip).width_on_marks = true;
  const std::string says = "a cut-back is chosen on the marks";
  writer.given(equals(writer.width(strip), by), says);
  for (const Measure measure : {Measure::left, Measure::top, Measure::height})
    writer.given(equals(Sum::of(variable(strip, measure)), 0), says);
}

void write_cut_back(Writer& writer, const Face& reveal, std::size_t rectangle, bool across) {
  const CutBack& cut = *writer.design().base.cut_back;
  const Sum by = cut_of(writer, reveal, rectangle, across);
  const bool open = !cut.by.exact();
  // An open amount is chosen on the marks; whatever it is, some front is left and some reveal shows.
  const Rational least = open ? writer.card().mark : Rational(0);
  const Rational& before = across ? reveal.whole.width : reveal.whole.height;
  const bool on_marks = open && reveal.trimmed && round_down(before, writer.card().mark) == before;
  (across ? writer.rectangle(rectangle).width_on_marks : writer.rectangle(rectangle).height_on_marks) =
      on_marks;
  if (open && !on_marks) keep_on_marks(writer, by);
  const Amount amount{"the reveal", true, std::nullopt, rectangle};
  writer.tell(writer.given(at_least(by, least), "a cut-back takes something off"), amount);
  writer.tell(writer.given(at_most(by, shortest_front(writer.design().base, across) - least),
                           "a cut-back leaves some of the front"),
              {"the front", true, std::nullopt, rectangle});
  writer.wished(cut.by, by, "the cut-back", writer.new_wish(), amount);
}

// The strip of the page behind that the front lays open. Gives what a cut-back takes off.
std::optional<Sum> write_reveal(Writer& writer, const Face& reveal) {
  const Base& base = writer.design().base;
  const std::size_t rectangle = writer.add_rectangle(Rectangle::Kind::face, "reveal");
  writer.name("reveal", {rectangle, rectangle, nullptr, std::nullopt, face_of(writer.design(), "reveal")});
  const bool gate = base.fold.value == Fold::gate;
  const bool across = base.cut_back && !gate ? is_across(base.cut_back->edge) : folds_across(base);
  const Box box = writer.box(rectangle);
  const std::string says = base.cut_back && !gate ? "the reveal is what the cut-back front lays open"
                                                  : "the reveal is what the front lays open";
  std::optional<Sum> by;
  if (base.cut_back) by = cut_of(writer, reveal, rectangle, across);
  const auto fixed = [&](const Sum& low, const Sum& high, const Rational& from, const Rational& length,
                         bool moves, Edge low_edge) {
    if (moves && gate) {
      writer.given(equals(low, from - *by), says);
    } else if (moves && reveal.trimmed == low_edge) {
      writer.given(equals(high, from + length), says);
    } else {
      writer.given(equals(low, from), says);
    }
  };
  const bool moves = base.cut_back.has_value();
  fixed(box.left, box.right, reveal.left, reveal.whole.width, moves && across, Edge::left);
  fixed(box.top, box.bottom, reveal.top, reveal.whole.height, moves && !across, Edge::top);
  const Amount amount{"the reveal", true, std::nullopt, rectangle};
  if (!moves || !across)
    writer.tell(writer.given(equals(writer.width(rectangle), reveal.whole.width), says), amount);
  if (!moves || across)
    writer.tell(writer.given(equals(writer.height(rectangle), reveal.whole.height), says), amount);
  if (moves) write_cut_back(writer, reveal, rectangle, across);
  return by;
}

// Dies and bought pieces come in the sizes they have, and ink is not cut.
bool falls_on_marks(const Piece& piece) {
  return piece.kind == Piece::Kind::window ||
         (piece.cut != Cut::die && piece.cut != Cut::ready_made && !piece.stamped);
}

}  // namespace

void write_faces(Writer& writer) {
  const std::vector<Face> all = faces(writer.design().base);
  std::optional<Sum> cut;
  for (const Face& face : all) {
    if (face.name == "reveal") cut = write_reveal(writer, face);
  }
  for (const Face& face : all) {
    if (face.name != "reveal") write_face(writer, face, cut);
  }
}

void add_pieces(Writer& writer) {
  for (const Piece& piece : writer.design().pieces) {
    const auto kind = piece.kind == Piece::Kind::window ? Rectangle::Kind::window : Rectangle::Kind::layer;
    Thing thing;
    thing.piece = &piece;
    thing.cell = writer.add_rectangle(kind, piece.name.value);
    thing.body = thing.cell;
    thing.face = face_of(writer.design(), piece.on.value);
    Rectangle& cell = writer.rectangle(thing.cell);
    cell.width_on_marks = cell.height_on_marks = falls_on_marks(piece);
    if (piece.tilt) {
      const TiltBounds bounds = tilt_bounds(piece.tilt->value);
      cell.box_cos = bounds.cos;
      cell.box_sin = bounds.sin;
    }
    if (piece.copies && piece.copies->value > 1) {
      thing.body = writer.add_rectangle(Rectangle::Kind::copies, piece.name.value);
    }
    if (piece.artwork) {
      thing.artwork = writer.add_rectangle(Rectangle::Kind::artwork, piece.name.value);
    }
    writer.name(piece.name.value, thing);
  }
  for (const Piece& piece : writer.design().pieces) {
    const Thing& thing = writer.thing(piece.name.value);
    const std::size_t under = writer.thing(piece.on.value).cell;
    writer.rectangle(thing.cell).on = under;
    writer.rectangle(thing.body).on = under;
    if (thing.artwork) writer.rectangle(*thing.artwork).on = thing.cell;
  }
}

}  // namespace evenmat::writing
