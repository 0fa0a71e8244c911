// The family nest(n): n rectangles counting the front, which is 4 1/4 x 5 1/2 and fixed. Rectangle i lies on
// rectangle (i - 1) / 3 with a border of at least 1/8, at least 1/16 apart from the others there, and is at
// least 1/4 wide and tall. All of it on marks of 1/16. Asked for is the largest total of widths and heights.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "solver/rule.h"

namespace evenmat::testing {

class Nest {
 public:
  Nest(std::size_t n, std::size_t on_each) {
    rules_.mark = Rational(1, 16);
    for (std::size_t i = 0; i < n; ++i) {
      Rectangle rectangle;
      rectangle.kind = i == 0 ? Rectangle::Kind::face : Rectangle::Kind::layer;
      rectangle.name = std::to_string(i);
      rectangle.width_on_marks = rectangle.height_on_marks = true;
      rules_.rectangles.push_back(std::move(rectangle));
    }
    fix_front();
    for (std::size_t i = 1; i < n; ++i) lay(i, (i - 1) / on_each);
    for (std::size_t i = 1; i < n; ++i) {
      for (std::size_t j = i + 1; j < n && (j - 1) / on_each == (i - 1) / on_each; ++j) keep_apart(i, j);
    }
  }

  [[nodiscard]] const Rules& rules() const { return rules_; }

 private:
  static Sum of(std::size_t i, Measure measure) { return Sum::of(variable(i, measure)); }
  static Sum right(std::size_t i) { return of(i, Measure::left) + of(i, Measure::width); }
  static Sum bottom(std::size_t i) { return of(i, Measure::top) + of(i, Measure::height); }

  void give(std::vector<std::vector<Relation>> choices) {
    Rule rule;
    rule.choices = std::move(choices);
    rules_.rules.push_back(std::move(rule));
  }

  void fix_front() {
    give({{equals(of(0, Measure::left), 0)}});
    give({{equals(of(0, Measure::top), 0)}});
    give({{equals(of(0, Measure::width), Rational(17, 4))}});
    give({{equals(of(0, Measure::height), Rational(11, 2))}});
  }

  void lay(std::size_t i, std::size_t on) {
    const Rational border(1, 8);
    give({{at_least(of(i, Measure::width), Rational(1, 4))}});
    give({{at_least(of(i, Measure::height), Rational(1, 4))}});
    give({{at_least(of(i, Measure::left) - of(on, Measure::left), border)}});
    give({{at_least(of(i, Measure::top) - of(on, Measure::top), border)}});
    give({{at_least(right(on) - right(i), border)}});
    give({{at_least(bottom(on) - bottom(i), border)}});
  }

  void keep_apart(std::size_t i, std::size_t j) {
    const Rational gap(1, 16);
    give({{at_least(of(j, Measure::left) - right(i), gap)},
          {at_least(of(i, Measure::left) - right(j), gap)},
          {at_least(of(j, Measure::top) - bottom(i), gap)},
          {at_least(of(i, Measure::top) - bottom(j), gap)}});
  }

  Rules rules_;
};

// With another number on each, another family of the same kind.
inline Rules nest(std::size_t n, std::size_t on_each = 3) { return Nest(n, on_each).rules(); }

// The widths and heights of all of them, in one sum.
inline Sum total_of(const Rules& rules) {
  Sum total;
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    total += Sum::of(variable(i, Measure::width)) + Sum::of(variable(i, Measure::height));
  }
  return total;
}

}  // namespace evenmat::testing
