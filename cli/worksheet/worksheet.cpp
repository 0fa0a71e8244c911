#include "cli/worksheet/worksheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "cli/cut/totals.h"
#include "cli/cut/verdict.h"
#include "cli/making.h"
#include "cli/plan/pages.h"
#include "cli/wording.h"
#include "cli/worksheet/assembly.h"
#include "cli/worksheet/cut.h"
#include "cli/worksheet/parts.h"
#include "cli/worksheet/units.h"
#include "model/versions.h"

namespace evenmat {
namespace {

using Sentences = std::vector<std::string>;

const PlacedPiece* find(const SizedVersion& version, const std::string& name) {
  const auto found =
      std::find_if(version.pieces.begin(), version.pieces.end(),
                   [&](const PlacedPiece& placed) { return placed.piece->name.value == name; });
  return found == version.pieces.end() ? nullptr : &*found;
}

// One card file of the batch.
class CardPart {
 public:
  CardPart(Flow& flow, const CutTelling& telling, std::size_t index)
      : flow_(flow),
        telling_(telling),
        index_(index),
        card_(*telling.cards[index].card),
        sized_(*telling.cards[index].sized) {
    const std::vector<int>& made = telling.batch.made[index];
    for (std::size_t i = 0; i < sized_.versions.size(); ++i) {
      if (i < made.size() && made[i] > 0) versions_.push_back(i);
    }
    if (versions_.empty()) versions_.push_back(0);
  }

  void add_picture() {
    if (!telling_.one_card()) flow_.subheading(card_name(telling_, index_));
    flow_.paragraph(batch_words(telling_, index_), body_type());
    add_pictures(flow_, card_, design(first()), version(first()), 220);
    const Sentences told = closed_sentences(card_, version(first()));
    if (!told.empty()) flow_.paragraph(joined(told, " "), body_type());
  }

  void add_work() {
    add_folding();
    add_places();
    add_gluing();
  }

 private:
  [[nodiscard]] std::size_t first() const { return versions_.front(); }
  [[nodiscard]] const Design& design(std::size_t index) const { return design_of(card_, index); }
  [[nodiscard]] const SizedVersion& version(std::size_t index) const { return sized_.versions[index]; }

  void heading(const std::string& words) {
    flow_.heading(telling_.one_card() ? words : fmt::format("{}: {}", card_name(telling_, index_), words));
  }

  // Above the part of a version, where there are several.
  void version_heading(std::size_t index) {
    if (versions_.size() < 2) return;
    flow_.subheading(fmt::format("{} ({})", version_name(telling_, index_, index),
                                 counted(telling_.batch.made[index_][index], "card")));
  }

  [[nodiscard]] std::string like_first() const { return "As " + version_name(telling_, index_, first()); }

  void add_folding() {
    const Sentences plain = making_of(card_, design(first()), version(first())).order;
    bool headed = false;
    for (const std::size_t index : versions_) {
      const Making making = making_of(card_, design(index), version(index));
      // A blank to cut, and no more: that is told above.
      if (making.order.size() < 2) continue;
      if (!headed)
        heading(version(index).folding.leaves.size() > 1 ? "To score and fold" : "To make the base");
      headed = true;
      version_heading(index);
      if (index != first() && making.order == plain) {
        flow_.tick(like_first() + ".", body_type());
      } else {
        add_making(flow_, card_, design(index), version(index));
      }
    }
  }

  void add_places() {
    if (std::all_of(versions_.begin(), versions_.end(),
                    [&](std::size_t index) { return version(index).pieces.empty(); }))
      return;
    heading("Where each layer goes");
    for (const std::size_t index : versions_) {
      version_heading(index);
      add_places_of(index);
    }
    flow_.space(2);
    flow_.paragraph(
        fmt::format(
            "From the edges of what it lies on, in {}, seen facing it with its top up. \"-\": it reaches "
            "past that edge by so much. \"About\": the nearest {} on the ruler.",
            unit_name(card_.unit), card_.unit == Unit::inch ? "1/32 in" : "half millimetre"),
        small_type());
  }

  void add_places_of(std::size_t index) {
    std::vector<const PlacedPiece*> told;
    Sentences left_out;
    for (const PlacedPiece& placed : version(index).pieces) {
      if (index == first() || differs(placed)) told.push_back(&placed);
    }
    for (const PlacedPiece& placed : version(first()).pieces) {
      const std::string& name = placed.piece->name.value;
      if (find(version(index), name) == nullptr) left_out.push_back(name);
    }
    if (index != first()) {
      const bool alike = told.empty() && left_out.empty();
      flow_.paragraph(like_first() + (alike ? "." : ", but for this:"), body_type());
    }
    if (!left_out.empty()) flow_.paragraph("Left out: " + joined(left_out, ", "), body_type());
    if (told.empty()) return;

    constexpr double number_width = 56;
    constexpr double size_width = 92;
    const double rest = flow_.width() - Flow::row_indent - 4 * number_width - size_width;
    const std::vector<Column> columns = {{rest * 0.56},  {rest * 0.44},  {number_width}, {number_width},
                                         {number_width}, {number_width}, {size_width}};
    flow_.begin_table(columns, {"layer", "lies", "left", "right", "top", "bottom",
                                fmt::format("width x height, {}", unit_name(card_.unit))});
    const auto at = [&](const Rational& length) { return ruler_length(length, card_.unit); };
    for (const PlacedPiece* placed : told) {
      Sentences notes;
      const std::string paper = placed->piece->paper ? placed->piece->paper->value : "";
      if (!paper.empty()) notes.push_back("of " + paper);
      const std::string note = place_note(card_, *placed);
      if (!note.empty()) notes.push_back(note);
      flow_.row(columns,
                {placed->piece->name.value, on_words(design(index), *placed->piece), at(placed->from_left),
                 at(placed->from_right), at(placed->from_top), at(placed->from_bottom),
                 ruler_size({placed->width, placed->height}, card_.unit)},
                body_type(), true, joined(notes, "; "));
    }
    flow_.end_table();
    flow_.space(2);
  }

