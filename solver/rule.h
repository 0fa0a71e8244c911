// The narrow waist: a card as a flat list of rules over the lefts, tops, widths and heights of named
// rectangles. Everything that solves reads only this; everything that explains prints only this.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/edge.h"
#include "model/numbered_text.h"
#include "model/rational.h"
#include "model/spot.h"

namespace evenmat {

// A rectangle has four variables, numbered 4 * rectangle + Measure. Left and top are those of its box on
// its face (of the bounding box, if it is tilted); width and height are its cut size.
enum class Measure { left, top, width, height };
using Variable = std::size_t;
constexpr Variable variable(std::size_t rectangle, Measure measure) {
  return 4 * rectangle + static_cast<std::size_t>(measure);
}

// Sum of factor * variable, plus a constant. Terms are sorted by variable, without zeros or doubles.
struct Term {
  Variable variable = 0;
  Rational factor;
};
class Sum {
 public:
  Sum() = default;
  Sum(Rational constant) : constant_(std::move(constant)) {}  // NOLINT: a number is a sum
  Sum(int constant) : constant_(constant) {}                  // NOLINT
  static Sum of(Variable variable, Rational factor = 1);

  [[nodiscard]] const std::vector<Term>& terms() const { return terms_; }
  [[nodiscard]] const Rational& constant() const { return constant_; }
  [[nodiscard]] bool is_constant() const { return terms_.empty(); }
  [[nodiscard]] Rational at(const std::vector<Rational>& values) const;

  Sum& operator+=(const Sum& other) { return add(other, 1); }
  Sum& operator-=(const Sum& other) { return add(other, -1); }
  Sum& operator*=(const Rational& factor);
  Sum& add(const Sum& other, const Rational& factor);
  friend Sum operator+(Sum a, const Sum& b) { return a += b; }
  friend Sum operator-(Sum a, const Sum& b) { return a -= b; }
  friend Sum operator*(Sum a, const Rational& factor) { return a *= factor; }

 private:
  std::vector<Term> terms_;
  Rational constant_ = 0;
};

// sum <= 0, or sum = 0.
struct Relation {
  Sum sum;
  bool equal = false;
};
Relation at_most(const Sum& a, const Sum& b);   // a <= b
Relation at_least(const Sum& a, const Sum& b);  // a >= b
Relation equals(const Sum& a, const Sum& b);
bool holds(const Relation& relation, const std::vector<Rational>& values);

enum class Origin {
  given,     // implied by the paper's geometry and the card's frame: never questioned
  stated,    // a wish or rule of the maker's
  preferred  // how what is open is chosen: see `Aim`
};

// A number that the maker wrote and could write otherwise. The same number is one, however many rules and
// versions of the card it binds.
struct StatedNumber {
  Spot spot;              // of the wish, size or statement it stands in
  std::string text;       // that whole, as the maker wrote it
  NumberedText numbered;  // the same, with its numbers
  std::size_t place = 0;  // in `numbered.numbers`
  std::string about;      // what it says in words ("the width of band"); empty for a number of `rules`
  std::optional<Rational> least;  // no smaller value can be written
  bool artwork = false;           // never offered to be changed
  Rational step = 0;              // values offered are multiples of it; 0: of the mark

  [[nodiscard]] const NumberIn& number() const { return numbered.numbers[place]; }
};

// The constant of one relation holds factor * number.
struct Use {
  std::size_t number = 0;  // in `Rules::numbers`
  std::size_t choice = 0;
  std::size_t relation = 0;
  Rational factor;
};

// How the length in a rule is told when it enters a sum.
struct Amount {
  std::string of;             // an extent: whose ("band"); else what adds to it ("the border of band")
  bool extent = false;        // a width or height
  std::optional<Edge> side;   // where it is added, if at one side
  std::size_t rectangle = 0;  // whose rule it is
};

// At least one of `choices` holds whole. Most rules have one choice of one relation.
struct Rule {
  std::vector<std::vector<Relation>> choices;
  std::string says;  // a sentence in a card maker's words
  Spot spot;
  Origin origin = Origin::given;
  std::size_t wish = 0;      // stated rules: the wish it belongs to; a wish is one unit in conflicts
  std::size_t version = 0;   // 0: the plain card; then the variants in order
  bool leant_on = false;     // another wish is about what this one says, such as the gap to what is beside it
  bool keeps_apart = false;  // its choices are the four ways two boxes lie apart, across first
  Amount amount;
  std::vector<Use> uses;
};
bool holds(const Rule& rule, const std::vector<Rational>& values);

// The steps in which what is not stated is chosen, in their order.
enum class Step {
  about,         // 1
  even_sides,    // 2: a layer's own opposite sides alike
  usual_border,  // 2: near the usual border
  on_marks,      // 2: borders on marks, where that costs nothing above
  alike,         // 3: variants alike
  artwork,       // 4
  sizes,         // 5: the smallest raised as far as it goes, then the next
  larger_first,  // 5: what is left, larger in file order
  spaces,        // 6: the smallest space raised as far as it goes, then the next
  least_place    // 7
};

// One preference. What `sum` is for, by step:
//   about, even_sides, usual_border   its distance from 0 is made least, in total over the step
//   on_marks, alike                   counts 1 unless it is 0 (alike) or a multiple of the mark (on_marks)
//   artwork                           made least, in total over the step
//   sizes, spaces                     the smallest is raised, then the next
//   larger_first, least_place         made largest (least), one after the other
struct Aim {
  Step step = Step::about;
  Sum sum;
  std::string says;
  Spot spot;  // of the wish it comes from, if from one
};

// Two pieces on the same thing that may not overlap: choice i of `rule` keeps them apart by gaps[i] (first
// left of second, right of it, above it, below it). Their gaps are spaces; which of them count is told where
// the spaces are raised.
struct Separation {
  std::size_t rule = 0;
  std::size_t first = 0, second = 0;  // rectangles
  std::vector<Sum> gaps;
  std::optional<std::size_t> stated;  // the direction in which the maker says they lie apart
};

struct Rectangle {
  // thickness: no rectangle, but what lies under a layer: foam is its width, adhesive its height
  enum class Kind { face, layer, window, copies, artwork, thickness };
  Kind kind = Kind::layer;
  std::string name;
  std::size_t version = 0;  // 0: the plain card; then the variants in order
  bool width_on_marks = false;
  bool height_on_marks = false;
  // Box width = box_cos * width + box_sin * height, and the like down: 1 and 0 unless tilted; else
  // bounds from above within 1e-12.
  Rational box_cos = 1;
  Rational box_sin = 0;
  std::optional<std::size_t> on;  // what it lies on; none for faces
};

struct Rules {
  std::vector<Rectangle> rectangles;
  std::vector<Rule> rules;
  std::vector<Aim> aims;  // in file order within a step
  std::vector<Separation> separations;
  std::vector<StatedNumber> numbers;
  Rational mark;

  [[nodiscard]] std::size_t variables() const { return 4 * rectangles.size(); }
};

}  // namespace evenmat
