// Dynamic programming over the marks. What a box and all within it add to the total depends only on its own
// width and height, and never falls as those grow; so a box takes all the room it is given. Up to four
// boxes that lie apart can always be parted by straight cuts one after the other (the smallest arrangement
// that cannot is the pinwheel of five), gaps and all, once each box is taken with the gap to its right and
// below. So the best sharing of a room among boxes is the best over all first cuts and all ways of dealing
// the boxes to its sides. Guillotine recursions of this kind: Gilmore and Gomory, "Multistage cutting stock
// problems of two and more dimensions", Operations Research 13 (1965) 94-120.
#include "solver/search/nested_boxes.h"

#include <algorithm>
#include <limits>
#include <map>

namespace evenmat {
namespace {

struct OtherKind {};

constexpr int none = std::numeric_limits<int>::min() / 4;
constexpr std::size_t most_children = 4;
constexpr long long most_work = 2'000'000'000;

struct Box {
  std::optional<std::size_t> parent;
  std::vector<std::size_t> children;
  int border[4] = {-1, -1, -1, -1};  // by measure of the near edge (left, top), then of the far one
  int least[2] = {0, 0};             // width, height
};

// Everything in whole marks.
struct Nest {
  std::vector<Box> boxes;
  std::size_t root = 0;
  int left = 0;
  int top = 0;
  int width = 0;
  int height = 0;
  int gap = -1;
  std::map<std::pair<std::size_t, std::size_t>, int> pairs;
};

class Reader {
 public:
  explicit Reader(const Rules& rules) : rules_(rules) { nest_.boxes.resize(rules.rectangles.size()); }

  Nest read() {
    for (const Rectangle& rectangle : rules_.rectangles) {
      const bool tilted = rectangle.box_cos != 1 || rectangle.box_sin != 0;
      if (!rectangle.width_on_marks || !rectangle.height_on_marks || tilted) throw OtherKind{};
    }
    for (const Rule& rule : rules_.rules) {
      if (rule.choices.size() == 1) {
        for (const Relation& relation : rule.choices.front()) read_relation(relation);
      } else {
        read_pair(rule);
      }
    }
    finish();
    return nest_;
  }

 private:
  int marks(const Rational& length) const {
    if (!is_multiple(length, rules_.mark) || abs(length) > 100000 * rules_.mark) throw OtherKind{};
    return static_cast<int>(Integer(boost::multiprecision::numerator(Rational(length / rules_.mark))));
  }

  static Sum of(std::size_t box, Measure measure) { return Sum::of(variable(box, measure)); }

  static bool same(const Sum& a, const Sum& b) {
    const Sum difference = a - b;
    return difference.is_constant() && difference.constant() == 0;
  }

  void read_relation(const Relation& relation) {
    const auto& terms = relation.sum.terms();
    if (terms.empty()) throw OtherKind{};
    if (relation.equal) {
      if (terms.size() != 1 || terms.front().factor != 1) throw OtherKind{};
      fixed_[terms.front().variable] = marks(-relation.sum.constant());
      return;
    }
    const int amount = marks(relation.sum.constant());
    if (terms.size() == 1) {  // least size
      const Variable v = terms.front().variable;
      if (v % 4 < 2 || terms.front().factor != -1) throw OtherKind{};
      int& least = nest_.boxes[v / 4].least[v % 4 - 2];
      least = std::max(least, amount);
      return;
    }
    read_border(relation.sum, amount);
  }

  // outer.near - inner.near + border <= 0, or inner.near + inner.size - outer.near - outer.size + border <=
  // 0.
  void read_border(const Sum& sum, int amount) {
    const Variable first = sum.terms().front().variable;
    const Variable last = sum.terms().back().variable;
    const std::size_t a = first / 4;
    const std::size_t b = last / 4;
    for (const auto& [outer, inner] : {std::pair{a, b}, std::pair{b, a}}) {
      for (const std::size_t down : {std::size_t{0}, std::size_t{1}}) {
        const auto near = static_cast<Measure>(down);
        const auto size = static_cast<Measure>(down + 2);
        const Sum low = of(outer, near) - of(inner, near) + sum.constant();
        const Sum high =
            of(inner, near) + of(inner, size) - of(outer, near) - of(outer, size) + sum.constant();
        if (!same(sum, low) && !same(sum, high)) continue;
        Box& box = nest_.boxes[inner];
        if (box.parent && *box.parent != outer) throw OtherKind{};
        box.parent = outer;
        int& border = box.border[down + (same(sum, high) ? 2 : 0)];
        border = std::max(border, amount);
        return;
      }
    }
    throw OtherKind{};
  }