  // From the same layer of the first version.
  [[nodiscard]] bool differs(const PlacedPiece& placed) const {
    const PlacedPiece* before = find(version(first()), placed.piece->name.value);
    if (before == nullptr) return true;
    const auto paper = [](const PlacedPiece& one) {
      return one.piece->paper ? one.piece->paper->value : std::string();
    };
    const auto words = [&](const PlacedPiece& one) { return place_note(card_, one); };
    return placed.width != before->width || placed.height != before->height ||
           placed.from_left != before->from_left || placed.from_right != before->from_right ||
           placed.from_top != before->from_top || placed.from_bottom != before->from_bottom ||
           placed.piece->on.value != before->piece->on.value || paper(placed) != paper(*before) ||
           words(placed) != words(*before);
  }

  [[nodiscard]] Sentences gluing(std::size_t index) const {
    Sentences says;
    for (AssemblyStep& step : assembly_of(card_, design(index), version(index)))
      says.push_back(std::move(step.says));
    return says;
  }

  // Those of the first version that are about what is in another too.
  [[nodiscard]] Sentences gluing_without_left_out(std::size_t index) const {
    Sentences says;
    for (AssemblyStep& step : assembly_of(card_, design(first()), version(first()))) {
      if (find(version(index), version(first()).pieces[step.piece].piece->name.value) != nullptr)
        says.push_back(std::move(step.says));
    }
    return says;
  }

  void add_gluing() {
    bool headed = false;
    for (const std::size_t index : versions_) {
      const Sentences own = gluing(index);
      if (own.empty() && index == first()) continue;
      if (!headed) heading("To put together");
      headed = true;
      version_heading(index);
      if (index != first() && own == gluing(first())) {
        flow_.tick(like_first() + ".", body_type());
      } else if (index != first() && own == gluing_without_left_out(index)) {
        flow_.tick(like_first() + ", without what is left out.", body_type());
      } else {
        add_numbered(flow_, own);
      }
    }
  }

  Flow& flow_;
  const CutTelling& telling_;
  std::size_t index_;
  const Card& card_;
  const SizedCard& sized_;
  std::vector<std::size_t> versions_;  // that are made; the first is told whole
};

std::string title_of(const CutTelling& telling) {
  return telling.one_card()
             ? card_name(telling, 0)
             : fmt::format("Cut together: {}", counted(static_cast<int>(telling.cards.size()), "card file"));
}

void add_cautions(Flow& flow, const CutTelling& telling) {
  flow.heading("Take care");
  for (const std::string& one : care_sentences(telling)) flow.paragraph(one, body_type());
  for (const std::string& one : heat_cautions()) flow.paragraph(one, body_type());
}

// `telling` without dress.
Drawing worksheet_of(const CutTelling& telling, PageSize size) {
  Flow flow(size);
  const std::string title = title_of(telling);
  flow.title(title);
  for (const std::string& one : as_paragraphs(verdict_text(telling, false)))
    flow.paragraph(one, {.size = body_type().size, .bold = true});
  const bool nothing_cut = cards_made(telling.batch) == 0;
  if (nothing_cut) {
    flow.paragraph(
        "So nothing is cut yet, and no pieces, sheets or steps are listed here. Once what is missing is "
        "there, "
        "or stated, draw this worksheet again. What follows is how a card is made.",
        body_type());
  }
  std::vector<CardPart> cards;
  for (std::size_t i = 0; i < telling.cards.size(); ++i) cards.emplace_back(flow, telling, i);
  for (CardPart& card : cards) card.add_picture();
  add_first_card(flow, telling);
  add_cautions(flow, telling);
  if (nothing_cut) {
    for (CardPart& card : cards) card.add_work();
    return flow.done(title, title);
  }
  add_piles(flow, telling);
  add_supplies(flow, telling);
  add_steps(flow, telling);
  const std::vector<PaperPlan>& papers = telling.batch.papers;
  if (std::any_of(papers.begin(), papers.end(), [](const PaperPlan& paper) { return !paper.plan.empty(); }))
    flow.heading("The sheets as they are cut");
  add_plan(flow, telling);
  for (CardPart& card : cards) card.add_work();
  return flow.done(title, title);
}

}  // namespace

Drawing worksheet(const CutTelling& telling, PageSize size) {
  const Style plain;
  return worksheet_of({telling.cards, telling.more, telling.batch, plain, telling.no_spare_stated}, size);
}

}  // namespace evenmat
