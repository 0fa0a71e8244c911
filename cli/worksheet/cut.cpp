#include "cli/worksheet/cut.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "cli/cut/first_card.h"
#include "cli/cut/leftovers.h"
#include "cli/cut/plan.h"
#include "cli/cut/steps.h"
#include "cli/cut/totals.h"
#include "cli/wording.h"
#include "cli/worksheet/parts.h"

namespace evenmat {
namespace {

// A layer of one card file that is cut alike in whichever of its versions.
struct Pile {
  PieceUse use;  // of the first version
  Size size;     // as it is cut, as the layer stands
  bool may_turn = true;
  int count = 0;
  std::vector<int> of_versions;
};

std::vector<Pile> piles_of(const CutTelling& telling, const PaperPlan& paper) {
  std::vector<Pile> piles;
  for (const CutPiece& piece : paper.pieces) {
    for (const PieceUse& use : piece.uses) {
      const Size size = use.turned ? turned(piece.size) : piece.size;
      auto pile = std::find_if(piles.begin(), piles.end(), [&](const Pile& one) {
        return one.use.card == use.card && one.use.layer == use.layer && one.use.rough == use.rough &&
               one.use.finished == use.finished && one.size == size;
      });
      if (pile == piles.end()) {
        const std::vector<int> none(telling.cards[use.card].sized->versions.size());
        pile = piles.insert(pile, {use, size, piece.upright && piece.turned, 0, none});
      }
      pile->count += use.count;
      pile->of_versions[use.version] += use.count;
    }
  }
  return piles;
}

// Empty where every card of the batch has as many of them.
std::string versions_words(const CutTelling& telling, const Pile& pile) {
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

std::string pile_note(const CutTelling& telling, const Pile& pile) {
  std::vector<std::string> notes;
  for (const std::string& one : {versions_words(telling, pile), rough_words(pile.use, telling.unit()),
                                 std::string(pile.may_turn ? "" : "may not turn on the sheet")}) {
    if (!one.empty()) notes.push_back(one);
  }
  return joined(notes, "; ");
}

// To the tenth above, so that nobody comes home with too little.
std::string rounded(const Rational& amount) {
  const Rational up = round_up(amount, Rational(1) / 10);
  return (up == amount ? "" : "about ") + amount_words(up);
}

std::string foam_words(const Rational& area, Unit unit) {
  return unit == Unit::inch ? rounded(area) + " square inches"
                            : rounded(Rational(area / 100)) + " square centimetres";
}

std::string adhesive_words(const Rational& length, Unit unit) {
  return unit == Unit::inch ? fmt::format("{} in ({} ft)", rounded(length), rounded(Rational(length / 12)))
                            : rounded(Rational(length / 1000)) + " m";
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

std::string flowed(const std::string& text) { return joined(as_paragraphs(text, false), " "); }

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

std::vector<std::string> as_paragraphs(const std::string& text, bool headed) {
  std::vector<std::string> paragraphs;
  std::size_t own = 0;  // the blanks before the first line of the one in hand
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = std::string_view(text).substr(begin, end - begin);
    begin = end + 1;
    const std::size_t blanks = line.find_first_not_of(' ');
    if (blanks == std::string_view::npos) continue;
    if (headed) {
      headed = false;
      continue;
    }
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
  const std::vector<std::string> told = as_paragraphs(first_card_text(telling), true);
  for (std::size_t i = 1; i < told.size(); ++i) {
    // A paper's name and what is cut of it stand in columns there.
    std::string words = told[i];
    const std::size_t column = words.find("  ");
    if (column != std::string::npos) {
      const std::size_t rest = words.find_first_not_of(' ', column);
      words = words.substr(0, column) + ": " + words.substr(std::min(rest, words.size()));
    }
    flow.tick(words, body_type());
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
  for (const PaperPlan& paper : telling.batch.papers) {
    flow.subheading(paper.paper);
    if (!paper.plan.empty()) {
      const std::string pass = pass_words(telling, paper.paper);
      flow.paragraph(sheets_words(paper, telling.unit()) + (pass.empty() ? "" : " " + pass), body_type());
    }
    for (const std::string& left : as_paragraphs(leftovers_text(telling, paper), false))
      flow.paragraph(left, body_type());
    flow.begin_table(
        columns, {"count", "layer", fmt::format("width x height, {}", unit_name(telling.unit())), "note"});
    for (const Pile& pile : piles_of(telling, paper)) {
      flow.row(columns,
               {fmt::format("{}", pile.count), layer_name(telling, pile.use),
                size_words(pile.size, telling.unit()), pile_note(telling, pile)},
               body_type(), true);
    }
    flow.end_table();
  }
  if (telling.batch.no_paper.empty()) return;
  flow.subheading("Not cut from a sheet");
  for (const NotCut& one : telling.batch.no_paper) {
    const std::string of = telling.one_card() ? "" : fmt::format(" ({})", card_name(telling, one.card));
    flow.tick(fmt::format("{}{}: {}", one.layer, of, one.why), body_type());
  }
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
    flow.subheading(paper.paper);
    const std::string together = together_words(paper);
    if (!together.empty()) flow.paragraph(together, body_type());
    for (std::size_t i = 0; i < paper.plan.size(); ++i) add_letter(flow, telling, paper, i);
  }
}

void add_supplies(Flow& flow, const CutTelling& telling) {
  const BatchTotals& totals = telling.batch.totals;
  std::vector<std::string> lines;
  if (totals.foam > 0) {
    lines.push_back(
        fmt::format("foam, under all raised layers: {}", foam_words(totals.foam, telling.unit())));
  }
  if (totals.adhesive > 0) {
    lines.push_back(fmt::format("adhesive, once round every layer that is glued flat: {}",
                                adhesive_words(totals.adhesive, telling.unit())));
  }
  for (const auto& [name, amount] : totals.supplies) {
    lines.push_back(fmt::format("{}: {}", name, amount_words(amount)));
  }
  if (lines.empty()) return;
  flow.heading("Supplies for the batch");
  for (const std::string& line : lines) flow.tick(line, body_type());
}

}  // namespace evenmat
