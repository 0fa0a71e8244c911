#include "solver/explore/amounts.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "model/copies.h"
#include "model/faces.h"
#include "solver/answer/placing.h"
#include "solver/answer/version.h"
#include "solver/explore/ways.h"
#include "solver/rules/bare.h"

namespace evenmat::exploring {
namespace {

// Where a piece's key stands in a card file that is written in the order in which layers are built.
enum class Rank { cut_back, border, frame, tuck, margin, width, height, from, gap, ways };

// The four sides of a piece or its artwork, as sums.
struct FourSides {
  Sum left, right, top, bottom;
};

class Finder {
 public:
  Finder(const Card& card, const Rules& rules, const System& settled, const std::vector<Rational>& values,
         const std::optional<AmountName>& only)
      : card_(card), rules_(rules), settled_(settled), values_(values), only_(only) {}

  std::vector<Amount> find() {
    for (std::size_t version = 0; version <= card_.variants.size(); ++version) read(version);
    std::vector<Amount> wished = take_wished();
    if (!only_) add_sizes(wished);
    std::stable_sort(wished.begin(), wished.end(),
                     [&](const Amount& a, const Amount& b) { return place_of(a.open) < place_of(b.open); });
    return wished;
  }

 private:
  void read(std::size_t version) {
    const Design& design = design_of(card_, version);
    const Places places = places_of(rules_, version);
    if (design.base.cut_back) read_cut_back(design, places);
    for (const Piece& piece : design.pieces) {
      if (rank_.emplace(piece.name.value, rank_.size() + 1).second) order_.push_back(piece.name.value);
      read_piece(design, places, piece);
    }
    for (const Statement& statement : design.rules) read_ways(statement, version);
  }

  void read_cut_back(const Design& design, const Places& places) {
    const CutBack& cut_back = *design.base.cut_back;
    const std::vector<Face> all = faces(design.base);
    const auto shortened =
        std::find_if(all.begin(), all.end(), [](const Face& face) { return face.trimmed.has_value(); });
    if (shortened == all.end()) return;
    const bool across = is_across(*shortened->trimmed);
    const std::size_t face = places.face.at(shortened->name);
    const Sum taken = Sum(across ? shortened->whole.width : shortened->whole.height) -
                      Sum::of(variable(face, across ? Measure::width : Measure::height));
    add("base", "cut-back", "", cut_back.by, {taken});
  }

  void read_piece(const Design& design, const Places& places, const Piece& piece) {
    const std::string& name = piece.name.value;
    const std::size_t cell = places.cell.at(name);
    const std::size_t body = places.body.at(name);
    const std::vector<Sum> all = measures_of(rules_, cell, body, under(places, piece));
    const FourSides sides{all[2], all[4], all[3], all[5]};
    read_sides(name, "border", piece.border, sides);
    if (piece.frame) {
      SideWishes frame;
      frame.all = piece.frame;
      read_sides(name, "frame", frame, sides);
    }
    if (piece.tuck) add(name, "tuck", "", *piece.tuck, tucks_of(design, piece, sides));
    if (piece.artwork) read_margin(piece, places, cell);
    if (writing::states_nothing(design, piece)) add_unsaid(name, "border", sides);
    if (piece.width) add(name, "width", "", *piece.width, {all[0]});
    if (piece.height) add(name, "height", "", *piece.height, {all[1]});
    if (piece.from_left) add(name, "from-left", "", *piece.from_left, {sides.left});
    if (piece.from_right) add(name, "from-right", "", *piece.from_right, {sides.right});
    if (piece.from_top) add(name, "from-top", "", *piece.from_top, {sides.top});
    if (piece.from_bottom) add(name, "from-bottom", "", *piece.from_bottom, {sides.bottom});
    if (piece.gap) {
      std::vector<Sum> gaps = gaps_between_copies(piece, cell, body);
      for (const Beside& beside : piece.beside)
        gaps.push_back(gap_beside(body, places.body.at(beside.name.value), beside.side));
      if (!gaps.empty()) add(name, "gap", "", *piece.gap, gaps);
    }
  }

