// A paper is planned as it is when the batch is cut, but with less effort spent where a plan is not proven at
// once: there are thousands of cards to plan for. What is planned depends on the job alone, never on what was
// asked before.
//
// Why the bound of `at_least` holds: whoever can cut larger pieces can cut smaller ones from the same sheets,
// by cutting the larger ones and trimming each. That takes narrow trims and cuts as long as those pieces are,
// so the limits on both are left out of what is bounded; a bound without limits holds with them. A blade that
// takes paper takes it from what is trimmed off, and where that is less than the blade wants it takes all of
// it, as the planner allows where there is no limit on trims. Offcuts of the work are another matter: a
// larger cut-back makes more of them. So of a paper that has some only what may not be cut from them counts,
// the bases.
#include "solver/costs/paper_costs.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <utility>

#include "model/versions.h"
#include "solver/batch/gather.h"
#include "solver/batch/prices.h"
#include "solver/costs/memo.h"

namespace evenmat::exploring {
namespace {

using batch::BatchTrimmer;
using batch::Counts;
using batch::PaperNeeds;

// Looks at something better while a plan is not proven: about a tenth of a second's worth, and less where it
// is asked whether there is enough for so many cards.
constexpr std::int64_t looks_for_a_batch = 1'000'000;
constexpr std::int64_t looks_for_a_count = 300'000;
constexpr std::int64_t looks_for_a_bound = 10'000;

// Where all sheets are alike and no offcuts of the work are among them, one of them.
std::optional<CutSheet> one_sheet_of(const PaperNeeds& needs) {
  const CutSheet& first = needs.stock.front();
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut() || sheet.size != first.size || sheet.trim_first != first.trim_first)
      return std::nullopt;
  }
  CutSheet one = first;
  one.have = 1;
  return one;
}

// Whether any card of these wishes may give offcuts of a paper that others are cut from: windows, cut-backs
// and middles of mats may be larger in another card than in the one at hand.
bool may_give_offcuts(const Card& card, const std::string& paper) {
  const auto is_it = [&](const Maybe<std::string>& stated) { return stated && stated->value == paper; };
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const Design& design = design_of(card, version);
    if (design.base.cut_back && is_it(design.base.paper)) return true;
    for (const Piece& piece : design.pieces) {
      if (piece.hollow && is_it(piece.paper)) return true;
      if (piece.kind != Piece::Kind::window) continue;
      const auto below = std::find_if(design.pieces.begin(), design.pieces.end(),
                                      [&](const Piece& other) { return other.name.value == piece.on.value; });
      if (is_it(below == design.pieces.end() ? design.base.paper : below->paper)) return true;
    }
  }
  return false;
}

// Only the pieces that are cut from no offcut of the work in any card, and the sheets.
PaperNeeds without_offcuts(const Card& card, const PaperNeeds& needs) {
  const bool offcuts = may_give_offcuts(card, needs.paper);
  PaperNeeds sure;
  sure.paper = needs.paper;
  for (std::size_t kind = 0; kind < needs.pieces.size(); ++kind) {
    const auto& uses = needs.pieces[kind].uses;
    const bool bases = std::all_of(uses.begin(), uses.end(), [](const PieceUse& use) { return use.base; });
    if (offcuts && !bases) continue;
    std::vector<bool> may;
    for (std::size_t i = 0; i < needs.stock.size(); ++i) {
      if (!needs.stock[i].is_offcut()) may.push_back(needs.may[kind][i]);
    }
    sure.pieces.push_back(needs.pieces[kind]);
    sure.may.push_back(std::move(may));
  }
  for (const CutSheet& sheet : needs.stock) {
    if (!sheet.is_offcut()) sure.stock.push_back(sheet);
  }
  return sure;
}

BatchTrimmer without_limits(BatchTrimmer trimmer, const PaperNeeds& needs) {
  trimmer.sliver = 0;
  for (const CutSheet& sheet : needs.stock) trimmer.longest += sheet.size.width + sheet.size.height;
  return trimmer;
}

}  // namespace

