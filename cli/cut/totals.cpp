#include "cli/cut/totals.h"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "cli/table.h"
#include "model/papers.h"

namespace evenmat {
namespace {

Maybe<Rational> grams_of(const CutTelling& telling, const std::string& paper) {
  const Maybe<std::string> name = Stated<std::string>{paper, {}};
  for (const BatchCard& card : telling.cards) {
    if (auto grams = stated_of_paper(card.card->papers, name, &Paper::grams_per_square_metre)) return grams;
  }
  for (const MorePaper& more : telling.more) {
    if (auto grams = stated_of_paper(more.papers, name, &Paper::grams_per_square_metre)) return grams;
  }
  return std::nullopt;
}

// To the tenth above, so that nobody comes home with too little.
std::string rounded(const Rational& amount) {
  const Rational up = round_up(amount, Rational(1) / 10);
  return (up == amount ? "" : "about ") + amount_words(up);
}

std::string area_words(const Rational& area, Unit unit) {
  return unit == Unit::inch ? rounded(area) + " square inches"
                            : rounded(Rational(area / 100)) + " square centimetres";
}

std::string length_words(const Rational& length, Unit unit) {
  return unit == Unit::inch ? fmt::format("{} in ({} ft)", rounded(length), rounded(Rational(length / 12)))
                            : rounded(Rational(length / 1000)) + " m";
}

// Common practice, no source: cover stock is heavier than this, text stock lighter.
const Rational& cover_from() {
  static const Rational grams = 150;
  return grams;
}

}  // namespace

std::string pass_words(const CutTelling& telling, const std::string& paper) {
  const Maybe<Rational> grams = grams_of(telling, paper);
  if (!grams) return {};
  return grams->value >= cover_from() ? "Cover: one sheet at a pass."
                                      : "Text: two or three sheets at a pass.";
}

std::string not_cut_text(const CutTelling& telling) {
  std::vector<Row> rows = {{.name = "Not cut", .heading = true}};
  for (const NotCut& one : telling.batch.no_paper) {
    const std::string of = telling.one_card() ? "" : ", " + card_name(telling, one.card);
    rows.push_back({.name = one.layer + of, .note = one.why, .indent = 2});
  }
  return rows.size() > 1 ? "\n" + table(rows, telling.style) : "";
}

std::vector<TotalRow> total_rows(const CutTelling& telling) {
  const BatchTotals& totals = telling.batch.totals;
  std::vector<TotalRow> rows;
  if (totals.foam > 0)
    rows.push_back({"foam", area_words(totals.foam, telling.unit()), "under all raised layers"});
  if (totals.adhesive > 0) {
    rows.push_back({"adhesive", length_words(totals.adhesive, telling.unit()),
                    "once round every layer that is glued flat"});
  }
  for (const auto& [name, amount] : totals.supplies) rows.push_back({name, amount_words(amount), ""});
  return rows;
}

std::string totals_text(const CutTelling& telling) {
  std::vector<Row> rows = {{.name = "For the batch", .heading = true}};
  for (TotalRow& row : total_rows(telling)) {
    rows.push_back({.name = std::move(row.name),
                    .cells = {std::move(row.amount)},
                    .note = std::move(row.note),
                    .indent = 2});
  }
  return rows.size() > 1 ? "\n" + table(rows, telling.style) : "";
}

std::vector<std::string> care_sentences(const CutTelling& telling) {
  bool all_weighed = true;
  for (const PaperPlan& paper : telling.batch.papers)
    all_weighed = all_weighed && grams_of(telling, paper.paper).has_value();
  std::vector<std::string> says = {
      "Begin with a fresh blade; a blunt one tears, and slips.",
      "Keep fingers behind the guard or the rule, and out of the blade's way.",
      "Hold a narrow piece with removable tape, never with a finger.",
  };
  if (!all_weighed)
    says.emplace_back("A trimmer takes one sheet of cover at a pass, or two or three of text.");
  says.emplace_back(
      "What the maker of your trimmer says, and the rules where you work, come before this page.");
  return says;
}

std::string care_text(const CutTelling& telling) {
  std::string text = "\n" + telling.style.strong("At the trimmer") + "\n";
  for (const std::string& sentence : care_sentences(telling)) text += paragraph(sentence, 2);
  return text;
}

}  // namespace evenmat