  // How far it reaches past each edge of its opening that covers it.
  static std::vector<Sum> tucks_of(const Design& design, const Piece& piece, const FourSides& sides) {
    std::vector<Edge> covered{std::begin(all_edges), std::end(all_edges)};
    if (piece.on.value == "reveal") covered = edges_at_front(design.base);
    std::vector<Sum> tucks;
    for (const Edge edge : covered) {
      const Sum& inward = edge == Edge::left    ? sides.left
                          : edge == Edge::right ? sides.right
                          : edge == Edge::top   ? sides.top
                                                : sides.bottom;
      tucks.push_back(Sum() - inward);
    }
    return tucks;
  }

  [[nodiscard]] std::vector<Sum> gaps_between_copies(const Piece& piece, std::size_t cell,
                                                     std::size_t body) const {
    if (body == cell) return {};
    const Grid grid = grid_of(piece);
    const Rectangle& box = rules_.rectangles[cell];
    const Sum width = Sum::of(variable(cell, Measure::width));
    const Sum height = Sum::of(variable(cell, Measure::height));
    const auto gap = [&](Measure measure, const Sum& one, int count) {
      return (Sum::of(variable(body, measure)) - one * Rational(count)) * Rational(1, count - 1);
    };
    std::vector<Sum> gaps;
    if (grid.columns > 1)
      gaps.push_back(gap(Measure::width, width * box.box_cos + height * box.box_sin, grid.columns));
    if (grid.rows > 1)
      gaps.push_back(gap(Measure::height, height * box.box_cos + width * box.box_sin, grid.rows));
    return gaps;
  }

  [[nodiscard]] Sum gap_beside(std::size_t piece, std::size_t other, Edge side) const {
    const auto low = [&](std::size_t i) {
      return Sum::of(variable(i, is_across(side) ? Measure::left : Measure::top));
    };
    const auto high = [&](std::size_t i) {
      const Rectangle& box = rules_.rectangles[i];
      const Sum width = Sum::of(variable(i, Measure::width));
      const Sum height = Sum::of(variable(i, Measure::height));
      return low(i) + (is_across(side) ? width * box.box_cos + height * box.box_sin
                                       : height * box.box_cos + width * box.box_sin);
    };
    const bool before = side == Edge::left || side == Edge::top;
    return before ? low(other) - high(piece) : low(piece) - high(other);
  }

  void read_margin(const Piece& piece, const Places& places, std::size_t cell) {
    const std::size_t art = places.artwork.at(piece.name.value);
    const auto side = [&](Measure low, Measure length) {
      const Sum before = Sum::of(variable(art, low)) - Sum::of(variable(cell, low));
      const Sum after = Sum::of(variable(cell, length)) - before - Sum::of(variable(art, length));
      return std::pair(before, after);
    };
    const auto [left, right] = side(Measure::left, Measure::width);
    const auto [top, bottom] = side(Measure::top, Measure::height);
    const FourSides sides{left, right, top, bottom};
    if (piece.margin.any()) {
      read_sides(piece.name.value, "margin", piece.margin, sides);
    } else {
      add_unsaid(piece.name.value, "margin", sides);
    }
  }

  void read_sides(const std::string& name, const char* key, const SideWishes& wishes,
                  const FourSides& sides) {
    const auto read = [&](const char* part, const std::optional<Wish>& wish, std::vector<Sum> bound) {
      if (wish) add(name, key, part, *wish, std::move(bound));
    };
    read("", wishes.all, {sides.left, sides.right, sides.top, sides.bottom});
    read("across", wishes.across, {sides.left, sides.right});
    read("down", wishes.down, {sides.top, sides.bottom});
    read("left", wishes.left, {sides.left});
    read("right", wishes.right, {sides.right});
    read("top", wishes.top, {sides.top});
    read("bottom", wishes.bottom, {sides.bottom});
  }

  void add(const std::string& name, const char* key, const char* part, const Wish& wish,
           std::vector<Sum> sums) {
    if (wish.exact() || wish.same_as) return;
    Amount& found = found_at({name, key, part, wish.spot});
    found.one_of = wish.one_of;
    std::erase_if(found.one_of, [&](const Rational& value) {
      return (wish.at_least && value < *wish.at_least) || (wish.at_most && value > *wish.at_most);
    });
    for (Sum& sum : sums) found.sums.push_back(std::move(sum));
  }