struct PaperCosts::Inside {
  Inside(const Card& of, std::chrono::steady_clock::time_point deadline)
      : card(of), until(deadline), trimmer(batch::trimmer_of({{"", &of, nullptr}})) {}

  [[nodiscard]] std::vector<PaperNeeds> needs_of(const SizedCard& sized) const {
    const std::vector<BatchCard> cards{{"", &card, &sized}};
    return batch::gather(cards, {}, {}, batch::stated_counts(cards));
  }

  [[nodiscard]] batch::PaperEffort effort() const {
    batch::PaperEffort effort;
    effort.until = until;
    effort.unit = card.unit;
    effort.neat = false;
    return effort;
  }

  PricedPaper price(const PaperNeeds& needs, const BatchTrimmer& by, std::int64_t looks) {
    batch::PaperEffort with_looks = effort();
    with_looks.looks = looks;
    PricedPaper priced = price_paper(needs, by, with_looks);
    if (priced.time_ran_out) late = true;
    return priced;
  }

  PricedPaper priced(const PaperNeeds& needs) {
    return batches.get(key_of(needs), [&] { return price(needs, trimmer, looks_for_a_batch); });
  }

  [[nodiscard]] cutting::Effort few_looks() const {
    cutting::Effort effort;
    const std::chrono::duration<double> left = until - batch::Clock::now();
    effort.limit = std::max(left.count(), 0.01);
    effort.looks = looks_for_a_count;
    effort.neat = false;
    return effort;
  }

  // As `is_enough`, with less effort.
  std::optional<bool> enough(const PaperNeeds& needs, const BatchTrimmer& by) {
    const std::optional<batch::PaperJob> paper = batch::job_of(needs, by);
    if (!paper) return std::nullopt;
    for (std::size_t kind = 0; kind < paper->job.kinds.size(); ++kind) {
      if (!batch::may_be_enough(*paper, kind)) return false;
    }
    if (!batch::sheets_by_area(*paper)) return false;
    const batch::Indices sizes = batch::limited_sizes(*paper);
    if (sizes.empty()) return true;
    const std::vector<std::int64_t> ones(sizes.size(), 1);
    const auto found = batch::is_of_one_size(*paper)
                           ? batch::fewest_sheets(*paper, few_looks())
                           : batch::fewest_further(*paper, sizes, ones, few_looks());
    if (!found) return std::nullopt;
    if (found->further_in_all() == 0) return true;
    if (found->plan.at_least > 0) return false;
    if (found->plan.time_ran_out) late = true;
    return std::nullopt;
  }

  [[nodiscard]] std::vector<PaperNeeds> needs_of(int how_many, const SizedCard& sized) const {
    const std::vector<BatchCard> cards{{"", &card, &sized}};
    Counts counts = batch::stated_counts(cards);
    for (int& count : counts[0]) {
      if (count > 0) count = how_many;
    }
    return batch::gather(cards, {}, {}, counts);
  }

  bool gives(const PaperNeeds& one_card, int cards) {
    PaperNeeds needs = one_card;
    for (CutPiece& piece : needs.pieces) piece.count *= cards;
    return enough(needs, trimmer).value_or(false);
  }

  // What is enough for some cards is enough for fewer.
  int most_of(const PaperNeeds& one_card) {
    if (!gives(one_card, 1)) return 0;
    int possible = 1;
    while (gives(one_card, 2 * possible)) possible *= 2;
    int too_many = 2 * possible;
    while (possible + 1 < too_many) {
      const int middle = possible + (too_many - possible) / 2;
      (gives(one_card, middle) ? possible : too_many) = middle;
    }
    return possible;
  }

  std::optional<int> cards_a_sheet(const SizedCard& sized, const std::string& paper) {
    const auto made = std::count_if(sized.versions.begin(), sized.versions.end(),
                                    [](const SizedVersion& version) { return version.cards > 0; });
    if (made != 1) return std::nullopt;
    for (PaperNeeds& needs : needs_of(1, sized)) {
      if (needs.paper != paper) continue;
      const std::optional<CutSheet> sheet = one_sheet_of(needs);
      if (!sheet) return std::nullopt;
      needs.stock = {*sheet};
      for (auto& may : needs.may) may = {may.front()};
      return sheets.get(key_of(needs), [&] { return most_of(needs); });
    }
    return std::nullopt;
  }

