// What every part of a cutting report tells about, and the names and sizes that they all say alike.
#pragma once

#include <cstddef>
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "solver/cut_batch.h"

namespace evenmat {

struct CutTelling {
  const std::vector<BatchCard>& cards;
  const std::vector<MorePaper>& more;
  const CutBatch& batch;
  const Style& style;
  std::vector<std::size_t> no_spare_stated = {};  // these cards say nothing of spares

  // Of all lengths in `batch`.
  [[nodiscard]] Unit unit() const { return cards.front().card->unit; }
  [[nodiscard]] bool one_card() const { return cards.size() == 1; }
};

// How many cards the plan is for; and of one card file.
int cards_made(const CutBatch& batch);
int cards_made(const CutBatch& batch, std::size_t card);

// The title of a card, where it has one and no other has the same; else its file.
std::string card_name(const CutTelling& telling, std::size_t card);

// "the plain card", or the variant's name.
std::string version_name(const CutTelling& telling, std::size_t card, std::size_t version);

// Which layer a piece is, and of which card where there are several.
std::string layer_name(const CutTelling& telling, const PieceUse& use);

// The layers that pieces of one kind become: "indigo mat or edge strip".
std::string kind_name(const CutPiece& piece);

// "3 x 5 1/4" and "5 1/4", without the unit. Their blanks are such as no line ends at: `with_plain_blanks`
// makes plain ones of them once lines are made.
std::string size_words(const Size& size, Unit unit);
std::string measure_words(const Rational& length, Unit unit);
std::string with_plain_blanks(std::string text);

// With its sides the other way round.
Size turned(const Size& size);

// "1/16", as a card file takes it.
std::string exact_words(const Rational& length, Unit unit);

// A number that need not be a length, with at most three places: "3", "1.25".
std::string amount_words(const Rational& amount);

// "1, 2 and 5", "1 to 4 and 6": what stands for each number, of three or more in a row the first and the
// last.
std::string run_words(const std::set<std::size_t>& numbers,
                      const std::function<std::string(std::size_t)>& word);

// How many of the stock's sheets, offcuts too, the plan takes.
int taken(const PaperPlan& paper, std::size_t stock);

}  // namespace evenmat