  void add_unsaid(const std::string& name, const char* key, const FourSides& sides) {
    Amount& found = found_at({name, key, "", {}});
    for (const Sum* sum : {&sides.left, &sides.right, &sides.top, &sides.bottom}) found.sums.push_back(*sum);
  }

  // What several versions say alike, or leave unsaid alike, is one.
  using Key = std::tuple<std::string, std::string, std::string, Spot>;
  Amount& found_at(const Key& key) {
    const auto [at, fresh] = index_.try_emplace(key, found_.size());
    if (fresh) {
      Amount found;
      found.open.name = std::get<0>(key);
      found.open.key = std::get<1>(key);
      found.open.part = std::get<2>(key);
      found.open.spot = std::get<3>(key);
      found_.push_back(std::move(found));
    }
    return found_[at->second];
  }

  void read_ways(const Statement& statement, std::size_t version) {
    if (statement.choices.size() < 2) return;
    for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
      const Rule& rule = rules_.rules[i];
      if (rule.version != version || rule.spot != statement.spot || rule.origin != Origin::stated ||
          rule.choices.size() != statement.choices.size())
        continue;
      Amount& found = found_at({"", "rules", "", statement.spot});
      found.rules.push_back(i);
      if (found.open.ways.empty()) found.open.ways = ways_of(card_, version, statement);
      break;
    }
  }

  // The wishes that are one amount in the card as sized, each with its value there.
  std::vector<Amount> take_wished() {
    std::vector<Amount> taken;
    for (Amount& amount : found_) {
      if (only_ && !is_named(amount.open)) continue;
      if (!amount.rules.empty()) {
        if (take_way(amount)) taken.push_back(std::move(amount));
        continue;
      }
      amount.open.as_sized = amount.sums.front().at(values_);
      if (!only_ && !is_one_amount(amount)) continue;
      if (is_settled(amount)) continue;
      taken.push_back(std::move(amount));
    }
    return taken;
  }

  [[nodiscard]] bool is_named(const OpenAmount& open) const {
    // Of a border that is stated side by side, a side or all of them.
    return open.name == only_->first &&
           (open.key == only_->second || open.key + "." + open.part == only_->second);
  }

  // The first way that holds in the card as sized, in all versions.
  bool take_way(Amount& amount) const {
    if (amount.open.ways.empty()) return false;
    for (std::size_t way = 0; way < amount.open.ways.size(); ++way) {
      const bool held = std::all_of(amount.rules.begin(), amount.rules.end(), [&](std::size_t rule) {
        const auto& relations = rules_.rules[rule].choices[way];
        return std::all_of(relations.begin(), relations.end(),
                           [&](const Relation& relation) { return holds(relation, values_); });
      });
      if (!held) continue;
      amount.open.as_sized = Rational(way);
      return true;
    }
    return false;
  }

  [[nodiscard]] bool is_one_amount(const Amount& amount) const {
    return std::all_of(amount.sums.begin(), amount.sums.end(),
                       [&](const Sum& sum) { return sum.at(values_) == amount.open.as_sized; });
  }

  [[nodiscard]] bool is_settled(const Amount& amount) const {
    return std::all_of(amount.sums.begin(), amount.sums.end(), [&](const Sum& sum) {
      const Interval range = settled_.range(settled_.reduce(sum));
      return range.low && range.high && *range.low == *range.high;
    });
  }

