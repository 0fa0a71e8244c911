// From sized cards to the plan by which a whole batch of them is cut: which pieces, from which sheets, by
// which cuts in which order; what is short, and what is left. What a report needs and nothing of how it was
// found. Lengths are in the unit of the first card. Frame of a sheet: origin top left, x right, y down, as it
// lies.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// A card of the batch, sized and buildable. What it points to must outlive the plan.
struct BatchCard {
  std::string file;  // as messages call it
  const Card* card = nullptr;
  const SizedCard* sized = nullptr;
};

// Paper beside what the cards state: left over from an earlier job.
struct MorePaper {
  std::string file;
  Unit unit = Unit::inch;
  std::vector<Paper> papers;
};

struct CutOptions {
  double limit = 30;              // seconds
  bool most = false;              // as many cards as the paper gives, instead of the batch
  bool grain_along_fold = false;  // bases are cut with the grain along their first score
  std::function<void(std::string_view)> at_work = {};
};

// What a piece is larger for than its layer will be.
enum class Rough { none, die, by_hand, stamp_first };

// Of a layer that is cut by a die, by hand or once it is stamped: the size that it is first cut to, in the
// card's unit; of others none.
std::optional<Size> rough_size(const Card& card, const PlacedPiece& layer);

// So many pieces of a kind are for this layer of this version of this card.
struct PieceUse {
  std::size_t card = 0;
  std::size_t version = 0;
  std::string layer;  // "base" for a base's blank
  bool base = false;
  int count = 0;  // spares and copies among them
  Rough rough = Rough::none;
  Size finished;        // what it will be in the end
  bool turned = false;  // against its kind: what is its width is the kind's height
};

// Everything of one size that is cut from one paper and may lie alike.
struct CutPiece {
  Size size;                           // as it is cut from the sheet
  bool upright = true, turned = true;  // may lie as it stands; turned by a quarter
  std::vector<PieceUse> uses;
  int count = 0;
};

// Sheets of one size to cut from.
struct CutSheet {
  enum class From { stated, more, cut_back, window, hollow };
  From from = From::stated;
  Size size;                // as it lies
  std::optional<int> have;  // unstated: as many as are wanted
  std::optional<Rational> cost;
  Rational trim_first;  // off its bottom edge, before all else
  std::string file;     // stated, more: which file, and where in it
  Spot spot;
  std::string comes_of;  // of an offcut: the layer, window or base that gives it
  bool up = false;
  std::string grain;  // "long", "short" or empty
  bool keep = false;  // an offcut that is large enough to be worth keeping, should it be left over
  // An offcut is no sheet: it is neither counted nor paid for.
  [[nodiscard]] bool is_offcut() const { return from != From::stated && from != From::more; }
};

struct LaidPiece {
  std::size_t kind = 0;
  Rational x, y, width, height;  // as it lies
  bool turned = false;
};

// Of the rectangle in hand, `at` from its left edge, or from its top where the cut runs across (left to
// right). What lies before it comes off; what lies behind, less the blade's loss, stays in hand.
struct SheetCut {
  Rational x, y, width, height;
  bool across = false;
  Rational at;
  std::size_t step = 0;  // the number of its step
};

struct Leftover {
  Rational x, y, width, height;
  bool keep = false;  // large enough to be worth it
};

// Which uses the pieces of so many of a layout's sheets are for.
struct LabelledRun {
  int times = 0;
  std::vector<std::size_t> uses;  // of each piece: in its kind's uses
};

// So many sheets that are cut alike.
struct LaidSheet {
  std::string letter;  // "A", "B", ... of its paper
  std::size_t sheet = 0;
  int times = 1;
  std::vector<LaidPiece> pieces;
  std::vector<SheetCut> cuts;  // in the order made
  std::vector<Leftover> leftovers;
  std::vector<LabelledRun> runs;  // their times add up to `times`
  Rational used;                  // share of the sheet that becomes pieces
};

