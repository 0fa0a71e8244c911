#include "solver/why/nearest_misses.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "model/faces.h"
#include "solver/answer/placing.h"
#include "solver/why/nearest_wishes.h"

namespace evenmat {
namespace {

// The relation of a rule that is missed most, in the choice that is missed least.
struct Worst {
  std::size_t choice = 0;
  std::size_t relation = 0;
  Rational by;        // > 0
  bool over = false;  // its sum is above 0
};

std::optional<Worst> worst_of(const Rule& rule, const std::vector<Rational>& values) {
  std::optional<Worst> least;
  std::optional<Rational> least_total;
  for (std::size_t c = 0; c < rule.choices.size(); ++c) {
    Worst worst{c, 0, 0, false};
    Rational total = 0;
    for (std::size_t r = 0; r < rule.choices[c].size(); ++r) {
      const Relation& relation = rule.choices[c][r];
      if (holds(relation, values)) continue;
      const Rational value = relation.sum.at(values);
      total += abs(value);
      if (abs(value) > worst.by) worst = {c, r, abs(value), value > 0};
    }
    if (total == 0) return std::nullopt;
    if (least_total && *least_total <= total) continue;
    least_total = total;
    least = worst;
  }
  return least;
}

// A strip along an edge of a box: on the box, or beside it.
PlacedBox strip(const PlacedBox& box, Edge edge, const Rational& by, bool on_it) {
  const bool low = edge == Edge::left || edge == Edge::top;
  const Rational& start = is_across(edge) ? box.left : box.top;
  const Rational& length = is_across(edge) ? box.width : box.height;
  Rational from = low ? start : Rational(start + length);
  if (low != on_it) from -= by;
  return is_across(edge) ? PlacedBox{from, box.top, by, box.height}
                         : PlacedBox{box.left, from, box.width, by};
}

std::optional<PlacedBox> both_cover(const PlacedBox& a, const PlacedBox& b) {
  const Rational left = std::max(a.left, b.left);
  const Rational top = std::max(a.top, b.top);
  const Rational right = std::min(Rational(a.left + a.width), Rational(b.left + b.width));
  const Rational bottom = std::min(Rational(a.top + a.height), Rational(b.top + b.height));
  if (left >= right || top >= bottom) return std::nullopt;
  return PlacedBox{left, top, right - left, bottom - top};
}

bool lies_in(const Miss::Place& inner, const Miss::Place& outer) {
  return inner.face == outer.face && inner.left >= outer.left && inner.top >= outer.top &&
         inner.left + inner.width <= outer.left + outer.width &&
         inner.top + inner.height <= outer.top + outer.height;
}

class Misses {
 public:
  Misses(const Rules& rules, std::size_t version, const Design& design, const std::vector<Rational>& values)
      : rules_(rules),
        version_(version),
        design_(design),
        values_(values),
        places_(places_of(rules, version)),
        keys_(keys_of(design)) {}

  std::vector<Miss> run() {
    for (const Rule& rule : rules_.rules) {
      if (rule.version != version_) continue;
      const auto worst = worst_of(rule, values_);
      if (!worst) continue;
      Told told{{}, rule.leant_on};
      Miss& miss = told.miss;
      miss.by = worst->by;
      miss.across = rule.amount.side ? is_across(*rule.amount.side) : is_across_in(rule, *worst);
      if (rule.origin == Origin::given) {
        if (!tell_given(rule, *worst, miss)) continue;
      } else {
        miss.spot = rule.spot;
        miss.says = rule.says;
        tell_stated(rule, *worst, miss);
      }
      told_.push_back(std::move(told));
    }
    return without_repeats();
  }

 private:
  struct Told {
    Miss miss;
    bool leant_on = false;
  };

  [[nodiscard]] static bool is_across_in(const Rule& rule, const Worst& worst) {
    const auto& terms = rule.choices[worst.choice][worst.relation].sum.terms();
    return std::any_of(terms.begin(), terms.end(), [](const Term& t) { return t.variable % 2 == 0; });
  }

