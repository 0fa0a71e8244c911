// A layer of which all is to be seen (`show = "all"`): whatever could lie above it keeps apart. A share less
// than all is no rule about lengths; it is looked after in solver/quotas.h.
#include <fmt/format.h>

#include <algorithm>

#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

// A piece and what it is on, step by step down to its face.
std::vector<const Piece*> down_from(const Writer& writer, const Piece& piece) {
  std::vector<const Piece*> steps{&piece};
  while (writer.thing(steps.back()->on.value).piece != nullptr)
    steps.push_back(writer.thing(steps.back()->on.value).piece);
  return steps;
}

// How deep in the closed card the leaf of a face lies: what is on one nearer to the eye, on either side of
// it, hides what is on one farther away.
std::size_t depth_of(const Writer& writer, const std::string& name) {
  const std::vector<Face> all = faces(writer.design().base);
  return std::find_if(all.begin(), all.end(), [&](const Face& face) { return face.name == name; })->depth;
}

// Seen closed: through an opening in a face. One in a layer is looked through when that is.
bool shows_through(const Writer& writer, const Piece& piece) {
  const Piece* below = writer.thing(piece.on.value).piece;
  return piece.on.value == "reveal" || (below != nullptr && below->kind == Piece::Kind::window &&
                                        writer.thing(below->on.value).piece == nullptr);
}

// Whether other rules keep two layers apart already: they lie inside two that may not overlap.
bool kept_apart(const Piece& a, const Piece& b) {
  return a.kind == b.kind && !names(a.over, b) && !names(b.over, a);
}

bool stays_inside(const std::vector<const Piece*>& steps, std::size_t upto) {
  return std::none_of(
      steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(upto),
      [](const Piece* step) { return step->overhang || step->tuck || step->kind == Piece::Kind::window; });
}

// Whether `other` could lie above `shown` and hide some of it, for all that other rules say.
bool may_hide(const Writer& writer, const Piece& shown, const Piece& other) {
  if (&shown == &other || other.kind != Piece::Kind::layer) return false;
  const std::string& face = writer.thing(shown.name.value).face;
  const std::string& other_face = writer.thing(other.name.value).face;
  if (face != other_face) {
    // Seen closed, through an opening: what is on a nearer face hides it.
    return shows_through(writer, shown) && depth_of(writer, other_face) < depth_of(writer, face);
  }
  const auto steps = down_from(writer, shown);
  const auto others = down_from(writer, other);
  if (std::find(others.begin(), others.end(), &shown) != others.end()) return true;
  if (std::find(steps.begin(), steps.end(), &other) != steps.end()) return false;
  // The two things on one ground over which their ways down part.
  std::size_t i = steps.size();
  std::size_t j = others.size();
  while (i > 0 && j > 0 && steps[i - 1] == others[j - 1]) {
    --i;
    --j;
  }
  if (i == 0 || j == 0) return false;
  const Piece& mine = *steps[i - 1];
  const Piece& theirs = *others[j - 1];
  if (mine.on.value == theirs.on.value && kept_apart(mine, theirs) && stays_inside(steps, i - 1) &&
      stays_inside(others, j - 1))
    return false;
  if (names(mine.over, theirs)) return false;
  if (names(theirs.over, mine)) return true;
  // What lies behind a window of a layer is beneath that layer and all on it.
  const bool on_a_layer = i < steps.size();
  if (on_a_layer && mine.kind != theirs.kind) return mine.kind == Piece::Kind::window;
  // In file order, as they lie.
  const auto layer = [](const std::vector<const Piece*>& way, std::size_t at) {
    return way[at - 1]->kind == Piece::Kind::window ? way[at - 2] : way[at - 1];
  };
  return layer(steps, i) < layer(others, j);
}

// The windows of a layer on the closed card, as far as they lie straight there; copies have theirs each.
std::vector<Box> windows_of(const Writer& writer, const Piece& layer) {
  for (const Piece* step : down_from(writer, layer)) {
    if (step->tilt || step->copies) return {};
  }
  std::vector<Box> windows;
  for (const Piece& piece : writer.design().pieces) {
    if (piece.kind == Piece::Kind::window && piece.on.value == layer.name.value)
      windows.push_back(closed_box(writer, writer.thing(piece.name.value)));
  }
  return windows;
}

std::vector<Relation> inside(const Box& inner, const Box& outer) {
  return {at_least(inner.left, outer.left), at_most(inner.right, outer.right), at_least(inner.top, outer.top),
          at_most(inner.bottom, outer.bottom)};
}

void write_all_shown(Writer& writer, const Piece& piece) {
  const Thing& thing = writer.thing(piece.name.value);
  const std::size_t wish = writer.new_wish();
  for (const Piece& other : writer.design().pieces) {
    if (!may_hide(writer, piece, other)) continue;
    const Thing& over = writer.thing(other.name.value);
    const bool first = thing.body < over.body;
    auto choices =
        apart(closed_box(writer, first ? thing : over), closed_box(writer, first ? over : thing), 0);
    const std::vector<Box> windows = windows_of(writer, other);
    for (const Box& window : windows) choices.push_back(inside(closed_box(writer, thing), window));
    const std::size_t rule = writer.stated(
        std::move(choices),
        other.on.value == piece.name.value
            ? fmt::format("all of {} is seen, so {} does not lie on it", piece.name.value, other.name.value)
            : fmt::format("all of {} is seen, so {} does not cover it", piece.name.value, other.name.value),
        piece.show->spot, wish);
    if (windows.empty()) writer.tell_apart(rule);
  }
  if (!piece.tuck) return;
  const Sides sides = sides_of(writer, thing);
  for (const Edge edge : all_edges) {
    writer.stated(
        at_least(sides[edge], 0),
        fmt::format("all of {} is seen, so it does not reach past {}", piece.name.value, piece.on.value),
        piece.show->spot, wish);
  }
}

// Behind the one edge of the front that it is tucked behind, a layer on the reveal is hidden in its whole
// length: so much of it is seen as its width (height) less the tuck.
void write_share_beside_front(Writer& writer, const Piece& piece) {
  const std::vector<Edge> edges = edges_at_front(writer.design().base);
  if (edges.size() != 1) return;
  const Thing& thing = writer.thing(piece.name.value);
  const Sum whole = is_across(edges[0]) ? writer.box_width(thing.body) : writer.box_height(thing.body);
  const std::size_t rule =
      writer.stated(at_least(whole + sides_of(writer, thing)[edges[0]], whole * *piece.show->value.at_least),
                    fmt::format("{} of {} is to be seen", piece.show->value.text, piece.name.value),
                    piece.show->spot, writer.new_wish());
  writer.tell(rule, {fmt::format("what is to be seen of {}", piece.name.value), false, edges[0], thing.body});
}

}  // namespace

void write_shown(Writer& writer) {
  for (const Piece& piece : writer.design().pieces) {
    if (piece.show && piece.tuck && piece.on.value == "reveal" && piece.show->value.at_least &&
        *piece.show->value.at_least < 1)
      write_share_beside_front(writer, piece);
    if (piece.show && piece.show->value.at_least && *piece.show->value.at_least == 1)
      write_all_shown(writer, piece);
  }
}

}  // namespace evenmat::writing
