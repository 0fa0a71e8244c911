#include "tests/cli/cut_plans.h"

#include <stdexcept>

namespace evenmat::testing {
namespace {

const Rational letter_width = Rational(17) / 2, row = Rational(21) / 4, half = Rational(1) / 2;

LaidPiece mat_at(const Rational& x, const Rational& y) { return {0, x, y, 4, row, false}; }

LaidSheet four_mats() {
  LaidSheet laid;
  laid.letter = "A";
  laid.times = 2;
  laid.pieces = {mat_at(0, 0), mat_at(4, 0), mat_at(0, row), mat_at(4, row)};
  laid.cuts = {{0, 0, letter_width, 11, true, row, 1},   {0, row, letter_width, 11 - row, true, row, 1},
               {0, 0, letter_width, row, false, 4, 2},   {4, 0, letter_width - 4, row, false, 4, 2},
               {0, row, letter_width, row, false, 4, 2}, {4, row, letter_width - 4, row, false, 4, 2}};
  laid.leftovers = {{8, 0, half, row}, {8, row, half, row}, {0, 2 * row, letter_width, half}};
  laid.runs = {{1, {0, 0, 0, 0}}, {1, {0, 0, 0, 1}}};
  laid.used = 4 * 4 * row / (letter_width * 11);
  return laid;
}

LaidSheet three_mats() {
  LaidSheet laid = four_mats();
  laid.letter = "B";
  laid.times = 1;
  laid.pieces.pop_back();
  laid.cuts.pop_back();
  laid.leftovers = {
      {8, 0, half, row}, {4, row, letter_width - 4, row, true}, {0, 2 * row, letter_width, half}};
  laid.runs = {{1, {1, 1, 1}}};
  laid.used = 3 * 4 * row / (letter_width * 11);
  return laid;
}

StepYield strip(const Rational& width, const Rational& height, int count) {
  return {StepYield::What::strip, {width, height}, 0, count};
}
StepYield left(const Rational& width, const Rational& height, int count) {
  return {StepYield::What::leftover, {width, height}, 0, count};
}
StepYield mats(int count) { return {StepYield::What::piece, {4, row}, 0, count}; }

SheetWork rows_of(std::size_t laid, int sheets) {
  return {laid,
          true,
          strip(letter_width, 11, sheets),
          2,
          {strip(letter_width, row, 2 * sheets), left(letter_width, half, sheets)},
          true};
}

std::vector<CutStep> two_steps() {
  return {{1, row, {rows_of(0, 2), rows_of(1, 1)}},
          {2,
           4,
           {{0, false, strip(letter_width, row, 4), 2, {mats(8), left(half, row, 4)}, true},
            {1, false, strip(letter_width, row, 1), 2, {mats(2), left(half, row, 1)}, true},
            {1, false, strip(letter_width, row, 1), 1, {mats(1), left(letter_width - 4, row, 1)}, false}}}};
}

}  // namespace

void Planned::add(const std::string& file, std::string_view text) {
  CardReading reading = read_card(text);
  if (!reading.card) throw std::runtime_error("no card: " + reading.mistakes.front().says);
  cards.push_back(std::move(*reading.card));
  sized.push_back(size_card(cards.back(), {}));
  batch_cards.push_back({file, &cards.back(), &sized.back()});
}

CutTelling Planned::telling() const {
  static const Style plain;
  return {batch_cards, more, batch, plain};
}

Planned three_sheets() {
  Planned planned;
  planned.add("fern.toml", fern_fair);
  PaperPlan moss;
  moss.paper = "moss";
  PieceUse plain{0, 0, "moss mat", false, 7, Rough::none, {4, row}, false};
  PieceUse choir = plain;
  choir.version = 1;
  choir.count = 4;
  moss.pieces = {{{4, row}, true, true, {plain, choir}, 11}};
  CutSheet letter;
  letter.size = {letter_width, 11};
  letter.have = 4;
  letter.file = "fern.toml";
  moss.stock = {letter};
  moss.plan = {four_mats(), three_mats()};
  moss.steps = two_steps();
  moss.sheets = 3;
  moss.at_least = 3;
  moss.proven = true;
  planned.batch.papers = {moss};
  planned.batch.no_paper = {{0, "base", "it states no paper"}};
  planned.batch.made = {{7, 4}};
  planned.batch.totals = {Rational(25) / 2, 204, {{"ribbon", 22}}};
  return planned;
}

}  // namespace evenmat::testing
