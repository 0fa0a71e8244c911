// Where a layer or window lies on what it is on: inside it, its borders or frame, alignment, distances.
#include <fmt/format.h>

#include <algorithm>

#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

// The edges of an opening past which a layer behind it can reach: all of a window's; of the reveal only
// the front's, since the others are the card's own.
std::vector<Edge> covered_edges(const Writer& writer, const Piece& piece) {
  if (piece.on.value == "reveal") return edges_at_front(writer.design().base);
  return {std::begin(all_edges), std::end(all_edges)};
}

// What the maker says of a side keeps the layer inside there; without that wish its amount is free.
bool is_kept_inside(const Piece& piece, Edge edge) {
  std::vector<const Wish*> wishes = wishes_for(piece.border, edge);
  const std::optional<Wish>& distance = edge == Edge::left    ? piece.from_left
                                        : edge == Edge::right ? piece.from_right
                                        : edge == Edge::top   ? piece.from_top
                                                              : piece.from_bottom;
  for (const auto* wish : {&distance, &piece.frame}) {
    if (*wish) wishes.push_back(&**wish);
  }
  return std::any_of(wishes.begin(), wishes.end(), [](const Wish* wish) { return keeps_off(*wish); });
}

// An opening may be larger than the page behind it, which is where the layer is glued.
void write_inside_page(Writer& writer, const Thing& thing, const std::vector<Edge>& done) {
  const Piece& piece = *thing.piece;
  const Thing& opening = writer.thing(piece.on.value);
  const bool behind =
      piece.on.value == "reveal" || (opening.piece != nullptr && opening.piece->kind == Piece::Kind::window);
  if (piece.kind != Piece::Kind::layer || !behind) return;
  const std::vector<Face> all = faces(writer.design().base);
  const auto page =
      std::find_if(all.begin(), all.end(), [&](const Face& face) { return face.name == thing.face; });
  if (page == all.end() || page->whole == writer.design().base.front.size) return;
  const Sides on_page = sides_between(writer.box(writer.thing(thing.face).cell), writer.box(thing.body));
  for (const Edge edge : all_edges) {
    if (std::find(done.begin(), done.end(), edge) != done.end()) continue;
    writer.given(at_least(on_page[edge], 0), fmt::format("{} lies inside {}", piece.name.value, thing.face));
  }
}

// Without a frame of some width it would be no window but a notch, or nothing but a hole.
void write_frame_left(Writer& writer, const Thing& thing, Edge edge, const Sides& sides) {
  const Piece& piece = *thing.piece;
  if (piece.frame && keeps_off(*piece.frame)) return;
  const std::size_t rule =
      writer.given(at_least(sides[edge], writer.card().mark),
                   fmt::format("paper is left round {} at the {}", piece.name.value, edge_name(edge)));
  writer.tell(rule, {fmt::format("the paper left round {}", piece.name.value), false, edge, thing.body});
}

void write_inside(Writer& writer, const Thing& thing, const Sides& sides) {
  const Piece& piece = *thing.piece;
  const std::string& name = piece.name.value;
  const std::string inside = fmt::format("{} lies inside {}", name, piece.on.value);
  std::vector<Edge> reaching;
  if (piece.tuck) {
    reaching = covered_edges(writer, piece);
    const std::size_t wish = writer.new_wish();
    const Sides on_face = sides_between(writer.box(writer.thing(thing.face).cell), writer.box(thing.body));
    for (const Edge edge : reaching) {
      writer.wished(*piece.tuck, Sum() - sides[edge],
                    fmt::format("the tuck of {} past the opening at the {}", name, edge_name(edge)), wish,
                    {fmt::format("the tuck of {}", name), false, edge, thing.body});
      writer.given(at_least(on_face[edge], 0), fmt::format("{} lies inside {}", name, thing.face));
    }
  }
  write_inside_page(writer, thing, reaching);
  const std::size_t wish = piece.overhang ? writer.new_wish() : 0;
  for (const Edge edge : all_edges) {
    if (std::find(reaching.begin(), reaching.end(), edge) != reaching.end()) continue;
    if (piece.kind == Piece::Kind::window) {
      write_frame_left(writer, thing, edge, sides);
    } else if (!piece.overhang) {
      if (!is_kept_inside(piece, edge)) writer.given(at_least(sides[edge], 0), inside);
    } else if (piece.overhang->at_most) {
      const std::size_t rule =
          writer.stated(at_least(sides[edge], -*piece.overhang->at_most),
                        fmt::format("{} may overhang {} by {} at the {}", name, piece.on.value,
                                    piece.overhang->text, edge_name(edge)),
                        piece.overhang->spot, wish);
      writer.tell(rule, {fmt::format("the overhang of {}", name), false, edge, thing.body});
      for (const NumberPart part : {NumberPart::exact, NumberPart::at_most}) {
        if (auto number = number_of(*piece.overhang, part, *piece.overhang->at_most)) {
          number->about = fmt::format("the overhang of {}", name);
          writer.uses(rule, *number, -1);
        }
      }
    }
  }
}

