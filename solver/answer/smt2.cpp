// The rules as SMT-LIB 2.6 text, so that any solver of that standard can check a verdict.
#include <fmt/format.h>

#include "solver/size_card.h"

namespace evenmat {
namespace {

std::string number(const Rational& value) {
  const Integer over = boost::multiprecision::numerator(value);
  const Integer under = boost::multiprecision::denominator(value);
  const std::string size = fmt::format("{}.0", Integer(abs(over)).str());
  const std::string magnitude = under == 1 ? size : fmt::format("(/ {} {}.0)", size, under.str());
  return over < 0 ? fmt::format("(- {})", magnitude) : magnitude;
}

std::string sum_text(const Sum& sum) {
  std::string text = "(+ " + number(sum.constant());
  for (const Term& term : sum.terms()) text += fmt::format(" (* {} v{})", number(term.factor), term.variable);
  return text + (sum.terms().empty() ? " 0.0)" : ")");
}

std::string choice_text(const std::vector<Relation>& choice) {
  std::string text = "(and true";
  for (const Relation& relation : choice) {
    text += fmt::format(" ({} {} 0.0)", relation.equal ? "=" : "<=", sum_text(relation.sum));
  }
  return text + ")";
}

}  // namespace

std::string smt2_text(const Rules& rules) {
  std::string text = "(set-logic QF_LIRA)\n";
  static constexpr const char* measures[] = {"left", "top", "width", "height"};
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& rectangle = rules.rectangles[i];
    for (std::size_t m = 0; m < 4; ++m) {
      text += fmt::format("(declare-const v{} Real) ; {} of rectangle {}, card {}\n", 4 * i + m, measures[m],
                          i, rectangle.version);
    }
    const auto on_marks = [&](bool is_on, std::size_t m) {
      if (!is_on) return;
      text += fmt::format("(declare-const k{0} Int)\n(assert (= v{0} (* {1} (to_real k{0}))))\n", 4 * i + m,
                          number(rules.mark));
    };
    on_marks(rectangle.width_on_marks, 2);
    on_marks(rectangle.height_on_marks, 3);
  }
  for (const Rule& rule : rules.rules) {
    text += "(assert (or false";
    for (const auto& choice : rule.choices) text += " " + choice_text(choice);
    text += "))\n";
  }
  return text + "(check-sat)\n";
}

}  // namespace evenmat