  [[nodiscard]] PlacedBox box(std::size_t rectangle) const { return box_of(rules_, values_, rectangle); }
  [[nodiscard]] const std::string& name(std::size_t rectangle) const {
    return rules_.rectangles[rectangle].name;
  }
  [[nodiscard]] bool is_face(std::size_t rectangle) const {
    return rules_.rectangles[rectangle].kind == Rectangle::Kind::face;
  }

  [[nodiscard]] std::string face_under(const std::string& piece) const {
    for (const Piece& one : design_.pieces) {
      if (one.name.value == piece) return face_of(design_, one.on.value);
    }
    return face_of(design_, piece);
  }

  void place(Miss& miss, const PlacedBox& at) const {
    miss.place = Miss::Place{face_under(miss.names.front()), at.left, at.top, at.width, at.height};
  }

  // Pieces a rule is about beside one.
  [[nodiscard]] std::vector<std::string> others(const Rule& rule, const std::string& piece) const {
    std::vector<std::string> found;
    for (const std::size_t i : rectangles_in(rule)) {
      const bool known =
          is_face(i) || name(i) == piece || std::find(found.begin(), found.end(), name(i)) != found.end();
      if (!known) found.push_back(name(i));
    }
    return found;
  }

  bool tell_given(const Rule& rule, const Worst& worst, Miss& miss) const {
    if (rule.keeps_apart) {
      tell_overlap(rule, worst, miss);
      return true;
    }
    const auto inside = inside_of(rules_, rule);
    if (!inside) return false;
    miss.names = {name(inside->inner)};
    // What paper is to be left round a window does not count as past the edge.
    const Rational round = rule.choices[0][0].sum.constant();
    miss.kind = Miss::Kind::too_near;
    if (miss.by > round) {
      miss.kind = Miss::Kind::sticks_out;
      miss.by -= round;
    }
    place(miss, strip(box(inside->inner), inside->edge, miss.by, true));
    return true;
  }

  // Of two that lie over one another the later is told first, as the one that is wished.
  void tell_overlap(const Rule& rule, const Worst& worst, Miss& miss) const {
    miss.kind = Miss::Kind::overlaps;
    const auto& terms = rule.choices[worst.choice][worst.relation].sum.terms();
    std::vector<std::size_t> both;
    for (const Term& term : terms) {
      if (term.variable % 4 < 2) both.push_back(term.variable / 4);
    }
    if (both.size() == 2 && rules_.rectangles[both[1]].kind != Rectangle::Kind::artwork)
      std::swap(both[0], both[1]);
    for (const std::size_t i : both) {
      if (miss.names.empty() || miss.names.front() != name(i)) miss.names.push_back(name(i));
    }
    if (both.size() != 2 || face_under(name(both[0])) != face_under(name(both[1]))) return;
    if (const auto at = both_cover(box(both[0]), box(both[1]))) place(miss, *at);
  }

  void tell_stated(const Rule& rule, const Worst& worst, Miss& miss) const {
    const auto found = keys_.find(rule.spot);
    const KeyOf key = found == keys_.end() ? KeyOf{} : found->second;
    if (key.piece == nullptr) {
      miss.kind = key.kind == KeyOf::Kind::cut_back ? Miss::Kind::off_size : Miss::Kind::other;
      miss.names = key.kind == KeyOf::Kind::cut_back ? std::vector<std::string>{"reveal"} : others(rule, {});
      return;
    }
    const std::string& piece = key.piece->name.value;
    miss.names = {piece};
    for (std::string& other : others(rule, piece)) miss.names.push_back(std::move(other));
    switch (key.kind) {
      case KeyOf::Kind::size:
      case KeyOf::Kind::artwork:
        tell_size(rule, worst, key, miss);
        break;
      case KeyOf::Kind::ratio:
        miss.kind = Miss::Kind::off_size;
        break;
      case KeyOf::Kind::margin:
        miss.names = {piece};
        tell_side(rule, worst, places_.artwork.at(piece), miss);
        break;
      case KeyOf::Kind::side:
      case KeyOf::Kind::align:
      case KeyOf::Kind::overhang:
      case KeyOf::Kind::tuck:
        miss.names = {piece};
        tell_side(rule, worst, places_.body.at(piece), miss);
        if (key.kind == KeyOf::Kind::overhang) miss.kind = Miss::Kind::sticks_out;
        if (key.kind == KeyOf::Kind::tuck) turn_round(rule, places_.body.at(piece), miss);
        break;
      case KeyOf::Kind::beside:
      case KeyOf::Kind::gap:
        tell_gap(rule, worst, *key.piece, miss);
        break;
      case KeyOf::Kind::clear:
        tell_clearance(rule, worst, piece, miss);
        break;
      case KeyOf::Kind::show:
        miss.names = {piece};
        tell_hidden(rule, miss);
        break;
      default:
        miss.kind = Miss::Kind::other;
    }
  }