void write_alignment(Writer& writer, const Thing& thing, const Sides& sides) {
  const Piece& piece = *thing.piece;
  const std::size_t wish = writer.new_wish();
  const auto along = [&](Along where, Edge low, Edge high) {
    if (where == Along::unstated) return;
    if (where == Along::centre) {
      writer.stated(
          equals(sides[low], sides[high]),
          fmt::format("{} is centred between {} and {}", piece.name.value, edge_name(low), edge_name(high)),
          piece.align->spot, wish);
      return;
    }
    const Edge edge = where == Along::low ? low : high;
    std::optional<Rational> nearest;
    std::optional<Rational> near;
    std::optional<StatedNumber> from;  // the border it keeps
    for (const Wish* border : wishes_for(piece.border, edge)) {
      if (border->even) return;  // an even border says where the layer lies
      std::optional<Rational> least = border->at_least;
      if (!border->one_of.empty())
        least = std::max(least.value_or(border->one_of.front()), border->one_of.front());
      if (least && (!nearest || *least > *nearest)) {
        nearest = least;
        from.reset();
        for (const NumberPart part : {NumberPart::exact, NumberPart::at_least, NumberPart::one_of}) {
          if (!from) from = number_of(*border, part, *least);
          if (from) from->about = fmt::format("the border of {}", piece.name.value);
        }
      }
      if (border->about) near = border->about;
    }
    const Rational distance = nearest ? *nearest : near.value_or(0);
    const std::size_t rule = writer.stated(
        equals(sides[edge], distance),
        fmt::format("{} is as near the {} as its border allows", piece.name.value, edge_name(edge)),
        piece.align->spot, wish);
    writer.tell(rule, {fmt::format("the border of {}", piece.name.value), false, edge, thing.body});
    if (from) writer.uses(rule, *from, -1);
  };
  along(piece.align->value.across, Edge::left, Edge::right);
  along(piece.align->value.down, Edge::top, Edge::bottom);
}

}  // namespace

Sides sides_of(const Writer& writer, const Thing& thing) {
  return sides_between(writer.cut_box(writer.thing(thing.piece->on.value).cell), writer.box(thing.body));
}

void write_place(Writer& writer, const Thing& thing) {
  const Piece& piece = *thing.piece;
  const std::string& name = piece.name.value;
  const Sides sides = sides_of(writer, thing);
  const auto like = [&](const std::string& other) -> std::optional<Sides> {
    if (!writer.has(other) || writer.thing(other).piece == nullptr) return std::nullopt;
    return sides_of(writer, writer.thing(other));
  };
  write_inside(writer, thing, sides);
  write_sides(writer, piece.border, sides, fmt::format("the border of {}", name), thing.body, like);
  if (piece.frame) {
    SideWishes frame;
    frame.all = piece.frame;
    write_sides(writer, frame, sides, fmt::format("the frame round {}", name), thing.body, like);
  }
  if (piece.align) write_alignment(writer, thing, sides);
  const auto distance = [&](const std::optional<Wish>& wish, Edge edge) {
    if (!wish) return;
    std::optional<Sum> other;
    if (wish->same_as) {
      if (const auto there = like(*wish->same_as)) other = (*there)[edge];
    }
    writer.wished(*wish, sides[edge],
                  fmt::format("the distance of {} from the {} of {}", name, edge_name(edge), piece.on.value),
                  writer.new_wish(),
                  {fmt::format("the distance of {} from the {} of {}", name, edge_name(edge), piece.on.value),
                   false, edge, thing.body},
                  other);
  };
  distance(piece.from_left, Edge::left);
  distance(piece.from_right, Edge::right);
  distance(piece.from_top, Edge::top);
  distance(piece.from_bottom, Edge::bottom);
}

}  // namespace evenmat::writing
