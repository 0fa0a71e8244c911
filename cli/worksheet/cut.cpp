#include "cli/worksheet/cut.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "cli/cut/first_card.h"
#include "cli/cut/leftovers.h"
#include "cli/cut/pieces.h"
#include "cli/cut/plan.h"
#include "cli/cut/steps.h"
#include "cli/cut/totals.h"
#include "cli/wording.h"
#include "cli/worksheet/parts.h"

namespace evenmat {
namespace {

// Empty where every card of the batch has as many of them.
std::string versions_words(const CutTelling& telling, const CutPile& pile) {
  const std::vector<int>& made = telling.batch.made[pile.use.card];
  const int cards = cards_made(telling.batch, pile.use.card);
  std::vector<std::string> told;
  bool same = true;
  for (std::size_t version = 0; version < std::min(made.size(), pile.of_versions.size()); ++version) {
    const int count = pile.of_versions[version];
    same = same && count * cards == pile.count * made[version];
    const std::string name = version_name(telling, pile.use.card, version);
    if (count == pile.count && made.size() > 1) return same && made[version] == cards ? "" : "only " + name;
    if (count > 0) told.push_back(fmt::format("{} {}", name, count));
  }
  return same ? "" : joined(told, ", ");
}

std::string rough_words(const PieceUse& use, Unit unit) {
  const std::string finished = size_words(use.finished, unit);
  switch (use.rough) {
    case Rough::die:
      return fmt::format("rough; the die cuts it to {}", finished);
    case Rough::by_hand:
      return fmt::format("rough; cut out by hand to {}", finished);
    case Rough::stamp_first:
      return fmt::format("rough; stamp or print it, let it dry, then trim to {}", finished);
    case Rough::none:
      break;
  }
  return {};
}

std::string pile_note(const CutTelling& telling, const CutPile& pile) {
  std::vector<std::string> notes;
  for (const std::string& one :
       {versions_words(telling, pile), rough_words(pile.use, telling.unit()),
        std::string(pile.upright && pile.turned ? "" : "may not turn on the sheet")}) {
    if (!one.empty()) notes.push_back(one);
  }
  return joined(notes, "; ");
}

// Of what no sheet is planned for: each size, as the page says it, with how many of it all cards take.
std::vector<std::pair<std::string, int>> sizes_of(const CutTelling& telling, const NotCut& one) {
  const Unit own = telling.cards[one.card].card->unit;
  const std::vector<SizedVersion>& versions = telling.cards[one.card].sized->versions;
  const std::vector<int>& made = telling.batch.made[one.card];
  std::vector<std::pair<std::string, int>> sizes;
  const auto add = [&](const Size& size, int count) {
    const std::string words =
        size_words({convert(size.width, own, telling.unit()), convert(size.height, own, telling.unit())},
                   telling.unit());
    for (auto& [other, so_far] : sizes) {
      if (other != words) continue;
      so_far += count;
      return;
    }
    sizes.emplace_back(words, count);
  };
  for (std::size_t i = 0; i < std::min(versions.size(), made.size()); ++i) {
    if (made[i] == 0) continue;
    if (one.layer == "base") add(versions[i].folding.blank, made[i]);
    for (const PlacedPiece& placed : versions[i].pieces) {
      if (placed.piece->name.value == one.layer)
        add({placed.width, placed.height}, made[i] * std::max(1, static_cast<int>(placed.copies.size())));
    }
  }
  return sizes;
}

bool any_taped(const CutBatch& batch) {
  for (const PaperPlan& paper : batch.papers) {
    for (const CutStep& step : paper.steps) {
      if (std::any_of(step.works.begin(), step.works.end(), [](const SheetWork& work) { return work.hold; }))
        return true;
    }
  }
  return false;
}

std::string flowed(const std::string& text) { return joined(as_paragraphs(text), " "); }

void add_letter(Flow& flow, const CutTelling& telling, const PaperPlan& paper, std::size_t letter) {
  const Type strong{.size = body_type().size, .bold = true};
  constexpr double number_width = 24;
  const std::vector<Column> columns = {{number_width, Align::right},
                                       {flow.width() - number_width - Flow::row_indent}};
  flow.end_table();
  flow.keep_together(48);
  flow.space(3);
  flow.paragraph(flowed(letter_text(telling, paper, letter)), strong);
  const std::vector<StepRow> rows = step_rows(telling, paper, letter);
  for (auto row = rows.begin(); row != rows.end();) {
    std::vector<std::vector<std::string>> lines = {{fmt::format("{}.", row->number), row->says}};
    for (++row; row != rows.end() && !row->first; ++row) lines.push_back({"", row->says});
    flow.rows(columns, lines, body_type(), true);
  }
}

}  // namespace

std::vector<std::string> as_paragraphs(const std::string& text) {
  std::vector<std::string> paragraphs;
  std::size_t own = 0;  // the blanks before the first line of the one in hand
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = std::string_view(text).substr(begin, end - begin);
    begin = end + 1;
    const std::size_t blanks = line.find_first_not_of(' ');
    if (blanks == std::string_view::npos) continue;
    if (!paragraphs.empty() && blanks > own) {
      paragraphs.back() += ' ';
    } else {
      paragraphs.emplace_back();
      own = blanks;
    }
    paragraphs.back() += line.substr(blanks);
  }
  return paragraphs;
}