  // An equation or `at most` is a length less what is wished, `at least` the other way round.
  static bool is_too_much(const Rule& rule, const Worst& worst) {
    const auto& terms = rule.choices[worst.choice][worst.relation].sum.terms();
    const bool grows = std::any_of(terms.begin(), terms.end(), [&](const Term& term) {
      return term.variable / 4 == rule.amount.rectangle && term.variable % 4 >= 2 && term.factor > 0;
    });
    return worst.over == grows;
  }

  void tell_size(const Rule& rule, const Worst& worst, const KeyOf& key, Miss& miss) const {
    miss.kind = Miss::Kind::off_size;
    const std::string& piece = key.piece->name.value;
    const std::size_t rectangle =
        key.kind == KeyOf::Kind::artwork ? places_.artwork.at(piece) : places_.cell.at(piece);
    place(miss,
          strip(box(rectangle), miss.across ? Edge::right : Edge::bottom, miss.by, is_too_much(rule, worst)));
  }

  // A distance from an edge of what it is on grows as the layer goes inward.
  void tell_side(const Rule& rule, const Worst& worst, std::size_t inner, Miss& miss) const {
    if (!rule.amount.side) {
      miss.kind = Miss::Kind::other;
      return;
    }
    const Edge edge = *rule.amount.side;
    const bool low = edge == Edge::left || edge == Edge::top;
    Rational factor = 0;
    const Measure start = is_across(edge) ? Measure::left : Measure::top;
    for (const Term& term : rule.choices[worst.choice][worst.relation].sum.terms()) {
      if (term.variable == variable(inner, start)) factor = term.factor;
    }
    const bool inward = (factor > 0) == low;  // what makes the sum larger
    miss.kind = worst.over == inward ? Miss::Kind::too_far : Miss::Kind::too_near;
    place(miss, strip(box(inner), edge, miss.by, miss.kind == Miss::Kind::too_near));
  }

  // A tuck is measured outward: what is too near the opening's edge does not reach far enough past it.
  void turn_round(const Rule& rule, std::size_t inner, Miss& miss) const {
    const bool reaches_too_far = miss.kind == Miss::Kind::too_near;
    miss.kind = reaches_too_far ? Miss::Kind::too_far : Miss::Kind::too_near;
    if (rule.amount.side) place(miss, strip(box(inner), *rule.amount.side, miss.by, reaches_too_far));
  }

  void tell_gap(const Rule& rule, const Worst& worst, const Piece& piece, Miss& miss) const {
    const Relation& relation = rule.choices[worst.choice][worst.relation];
    const std::size_t body = places_.body.at(piece.name.value);
    if (miss.names.size() < 2) {
      tell_gap_of_copies(relation, body, worst, miss);
      return;
    }
    for (const Beside& beside : piece.beside) {
      if (beside.name.value != miss.names[1]) continue;
      const Edge facing = opposite(beside.side);
      // The gap grows as the piece goes away from its neighbour.
      const Measure start = is_across(facing) ? Measure::left : Measure::top;
      Rational factor = 0;
      for (const Term& term : relation.sum.terms()) {
        if (term.variable == variable(body, start)) factor = term.factor;
      }
      const bool low = facing == Edge::left || facing == Edge::top;
      const bool apart = (factor > 0) == low;
      miss.kind = worst.over == apart ? Miss::Kind::too_far : Miss::Kind::too_near;
      place(miss, strip(box(body), facing, miss.by, miss.kind == Miss::Kind::too_near));
      return;
    }
  }