  void read_pair(const Rule& rule) {
    if (rule.choices.size() != 4 || rule.choices.front().size() != 1) throw OtherKind{};
    const Sum& one = rule.choices.front().front().sum;
    if (one.terms().size() != 3) throw OtherKind{};
    const std::size_t a = one.terms().front().variable / 4;
    const std::size_t b = one.terms().back().variable / 4;
    const Sum gap(one.constant());
    const auto beyond = [&](std::size_t first, std::size_t second, Measure near, Measure size) {
      return of(first, near) + of(first, size) - of(second, near) + gap;
    };
    std::vector<Sum> wanted = {
        beyond(a, b, Measure::left, Measure::width), beyond(b, a, Measure::left, Measure::width),
        beyond(a, b, Measure::top, Measure::height), beyond(b, a, Measure::top, Measure::height)};
    for (const auto& choice : rule.choices) {
      if (choice.size() != 1 || choice.front().equal) throw OtherKind{};
      const auto found = std::find_if(wanted.begin(), wanted.end(),
                                      [&](const Sum& sum) { return same(sum, choice.front().sum); });
      if (found == wanted.end()) throw OtherKind{};
      wanted.erase(found);
    }
    const int amount = marks(gap.constant());
    if (amount < 0) throw OtherKind{};
    if (nest_.gap >= 0 && nest_.gap != amount) throw OtherKind{};
    nest_.gap = amount;
    nest_.pairs[std::minmax(a, b)] = amount;
  }

  void finish() {
    std::optional<std::size_t> root;
    for (std::size_t i = 0; i < nest_.boxes.size(); ++i) {
      Box& box = nest_.boxes[i];
      if (!box.parent) {
        if (root) throw OtherKind{};
        root = i;
        continue;
      }
      if (*std::min_element(box.border, box.border + 4) < 0) throw OtherKind{};
      nest_.boxes[*box.parent].children.push_back(i);
    }
    if (!root || fixed_.size() != 4) throw OtherKind{};
    nest_.root = *root;
    for (const Measure measure : {Measure::left, Measure::top, Measure::width, Measure::height}) {
      if (!fixed_.contains(variable(*root, measure))) throw OtherKind{};
    }
    nest_.left = fixed_[variable(*root, Measure::left)];
    nest_.top = fixed_[variable(*root, Measure::top)];
    nest_.width = fixed_[variable(*root, Measure::width)];
    nest_.height = fixed_[variable(*root, Measure::height)];
    std::size_t expected = 0;
    for (const Box& box : nest_.boxes) {
      if (box.children.size() > most_children) throw OtherKind{};
      for (std::size_t i = 0; i < box.children.size(); ++i) {
        for (std::size_t j = i + 1; j < box.children.size(); ++j, ++expected) {
          if (!nest_.pairs.contains(std::minmax(box.children[i], box.children[j]))) throw OtherKind{};
        }
      }
    }
    if (expected != nest_.pairs.size()) throw OtherKind{};
    for (const Box& box : nest_.boxes) {
      for (const std::size_t child : box.children) {
        const Box& first = nest_.boxes[box.children.front()];
        if (!std::equal(first.border, first.border + 4, nest_.boxes[child].border)) throw OtherKind{};
      }
    }
    nest_.gap = std::max(nest_.gap, 0);
    const long long area = (nest_.width + 1LL) * (nest_.height + 1LL);
    if (area * (nest_.width + nest_.height) * static_cast<long long>(nest_.boxes.size()) * 8 > most_work) {
      throw OtherKind{};
    }
  }

  const Rules& rules_;
  Nest nest_;
  std::map<Variable, int> fixed_;
};

// The most that something adds to the total, by the room's width and height.
class Table {
 public:
  Table(int width, int height)
      : height_(height),
        most_(static_cast<std::size_t>(width + 1) * static_cast<std::size_t>(height + 1), none) {}
  [[nodiscard]] int at(int w, int h) const { return w < 0 || h < 0 ? none : most_[place(w, h)]; }
  void raise(int w, int h, int value) {
    int& now = most_[place(w, h)];
    now = std::max(now, value);
  }

 private:
  [[nodiscard]] std::size_t place(int w, int h) const {
    return static_cast<std::size_t>(w) * static_cast<std::size_t>(height_ + 1) + static_cast<std::size_t>(h);
  }
  int height_;
  std::vector<int> most_;
};

class Sharing {
 public:
  explicit Sharing(const Nest& nest)
      : nest_(nest), own_(nest.boxes.size(), Table(0, 0)), shared_(nest.boxes.size()) {
    fill(nest.root);
  }

  [[nodiscard]] int total() const { return own_[nest_.root].at(nest_.width, nest_.height); }

  // Lays a box out in the room it is given: its corner, width and height by variable, in marks.
  void lay(std::size_t i, int x, int y, int w, int h, std::vector<int>& values) const {
    const Box& box = nest_.boxes[i];
    values[variable(i, Measure::left)] = x;
    values[variable(i, Measure::top)] = y;
    values[variable(i, Measure::width)] = w;
    values[variable(i, Measure::height)] = h;
    if (box.children.empty()) return;
    const int* border = nest_.boxes[box.children.front()].border;
    share(i, all(box), x + border[0], y + border[1], w - border[0] - border[2], h - border[1] - border[3],
          values);
  }