std::string batch_words(const CutTelling& telling, std::size_t card) {
  const Card& own = *telling.cards[card].card;
  std::string words = counted(own.cards, "card");
  if (own.spare > 0) words += fmt::format(" and {} spare", own.spare);
  const int made = cards_made(telling.batch, card);
  if (made > 0 && made != own.cards + own.spare) words += fmt::format(", planned here for {}", made);
  const std::vector<int>& versions = telling.batch.made[card];
  if (made == 0 || versions.size() < 2) return words;
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < versions.size(); ++i)
    parts.push_back(fmt::format("{} {}", version_name(telling, card, i), versions[i]));
  return words + ": " + joined(parts, ", ");
}

void add_first_card(Flow& flow, const CutTelling& telling) {
  if (cards_made(telling.batch) < 2) return;
  flow.heading("First, one card");
  flow.paragraph("Mind the blade, and build one card whole before you cut the batch.", body_type());
  for (const FirstCardRow& row : first_card_rows(telling)) {
    if (row.sources.empty()) {
      flow.paragraph(row.name, {.size = body_type().size, .bold = true});
    } else {
      flow.tick(fmt::format("{}: {}", row.name, row.sources), body_type());
    }
  }
}

void add_piles(Flow& flow, const CutTelling& telling) {
  if (telling.batch.papers.empty() && telling.batch.no_paper.empty()) return;
  flow.heading("To cut");
  constexpr double count_width = 34;
  constexpr double size_width = 108;
  const double rest = flow.width() - Flow::row_indent - count_width - size_width;
  const std::vector<Column> columns = {
      {count_width, Align::right}, {rest * 0.46}, {size_width}, {rest * 0.54}};
  const std::vector<std::string> heads = {
      "count", "layer", fmt::format("width x height, {}", unit_name(telling.unit())), "note"};
  for (const PaperPlan& paper : telling.batch.papers) {
    flow.subheading(paper.paper);
    if (!paper.plan.empty()) {
      const std::string pass = pass_words(telling, paper.paper);
      flow.paragraph(sheets_words(paper, telling.unit()) + (pass.empty() ? "" : " " + pass), body_type());
    }
    for (const std::string& left : as_paragraphs(leftovers_text(telling, paper)))
      flow.paragraph(left, body_type());
    flow.begin_table(columns, heads);
    for (const CutPile& pile : piles_of(telling, paper)) {
      flow.row(columns,
               {fmt::format("{}", pile.count), layer_name(telling, pile.use),
                size_words(pile.size, telling.unit()), pile_note(telling, pile)},
               body_type(), true);
    }
    flow.end_table();
  }
  if (telling.batch.no_paper.empty()) return;
  flow.subheading("Not cut from a sheet");
  if (telling.batch.papers.empty()) {
    flow.paragraph(
        "No paper is stated, so no sheets are counted and no cuts are planned. Cut to these sizes from what "
        "you have, or state each paper in the card file.",
        body_type());
  }
  flow.begin_table(columns, heads);
  for (const NotCut& one : telling.batch.no_paper) {
    const std::string name =
        telling.one_card() ? one.layer : fmt::format("{} ({})", one.layer, card_name(telling, one.card));
    for (const auto& [size, count] : sizes_of(telling, one))
      flow.row(columns, {fmt::format("{}", count), name, size, one.why}, body_type(), true);
  }
  flow.end_table();
}

void add_steps(Flow& flow, const CutTelling& telling) {
  const CutBatch& batch = telling.batch;
  if (std::none_of(batch.papers.begin(), batch.papers.end(),
                   [](const PaperPlan& paper) { return !paper.steps.empty(); }))
    return;
  flow.keep_together(150);  // with the first steps
  flow.heading("The plan");
  std::string reading =
      "Steps of one paper are done in the order of their numbers, over all its letters; those with the same "
      "number are done together, at one setting. A setting is measured from the edge that comes off. Keep "
      "your hand on the wider part at every cut. Sizes are width x height, as the sheet lies.";
  if (any_taped(batch)) reading += " \"Tape it\": hold what stays under the hand with removable tape.";
  flow.paragraph(reading, body_type());
  for (const PaperPlan& paper : batch.papers) {
    if (paper.steps.empty()) continue;
    flow.keep_together(100);  // with the first letter's first step
    flow.subheading(paper.paper);
    const std::string together = together_words(paper);
    if (!together.empty()) flow.paragraph(together, body_type());
    for (std::size_t i = 0; i < paper.plan.size(); ++i) add_letter(flow, telling, paper, i);
  }
}

void add_supplies(Flow& flow, const CutTelling& telling) {
  const std::vector<TotalRow> rows = total_rows(telling);
  if (rows.empty()) return;
  flow.heading("Supplies for the batch");
  for (const TotalRow& row : rows) {
    flow.tick(fmt::format("{}{}{}: {}", row.name, row.note.empty() ? "" : ", ", row.note, row.amount),
              body_type());
  }
}

}  // namespace evenmat
