// How what is not stated is chosen: the preferences of each step. The steps and their order are the card
// language's; the exact readings are in the contributors' guide.
#include <algorithm>

#include "solver/rules/bare.h"
#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

// 1/8 in (3 mm) on a face, reveal or window, 1/16 in (2 mm) on a layer: common practice, no source.
Rational usual_border(const Writer& writer, const Thing& under) {
  const bool on_layer = under.piece != nullptr && under.piece->kind == Piece::Kind::layer;
  if (writer.card().unit == Unit::millimetre) return on_layer ? 2 : 3;
  return on_layer ? Rational(1, 16) : Rational(1, 8);
}

// Wished, but to no one value.
bool is_open(const SideWishes& wishes, Edge side) {
  const auto found = wishes_for(wishes, side);
  return !found.empty() &&
         std::none_of(found.begin(), found.end(), [](const Wish* wish) { return wish->exact().has_value(); });
}

void aim_at_border(Writer& writer, const Sum& distance, const Rational& usual) {
  writer.aim(Step::usual_border, distance - usual);
  writer.aim(Step::on_marks, distance);
}

void aim_borders(Writer& writer, const Thing& thing) {
  const Piece& piece = *thing.piece;
  const Sides sides = sides_of(writer, thing);
  const Rational usual = usual_border(writer, writer.thing(piece.on.value));
  const auto open = [&](Edge side) { return is_open(piece.border, side); };
  const bool bare = states_nothing(writer.design(), piece);
  if (open(Edge::left) && open(Edge::right)) writer.aim(Step::even_sides, sides.left - sides.right);
  if (open(Edge::top) && open(Edge::bottom)) writer.aim(Step::even_sides, sides.top - sides.bottom);
  for (const Edge side : all_edges) {
    if (open(side) || bare) aim_at_border(writer, sides[side], usual);
  }
  if (thing.body == thing.cell || (piece.gap && piece.gap->exact())) return;
  const Spacing spacing = spacing_of(writer, thing);
  if (spacing.across) aim_at_border(writer, *spacing.across, usual);
  if (spacing.down) aim_at_border(writer, *spacing.down, usual);
}

// An open cut-back is a size like any other: what is left of the front, and what it lays open.
void aim_cut_back(Writer& writer) {
  const Base& base = writer.design().base;
  if (!base.cut_back || base.cut_back->by.exact()) return;
  const auto dimension = [&](const std::string& face) {
    const std::size_t rectangle = writer.thing(face).cell;
    return is_across(base.cut_back->edge) ? writer.width(rectangle) : writer.height(rectangle);
  };
  std::vector<std::string> fronts;
  for (const Face& face : faces(base)) {
    if (face.trimmed && face.depth == 0 && face.turned == Turned::no && face.name != "reveal")
      fronts.push_back(face.name);
  }
  for (const std::string& front : fronts) writer.aim(Step::sizes, dimension(front));
  writer.aim(Step::sizes, dimension("reveal"));
  for (const std::string& front : fronts) writer.aim(Step::larger_first, dimension(front));
}

void aim_spaces(Writer& writer, const Thing& thing) {
  const Sides sides = sides_of(writer, thing);
  for (const Edge side : all_edges) writer.aim(Step::spaces, sides[side]);
  if (thing.body != thing.cell) {
    const Spacing spacing = spacing_of(writer, thing);
    if (spacing.across) writer.aim(Step::spaces, *spacing.across);
    if (spacing.down) writer.aim(Step::spaces, *spacing.down);
  }
  if (thing.artwork) {
    const Sides margins = sides_between(writer.cut_box(thing.cell), writer.box(*thing.artwork));
    for (const Edge side : all_edges) writer.aim(Step::spaces, margins[side]);
  }
}

}  // namespace

void write_aims(Writer& writer) {
  aim_cut_back(writer);
  std::vector<std::size_t> late;
  for (const Piece& piece : writer.design().pieces) {
    const Thing& thing = writer.thing(piece.name.value);
    const Sum width = writer.width(thing.cell);
    const Sum height = writer.height(thing.cell);
    aim_borders(writer, thing);
    if (thing.artwork) {
      writer.aim(Step::artwork, width + height);
    } else {
      writer.aim(Step::sizes, width);
      writer.aim(Step::sizes, height);
    }
    writer.aim(Step::larger_first, width);
    writer.aim(Step::larger_first, height);
    aim_spaces(writer, thing);
    const Box box = writer.box(thing.body);
    writer.aim(Step::least_place, box.left);
    writer.aim(Step::least_place, box.top);
    if (thing.artwork) late.push_back(*thing.artwork);
    if (thing.body != thing.cell) late.push_back(thing.body);
  }
  for (const std::size_t rectangle : late) {
    for (const Measure measure : {Measure::left, Measure::top, Measure::width, Measure::height}) {
      writer.aim(Step::least_place, Sum::of(variable(rectangle, measure)));
    }
  }
}

}  // namespace evenmat::writing