 private:
  // Children are dealt as sets, one bit for each.
  static std::size_t all(const Box& box) { return (std::size_t{1} << box.children.size()) - 1; }
  static bool is_one(std::size_t set) { return (set & (set - 1)) == 0; }
  [[nodiscard]] std::size_t only(std::size_t i, std::size_t set) const {
    std::size_t at = 0;
    while ((set >> at) != 1) ++at;
    return nest_.boxes[i].children[at];
  }

  // Calls use(part, rest) for every way to deal a set to two sides, each way once.
  template <typename Use>
  static void deal(std::size_t set, Use use) {
    const std::size_t lowest = set & (~set + 1);
    for (std::size_t part = (set - 1) & set; part != 0; part = (part - 1) & set) {
      if ((part & lowest) != 0) use(part, set ^ part);
    }
  }

  // Calls use(part, rest, size of the part's side, whether the sides lie one below the other) for every
  // first cut of a room.
  template <typename Use>
  void cuts(std::size_t set, int w, int h, Use use) const {
    deal(set, [&](std::size_t part, std::size_t rest) {
      for (int x = 0; x + nest_.gap <= w; ++x) use(part, rest, x, false);
      for (int y = 0; y + nest_.gap <= h; ++y) use(part, rest, y, true);
    });
  }

  [[nodiscard]] const Table& table(std::size_t i, std::size_t set) const {
    return is_one(set) ? own_[only(i, set)] : shared_[i][set];
  }

  [[nodiscard]] int cut_total(std::size_t i, std::size_t part, std::size_t rest, int at, bool below, int w,
                              int h) const {
    return below ? table(i, part).at(w, at) + table(i, rest).at(w, h - nest_.gap - at)
                 : table(i, part).at(at, h) + table(i, rest).at(w - nest_.gap - at, h);
  }

  void fill(std::size_t i) {
    const Box& box = nest_.boxes[i];
    for (const std::size_t child : box.children) fill(child);
    auto& shared = shared_[i];
    shared.assign(box.children.empty() ? 0 : all(box) + 1, Table(0, 0));
    for (std::size_t set = 1; set < shared.size(); ++set) {
      if (is_one(set)) continue;
      shared[set] = Table(nest_.width, nest_.height);
      for (int w = 0; w <= nest_.width; ++w) {
        for (int h = 0; h <= nest_.height; ++h) {
          int most = none;
          cuts(set, w, h, [&](std::size_t part, std::size_t rest, int at, bool below) {
            most = std::max(most, cut_total(i, part, rest, at, below, w, h));
          });
          shared[set].raise(w, h, most);
        }
      }
    }
    own_[i] = Table(nest_.width, nest_.height);
    const int* border = box.children.empty() ? nullptr : nest_.boxes[box.children.front()].border;
    for (int w = std::max(box.least[0], 0); w <= nest_.width; ++w) {
      for (int h = std::max(box.least[1], 0); h <= nest_.height; ++h) {
        const int within = border == nullptr
                               ? 0
                               : table(i, all(box)).at(w - border[0] - border[2], h - border[1] - border[3]);
        if (within > none / 2) own_[i].raise(w, h, w + h + within);
      }
    }
  }

  // The same cuts again, for the one that the total came from.
  void share(std::size_t i, std::size_t set, int x, int y, int w, int h, std::vector<int>& values) const {
    if (is_one(set)) return lay(only(i, set), x, y, w, h, values);
    const int total = table(i, set).at(w, h);
    bool laid = false;
    cuts(set, w, h, [&](std::size_t part, std::size_t rest, int at, bool below) {
      if (laid || cut_total(i, part, rest, at, below, w, h) != total) return;
      laid = true;
      const int beyond = at + nest_.gap;
      share(i, part, x, y, below ? w : at, below ? at : h, values);
      share(i, rest, below ? x : x + beyond, below ? y + beyond : y, below ? w : w - beyond,
            below ? h - beyond : h, values);
    });
  }

  const Nest& nest_;
  std::vector<Table> own_;
  std::vector<std::vector<Table>> shared_;
};

}  // namespace

std::optional<LargestTotal> largest_total(const Rules& rules) {
  try {
    const Nest nest = Reader(rules).read();
    const Sharing sharing(nest);
    if (sharing.total() <= none / 2) return std::nullopt;
    std::vector<int> laid(rules.variables(), 0);
    sharing.lay(nest.root, nest.left, nest.top, nest.width, nest.height, laid);
    LargestTotal found{rules.mark * sharing.total(), {}};
    for (const int marks : laid) found.values.push_back(rules.mark * marks);
    return found;
  } catch (const OtherKind&) {
    return std::nullopt;
  }
}

}  // namespace evenmat
