// An entry of `rules`: sums compared with sums, joined by `and` and `or`. Reading it from text is here;
// what its names stand for on the card is settled in the solver's room.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/length.h"
#include "model/numbered_text.h"
#include "model/rational.h"
#include "model/spot.h"

namespace evenmat {

// A measure of a piece or face, as rules name it. Edges of a tilted layer are those of its bounding
// box; width and height are the cut size.
enum class Line { left, right, top, bottom, width, height, centre_across, centre_down };

// factor * name.line
struct StatementTerm {
  Rational factor;
  std::string name;
  Line line = Line::left;
};

// sum of terms + constant <= 0, or = 0.
struct Comparison {
  std::vector<StatementTerm> terms;
  Rational constant;
  bool equal = false;
};

// That the constant of one comparison holds factor * number.
struct StatementNumber {
  std::size_t number = 0;  // in `Statement::numbered`
  std::size_t choice = 0;
  std::size_t comparison = 0;
  Rational factor = 1;
};

// At least one list of `choices` holds whole (`and` binds tighter than `or`).
struct Statement {
  std::vector<std::vector<Comparison>> choices;
  std::string text;
  Spot spot;
  NumberedText numbered;                 // its lengths (factors of terms are none)
  std::vector<StatementNumber> lengths;  // where they went
};

// `names`: every declared name; the longest one that fits is read first, `'a name'.left` settles doubt.
// On failure `trouble` says what is wrong and `at` is the character (from 0) where it shows.
struct StatementReading {
  std::optional<Statement> statement;
  std::string trouble;
  int at = 0;
};
StatementReading read_statement(std::string_view text, const std::vector<std::string>& names, Unit unit,
                                Spot spot);

}  // namespace evenmat