  void tell_gap_of_copies(const Relation& relation, std::size_t body, const Worst& worst, Miss& miss) const {
    const std::size_t cell = places_.cell.at(miss.names[0]);
    Rational factor = 0;
    for (const Term& term : relation.sum.terms()) {
      if (term.variable / 4 == body) factor = term.factor;
    }
    miss.kind = worst.over == (factor > 0) ? Miss::Kind::too_far : Miss::Kind::too_near;
    place(miss, strip(box(cell), miss.across ? Edge::right : Edge::bottom, miss.by,
                      miss.kind == Miss::Kind::too_near));
  }

  void tell_clearance(const Rule& rule, const Worst& worst, const std::string& piece, Miss& miss) const {
    const std::size_t own = places_.body.at(piece);
    const std::vector<std::size_t> both = rectangles_in(rule);
    const bool first = own == both.front();
    const std::size_t other = first ? both.back() : both.front();
    // Of a pair in file order: left of it, right of it, above it, below it.
    static constexpr Edge facing[] = {Edge::right, Edge::left, Edge::bottom, Edge::top};
    const Edge edge = first ? facing[worst.choice] : opposite(facing[worst.choice]);
    const auto covered = both_cover(box(own), box(other));
    const Rational& clearance = rule.choices[worst.choice][worst.relation].sum.constant();
    if (clearance == 0) {
      miss.kind = Miss::Kind::overlaps;
      if (covered) place(miss, *covered);
      return;
    }
    miss.kind = Miss::Kind::too_near;
    place(miss, strip(box(own), edge, miss.by, true));
  }

  void tell_hidden(const Rule& rule, Miss& miss) const {
    miss.kind = Miss::Kind::overlaps;
    const std::string piece = miss.names.front();
    const std::size_t own = places_.body.at(piece);
    for (const std::size_t i : rectangles_in(rule)) {
      if (is_face(i) || rules_.rectangles[i].kind == Rectangle::Kind::window || name(i) == piece) continue;
      miss.names = {piece, name(i)};
      const auto at = both_cover(box(own), box(places_.body.at(name(i))));
      if (at && face_under(piece) == face_under(name(i))) place(miss, *at);
      return;
    }
  }

  std::vector<Miss> without_repeats() {
    const auto tells = [&](const Told& other, const Told& told) {
      const auto& wide = other.miss.place;
      const auto& place = told.miss.place;
      if (&other == &told || !wide || !place || !lies_in(*place, *wide)) return false;
      const bool other_given = other.miss.spot == Spot{};
      if (told.miss.spot != Spot{})
        return told.leant_on && !other_given && !other.leant_on && told.miss.names == other.miss.names;
      const bool same = lies_in(*wide, *place);
      return !other_given ||
             (told.miss.names.front() == other.miss.names.front() && (!same || &other < &told));
    };
    std::vector<Miss> misses;
    for (const Told& told : told_) {
      const bool repeats =
          std::any_of(told_.begin(), told_.end(), [&](const Told& other) { return tells(other, told); });
      // A wish for one side can say as much in two ways, such as even and at most: the larger tells both.
      const auto same = std::find_if(misses.begin(), misses.end(), [&](const Miss& miss) {
        return told.miss.spot != Spot{} && miss.spot == told.miss.spot && miss.names == told.miss.names &&
               miss.across == told.miss.across && miss.place && told.miss.place &&
               (lies_in(*miss.place, *told.miss.place) || lies_in(*told.miss.place, *miss.place));
      });
      if (repeats) continue;
      if (same == misses.end()) {
        misses.push_back(told.miss);
      } else if (same->by < told.miss.by) {
        *same = told.miss;
      }
    }
    std::stable_sort(misses.begin(), misses.end(), [](const Miss& a, const Miss& b) { return a.by > b.by; });
    return misses;
  }

  const Rules& rules_;
  const std::size_t version_;
  const Design& design_;
  const std::vector<Rational>& values_;
  const Places places_;
  const std::map<Spot, KeyOf> keys_;
  std::vector<Told> told_;
};

}  // namespace

std::vector<Miss> misses_of(const Rules& rules, std::size_t version, const Design& design,
                            const std::vector<Rational>& values) {
  return Misses(rules, version, design, values).run();
}

}  // namespace evenmat
