#include "solver/why/nearest_wishes.h"

#include <algorithm>
#include <optional>
#include <set>

namespace evenmat {
namespace {

class Keys {
 public:
  explicit Keys(const Design& design) {
    if (design.base.cut_back) add(design.base.cut_back->by.spot, KeyOf::Kind::cut_back);
    for (const Piece& piece : design.pieces) {
      piece_ = &piece;
      add_sizes(piece);
      add_places(piece);
    }
  }

  std::map<Spot, KeyOf> keys;

 private:
  void add(const Spot& spot, KeyOf::Kind kind) { keys.emplace(spot, KeyOf{kind, piece_}); }
  template <typename WithSpot>
  void add(const std::optional<WithSpot>& stated, KeyOf::Kind kind) {
    if (stated) add(stated->spot, kind);
  }
  void add(const SideWishes& wishes, KeyOf::Kind kind) {
    for (const auto* wish : {&wishes.all, &wishes.left, &wishes.right, &wishes.top, &wishes.bottom,
                             &wishes.across, &wishes.down}) {
      add(*wish, kind);
    }
  }

  void add_sizes(const Piece& piece) {
    using enum KeyOf::Kind;
    add(piece.size, size);
    add(piece.width, size);
    add(piece.height, size);
    add(piece.ratio, ratio);
    add(piece.artwork, artwork);
    add(piece.margin, margin);
  }

  void add_places(const Piece& piece) {
    using enum KeyOf::Kind;
    add(piece.border, side);
    for (const auto* wish :
         {&piece.frame, &piece.from_left, &piece.from_right, &piece.from_top, &piece.from_bottom}) {
      add(*wish, side);
    }
    add(piece.align, align);
    for (const Beside& one : piece.beside) add(one.name.spot, beside);
    add(piece.gap, gap);
    for (const LevelWith& one : piece.level_with) add(one.name.spot, level);
    for (const Name& name : piece.clear_of) add(name.spot, clear);
    add(piece.clearance, clear);
    add(piece.overhang, overhang);
    add(piece.tuck, tuck);
    add(piece.show, show);
  }

  const Piece* piece_ = nullptr;
};

bool lies_on(const Rules& rules, std::size_t upper, std::size_t lower) {
  for (auto at = rules.rectangles[upper].on; at; at = rules.rectangles[*at].on) {
    if (*at == lower) return true;
  }
  return false;
}

}  // namespace

std::map<Spot, KeyOf> keys_of(const Design& design) { return std::move(Keys(design).keys); }

std::vector<std::size_t> rectangles_in(const Rule& rule) {
  std::set<std::size_t> found;
  for (const auto& choice : rule.choices) {
    for (const Relation& relation : choice) {
      for (const Term& term : relation.sum.terms()) found.insert(term.variable / 4);
    }
  }
  return {found.begin(), found.end()};
}

std::optional<Inside> inside_of(const Rules& rules, const Rule& rule) {
  if (rule.origin != Origin::given || rule.choices.size() != 1 || rule.choices[0].size() != 1 ||
      rule.choices[0][0].equal) {
    return std::nullopt;
  }
  std::vector<Term> places;
  for (const Term& term : rule.choices[0][0].sum.terms()) {
    if (term.variable % 4 < 2) places.push_back(term);
  }
  if (places.size() != 2 || places[0].factor != -places[1].factor) return std::nullopt;
  const std::size_t first = places[0].variable / 4;
  const std::size_t second = places[1].variable / 4;
  // A layer on a reveal or window lies inside the page behind as well, which it is not told to be on.
  const auto is_face = [&](std::size_t i) { return rules.rectangles[i].kind == Rectangle::Kind::face; };
  const bool second_inside =
      lies_on(rules, second, first) || (is_face(first) && !lies_on(rules, first, second));
  const Term& inner = second_inside ? places[1] : places[0];
  const bool across = inner.variable % 4 == static_cast<std::size_t>(Measure::left);
  const bool low = inner.factor < 0;
  return Inside{inner.variable / 4, second_inside ? first : second,
                across ? (low ? Edge::left : Edge::right) : (low ? Edge::top : Edge::bottom)};
}

}  // namespace evenmat