  const Card& card;
  const std::chrono::steady_clock::time_point until;
  const BatchTrimmer trimmer;
  Memo<PricedPaper> batches;
  Memo<int> sheets;
  Memo<std::optional<bool>> enough_cards;
  std::atomic<bool> late = false;
};

PaperCosts::PaperCosts(const Card& card, std::chrono::steady_clock::time_point until)
    : inside_(std::make_unique<Inside>(card, until)) {}
PaperCosts::~PaperCosts() = default;

std::vector<PaperCost> PaperCosts::of(const SizedCard& sized, bool cards_a_sheet) {
  std::vector<PaperCost> costs;
  for (PricedPaper& priced : priced(sized)) {
    costs.push_back(std::move(priced.cost));
    if (cards_a_sheet) costs.back().cards_a_sheet = inside_->cards_a_sheet(sized, costs.back().paper);
  }
  return costs;
}

std::vector<PricedPaper> PaperCosts::priced(const SizedCard& sized) {
  std::vector<PricedPaper> priced;
  for (const PaperNeeds& needs : inside_->needs_of(sized)) priced.push_back(inside_->priced(needs));
  return priced;
}

std::vector<PaperBound> PaperCosts::at_least(const SizedCard& smallest) {
  std::vector<PaperBound> bounds;
  for (const PaperNeeds& needs : inside_->needs_of(smallest)) {
    const PaperNeeds sure = without_offcuts(inside_->card, needs);
    bounds.push_back(sure.pieces.empty() ? PaperBound{needs.paper, false, 0, 0, 0}
                                         : without_limits(sure).bound);
  }
  return bounds;
}

std::optional<bool> PaperCosts::enough_for(int cards, const SizedCard& sized) {
  bool known = true;
  for (const PaperNeeds& needs : inside_->needs_of(cards, sized)) {
    const std::optional<bool> enough =
        inside_->enough_cards.get(key_of(needs), [&] { return inside_->enough(needs, inside_->trimmer); });
    if (enough == false) return false;
    known = known && enough;
  }
  return known ? std::optional(true) : std::nullopt;
}

bool PaperCosts::may_be_enough_for(int cards, const SizedCard& smallest) {
  const std::vector<PaperNeeds> papers = inside_->needs_of(cards, smallest);
  return std::all_of(papers.begin(), papers.end(), [&](const PaperNeeds& needs) {
    const PaperNeeds sure = without_offcuts(inside_->card, needs);
    return sure.pieces.empty() ||
           inside_->enough(sure, exploring::without_limits(inside_->trimmer, sure)) != std::optional(false);
  });
}

std::vector<PaperNeeds> PaperCosts::needs_of(const SizedCard& sized) const {
  return inside_->needs_of(sized);
}

std::string PaperCosts::key_of(const PaperNeeds& needs) {
  std::string key = needs.paper;
  for (const CutPiece& piece : needs.pieces) {
    key += fmt::format("|{}x{} {}{} {}", fraction_text(piece.size.width), fraction_text(piece.size.height),
                       piece.upright, piece.turned, piece.count);
  }
  for (std::size_t i = 0; i < needs.stock.size(); ++i) {
    const CutSheet& sheet = needs.stock[i];
    key +=
        fmt::format("|{}x{}-{} {} {} {}", fraction_text(sheet.size.width), fraction_text(sheet.size.height),
                    fraction_text(sheet.trim_first), sheet.have.value_or(-1),
                    sheet.cost ? fraction_text(*sheet.cost) : "", static_cast<int>(sheet.from));
    for (const auto& may : needs.may) key += may[i] ? '+' : '-';
  }
  return key;
}

PricedPaper PaperCosts::without_limits(const PaperNeeds& needs) {
  return inside_->price(needs, exploring::without_limits(inside_->trimmer, needs), looks_for_a_bound);
}

bool PaperCosts::time_ran_out() const { return inside_->late; }

}  // namespace evenmat::exploring
