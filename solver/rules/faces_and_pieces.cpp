// Rectangles: the faces of the base, and one or more for every layer and window, with the rules that the
// paper itself gives (where a face is, that a cut size falls on a mark).
#include <fmt/format.h>

#include "solver/rules/writer.h"
#include "solver/tilt.h"

namespace evenmat::writing {
namespace {

void write_face(Writer& writer, const Face& face, const std::optional<std::size_t>& reveal) {
  const std::size_t rectangle = writer.add_rectangle(Rectangle::Kind::face, face.name);
  writer.name(face.name, {rectangle, rectangle, nullptr, std::nullopt, face.name});
  Box whole{0, 0, Sum(face.whole.width), Sum(face.whole.height)};
  if (reveal && face.trimmed) {
    const Sum cut = is_across(*face.trimmed) ? writer.width(*reveal) : writer.height(*reveal);
    if (*face.trimmed == Edge::left) whole.left += cut;
    if (*face.trimmed == Edge::right) whole.right -= cut;
    if (*face.trimmed == Edge::top) whole.top += cut;
    if (*face.trimmed == Edge::bottom) whole.bottom -= cut;
  }
  const Box box = writer.box(rectangle);
  const std::string says = fmt::format("the size of the {}", face.name);
  writer.given(equals(box.left, whole.left), says);
  writer.given(equals(box.top, whole.top), says);
  const Amount amount{fmt::format("the {}", face.name), true, std::nullopt, rectangle};
  writer.tell(writer.given(equals(writer.width(rectangle), whole.right - whole.left), says), amount);
  writer.tell(writer.given(equals(writer.height(rectangle), whole.bottom - whole.top), says), amount);
}

// The strip of the inside that a cut-back front lays open.
std::size_t write_reveal(Writer& writer, const CutBack& cut, const Size& front) {
  const std::size_t rectangle = writer.add_rectangle(Rectangle::Kind::face, "reveal");
  writer.name("reveal", {rectangle, rectangle, nullptr, std::nullopt, "inside"});
  const bool across = is_across(cut.edge);
  const Box box = writer.box(rectangle);
  const std::string says = "the reveal is what the cut-back front lays open";
  writer.given(cut.edge == Edge::right ? equals(box.right, front.width) : equals(box.left, 0), says);
  writer.given(cut.edge == Edge::bottom ? equals(box.bottom, front.height) : equals(box.top, 0), says);
  const Amount amount{"the reveal", true, std::nullopt, rectangle};
  writer.tell(writer.given(across ? equals(writer.height(rectangle), front.height)
                                  : equals(writer.width(rectangle), front.width),
                           says),
              amount);
  const Sum by = across ? writer.width(rectangle) : writer.height(rectangle);
  const Rational& whole = across ? front.width : front.height;
  const bool open = !cut.by.exact();
  // An open amount is chosen on the marks; whatever it is, some front is left and some reveal shows.
  const Rational least = open ? writer.card().mark : Rational(0);
  (across ? writer.rectangle(rectangle).width_on_marks : writer.rectangle(rectangle).height_on_marks) = open;
  writer.tell(writer.given(at_least(by, least), "a cut-back takes something off"), amount);
  writer.tell(writer.given(at_most(by, whole - least), "a cut-back leaves some of the front"),
              {"the front", true, std::nullopt, rectangle});
  writer.wished(cut.by, by, "the cut-back", writer.new_wish(), amount);
  return rectangle;
}

// Dies and bought pieces come in the sizes they have, and ink is not cut.
bool falls_on_marks(const Piece& piece) {
  return piece.kind == Piece::Kind::window ||
         (piece.cut != Cut::die && piece.cut != Cut::ready_made && !piece.stamped);
}

}  // namespace

void write_faces(Writer& writer) {
  const Base& base = writer.design().base;
  std::optional<std::size_t> reveal;
  if (base.cut_back) reveal = write_reveal(writer, *base.cut_back, base.front.size);
  for (const Face& face : faces(base)) {
    if (face.name != "reveal") write_face(writer, face, reveal);
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