  // The sizes that the amounts so far leave open.
  void add_sizes(std::vector<Amount>& amounts) {
    Equations known;
    const auto keep = [&](Variable v) { return settled_.is_whole(v) ? 1 : 0; };
    const auto hold = [&](const Sum& sum) {
      // Each amount is as good as known: a number of its own in place of one of the card's lengths.
      known.add(settled_.reduce(sum) - Sum::of(settled_.variables() + next_++),
                [&](Variable v) { return v >= settled_.variables() ? 2 : keep(v); });
    };
    for (const Amount& amount : amounts) {
      if (amount.sums.empty()) continue;
      hold(amount.sums.front());
      for (std::size_t i = 1; i < amount.sums.size(); ++i) {
        known.add(settled_.reduce(amount.sums[i] - amount.sums.front()),
                  [&](Variable v) { return v >= settled_.variables() ? 2 : keep(v); });
      }
    }
    const auto is_known = [&](const Sum& sum) {
      const Sum left = known.reduce(settled_.reduce(sum));
      return std::all_of(left.terms().begin(), left.terms().end(),
                         [&](const Term& term) { return term.variable >= settled_.variables(); });
    };
    for (const std::string& name : order_) {
      for (const Measure measure : {Measure::width, Measure::height}) {
        Amount amount = size_of(name, measure);
        if (amount.sums.empty() || is_settled(amount)) continue;
        if (std::all_of(amount.sums.begin(), amount.sums.end(), is_known)) continue;
        for (std::size_t i = 1; i < amount.sums.size(); ++i) {
          known.add(settled_.reduce(amount.sums[i] - amount.sums.front()),
                    [&](Variable v) { return v >= settled_.variables() ? 2 : keep(v); });
        }
        hold(amount.sums.front());
        amounts.push_back(std::move(amount));
      }
    }
  }

  // A width or height in every version that says nothing of it itself, if it is alike in all of them as
  // sized.
  [[nodiscard]] Amount size_of(const std::string& name, Measure measure) const {
    Amount amount;
    amount.open.name = name;
    amount.open.key = measure == Measure::width ? "width" : "height";
    for (std::size_t version = 0; version <= card_.variants.size(); ++version) {
      const Places places = places_of(rules_, version);
      const auto cell = places.cell.find(name);
      if (cell == places.cell.end()) continue;
      const Piece* piece = piece_named(version, name);
      if (measure == Measure::width ? piece->width : piece->height) continue;
      const Sum sum = Sum::of(variable(cell->second, measure));
      if (!amount.sums.empty() && sum.at(values_) != amount.sums.front().at(values_)) return {};
      amount.sums.push_back(sum);
    }
    if (!amount.sums.empty()) amount.open.as_sized = amount.sums.front().at(values_);
    return amount;
  }

  [[nodiscard]] const Piece* piece_named(std::size_t version, const std::string& name) const {
    const Design& design = design_of(card_, version);
    return &*std::find_if(design.pieces.begin(), design.pieces.end(),
                          [&](const Piece& piece) { return piece.name.value == name; });
  }

  [[nodiscard]] std::pair<std::size_t, Rank> place_of(const OpenAmount& open) const {
    if (open.key == "rules") return {order_.size() + 1, Rank::ways};
    if (open.key == "cut-back") return {0, Rank::cut_back};
    const Rank rank = open.key == "border"   ? Rank::border
                      : open.key == "frame"  ? Rank::frame
                      : open.key == "tuck"   ? Rank::tuck
                      : open.key == "margin" ? Rank::margin
                      : open.key == "width"  ? Rank::width
                      : open.key == "height" ? Rank::height
                      : open.key == "gap"    ? Rank::gap
                                             : Rank::from;
    return {rank_.at(open.name), rank};
  }

  const Card& card_;
  const Rules& rules_;
  const System& settled_;
  const std::vector<Rational>& values_;
  const std::optional<AmountName>& only_;
  std::vector<Amount> found_;
  std::map<Key, std::size_t> index_;
  std::map<std::string, std::size_t> rank_;  // of each name, from 1
  std::vector<std::string> order_;
  std::size_t next_ = 0;
};

}  // namespace

std::vector<Amount> open_amounts(const Card& card, const Rules& rules, const System& settled,
                                 const std::vector<Rational>& values, const std::optional<AmountName>& only) {
  return Finder(card, rules, settled, values, only).find();
}

std::vector<Sum> sizes_of(const Card& card, const Rules& rules) {
  std::vector<Sum> sizes;
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const Places places = places_of(rules, version);
    for (const Piece& piece : design_of(card, version).pieces) {
      const std::size_t cell = places.cell.at(piece.name.value);
      sizes.push_back(Sum::of(variable(cell, Measure::width)));
      sizes.push_back(Sum::of(variable(cell, Measure::height)));
    }
  }
  return sizes;
}

}  // namespace evenmat::exploring
