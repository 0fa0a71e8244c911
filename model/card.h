// What a card is: the values that a card file states, read and checked, before any solving.
// Plain data only. Lengths are in the card's unit, exact; every stated thing knows its spot.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/edge.h"
#include "model/length.h"
#include "model/numbered_text.h"
#include "model/rational.h"
#include "model/spot.h"
#include "model/statement.h"
#include "model/wish.h"

namespace evenmat {

template <typename T>
struct Stated {
  T value{};
  Spot spot;
};
template <typename T>
using Maybe = std::optional<Stated<T>>;

using Name = Stated<std::string>;

// Something exact that the maker may be offered to change: how it was written, and where.
struct StatedSize {
  Size size;
  std::string text;
  Spot spot;
  NumberedText numbered;  // width, then height
};

// A plain length that the maker may be offered to change: how it was written, and where.
struct StatedLength {
  Rational value;
  std::string text;
  Spot spot;
  NumberedText numbered;
};

enum class Fold { flat, side, top, gate, z, tri };
enum class Role { none, mat, panel, strip, sentiment, image };
enum class Cut { trimmer, by_hand, die, ready_made };

// Wishes for the distances from a thing's four edges to those of what it is on. The more particular
// key does not replace the general one: keys that name one distance all hold.
struct SideWishes {
  std::optional<Wish> all, left, right, top, bottom, across, down;
  [[nodiscard]] bool any() const { return all || left || right || top || bottom || across || down; }
};

enum class Along { unstated, low, centre, high };  // low: left or top; high: right or bottom

// `align`: unstated on an axis it does not name.
struct Alignment {
  Along across = Along::unstated;
  Along down = Along::unstated;
};

// `above`, `below`, `left-of`, `right-of`: this piece is on that side of the named one.
struct Beside {
  Edge side = Edge::left;  // left: this piece is left of `name`; top: above it; ...
  Name name;
};

// `level-with`: the same edge (or the centre across or down) of both pieces is level.
// A bare name means centre_down: the middles are at one height.
struct LevelWith {
  Line line = Line::centre_down;
  Name name;
};

// `show`: the share of the layer that is to be seen.
struct Show {
  std::optional<Rational> at_least;  // 1 for "all"
  std::string text;
};

// A layer of paper (or ink), or a window cut in a face or layer: both have a size and a place on
// something. A window uses `frame` and no paper keys; a layer no `frame`.
struct Piece {
  enum class Kind { layer, window };
  Kind kind = Kind::layer;
  Name name;
  Role role = Role::none;
  Name on;  // a face, "reveal", a window or a layer; for a window, what it is cut in

  // Sizes.
  SideWishes border;
  std::optional<StatedSize> size;
  std::optional<Wish> width, height;
  Maybe<Rational> ratio;  // width : height
  std::optional<StatedSize> artwork;
  SideWishes margin;

  // Place.
  Maybe<Alignment> align;
  std::optional<Wish> from_left, from_right, from_top, from_bottom;
  std::vector<Beside> beside;
  std::optional<Wish> gap;  // to what `beside` names, or between copies
  std::vector<LevelWith> level_with;
  std::vector<Name> clear_of;
  std::optional<Wish> clearance;
  std::vector<Name> over;
  std::optional<Wish> overhang;
  std::optional<Wish> tuck;
  Maybe<int> copies;
  Maybe<int> columns;
  Maybe<Rational> tilt;       // degrees, clockwise
  std::optional<Wish> frame;  // windows: paper left on each side

  // Paper and hand.
  Maybe<std::string> paper;
  Cut cut = Cut::trimmer;
  std::optional<StatedLength> raised;    // the foam under it
  std::optional<StatedLength> adhesive;  // its thickness
  Maybe<Show> show;
  bool stamped = false;
  bool hollow = false;
  bool stamp_first = false;
};

struct CutBack {
  Edge edge = Edge::right;  // settled when read: the free edge unless stated
  Wish by;
};

// What the trade leaves so that a folded base lies flat, settled when read: `[allowance]`, else the usual.
// Common practice, no source.
struct Allowance {
  Rational doors;  // between the doors of a gate card, in all
  Rational flap;   // so much shorter is the flap of a tri fold than the page it folds in on
  Rational fold;   // of the blank's length, taken up by each fold
};

struct Base {
  Stated<Fold> fold;
  StatedSize front;  // the closed card, before any cutting back
  std::optional<CutBack> cut_back;
  Maybe<std::string> paper;
  std::vector<Stated<Rational>> leaves;  // from the blank's left or top edge on; empty: the fold's usual ones
  std::vector<Stated<Rational>> scores;
  Maybe<Edge> opens;  // the free edge, where it is an unusual one
  Allowance allowance;
};

struct Limit {
  std::optional<StatedLength> thickness;
  Maybe<Rational> grams;
};

// One buildable design: the plain card, or a variant with its changes made.
struct Design {
  Base base;
  std::vector<Piece> pieces;  // layers and windows, in file order
  std::vector<Statement> rules;
  Limit limit;
};

struct Variant {
  Name name;
  int cards = 1;
  Design design;
};

struct Paper {
  Name name;
  std::optional<StatedSize> sheet;
  Maybe<int> have;
  Maybe<Rational> grams_per_square_metre;
  std::string weight_words;  // as it is stated: "80 lb cover"
  Maybe<Rational> thickness;
  std::string thickness_words;  // "11 pt"; empty where it is stated as a length
  Maybe<Rational> cost;
  bool up = false;
  Maybe<std::string> grain;  // "long" or "short"
  Maybe<Rational> trim_first;
};

struct Trimmer {
  Maybe<Rational> longest, blade_loss, hold, sliver;
};

// Envelopes are named ones or sizes, posts those in model/posts.h: checked when read.
struct Mail {
  std::vector<Name> envelopes;
  std::vector<Name> posts;
  Rational ease;  // what an envelope is larger than what goes in, at least: `[allowance]`, else the usual
};

struct Supply {
  Name name;
  Maybe<Rational> per_card;
};

struct Card {
  std::string title;
  Unit unit = Unit::inch;
  Rational mark;  // unstated: 1/16 in, or 1 mm
  int cards = 1;
  int spare = 0;
  Design design;  // the plain card
  std::vector<Variant> variants;
  std::vector<Paper> papers;
  Trimmer trimmer;
  Mail mail;
  std::vector<Supply> supplies;
};

// Limits on what is read, so that bad input ends in a message and not in a wait.
inline constexpr std::size_t most_pieces = 600;  // layers and windows in one card file
inline constexpr std::size_t most_rules = 1000;  // entries of `rules`
inline constexpr std::size_t most_variants = 50;
inline constexpr std::size_t most_file_bytes = 1'000'000;  // of a card file

}  // namespace evenmat