// What a cut gives, or what is taken in hand for it.
struct StepYield {
  enum class What { piece, strip, leftover };
  What what = What::strip;
  Size size;
  std::size_t kind = 0;  // of a piece
  int count = 0;         // from all sheets of the layout together
};

struct SheetWork {
  std::size_t laid = 0;  // in the plan's sheets
  bool across = false;   // the cuts run left to right on the sheet as it lies
  StepYield from;        // so many are taken in hand
  int cuts = 1;          // of each
  std::vector<StepYield> yields;
  bool hold = false;  // to be held with removable tape
};

// One setting of the trimmer, and all that is cut at it.
struct CutStep {
  std::size_t number = 1;
  Rational set;
  std::vector<SheetWork> works;
};

// What a paper lacks for the whole batch.
struct Shortage {
  Size sheet;                         // of such, as it lies
  int sheets = 0;                     // so many more would do; 0: no number of them would
  int at_least = 0;                   // and no fewer; 0 where it is not known whether one is wanted at all
  std::optional<CutPiece> too_large;  // can be cut from no sheet that is stated, however many there are
  std::optional<Rational> by;         // it sticks out so far, on the best sheet and however it lies
  std::string says;                   // a sentence, the paper's name in it
};

// Fewer sheets than the batch is planned with, or would want, were trims as narrow as this allowed.
struct NarrowerTrims {
  Rational sliver;  // the narrowest that such a plan makes; 0: the blade takes some rest whole
  int sheets = 0;
};

// Pieces, stock, plan and steps are for the cards that are `made`; for the whole batch where none is.
struct PaperPlan {
  std::string paper;
  std::vector<CutPiece> pieces;
  std::vector<CutSheet> stock;
  std::vector<LaidSheet> plan;  // empty when none can be made of it
  std::vector<CutStep> steps;
  int sheets = 0;    // used; offcuts are none
  int at_least = 0;  // no plan uses fewer (none at so low a cost, where costs are stated)
  std::optional<Rational> cost, cost_at_least;
  bool proven = false;            // fewest sheets, or least cost where costs are stated
  std::vector<Shortage> missing;  // several where no one size alone makes up for what is lacking
  std::optional<NarrowerTrims> with_narrower_trims;
  std::string trouble;  // why it could not be planned at all, in a sentence; empty if it could
};

struct NotCut {
  std::size_t card = 0;
  std::string layer;
  std::string why;  // "it states no paper", "it comes ready-made"
};

struct BatchTotals {
  Rational foam;      // area under all raised layers, in square units
  Rational adhesive;  // length once round every layer that is glued flat
  std::vector<std::pair<std::string, Rational>> supplies;
};

enum class CutVerdict { planned, short_of_paper, undecided };

struct CutBatch {
  CutVerdict verdict = CutVerdict::planned;
  std::vector<PaperPlan> papers;  // in the order in which the cards state them
  std::vector<NotCut> no_paper;   // each layer once
  // Cards of each version of each card that the plan is for, spares among them.
  std::vector<std::vector<int>> made;
  // Short, or asked for: the most cards the paper gives, spares among them. Absent where it was asked for and
  // no paper sets a limit: the plan is the batch's then.
  std::optional<int> most;
  bool most_proven = false;
  BatchTotals totals;
  bool time_ran_out = false;
};

// What is wrong with the cards as a batch, each with the file it is in: a paper that none of them defines, or
// that states no sheet; sheets that two files count differently; a hold width wider than a sheet. Empty when
// nothing is.
struct BatchMistake {
  std::size_t card = 0;
  Remark remark;
};
std::vector<BatchMistake> mistakes_in_batch(const std::vector<BatchCard>& cards,
                                            const std::vector<MorePaper>& more, const CutOptions& options);

// Pre: no mistakes in it, and every card can be built. When paper is short the plan is the one for the most
// cards that can be made, and so it is where they are asked for: more than the batch where there is one
// version in all, else of each version as many as are stated at most. Undecided: some paper has `trouble`, or
// no plan was found that it is enough for, and no proof that it is not.
CutBatch cut_batch(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                   const CutOptions& options);

}  // namespace evenmat
