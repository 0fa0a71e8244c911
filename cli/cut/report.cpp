#include "cli/cut/report.h"

#include <algorithm>
#include <utility>

#include "cli/cut/first_card.h"
#include "cli/cut/leftovers.h"
#include "cli/cut/pieces.h"
#include "cli/cut/plan.h"
#include "cli/cut/steps.h"
#include "cli/cut/totals.h"
#include "cli/cut/verdict.h"
#include "cli/table.h"

namespace evenmat {
namespace {

std::string paper_text(const CutTelling& telling, const PaperPlan& paper) {
  std::string text = "\n" + telling.style.strong(paragraph(paper.paper));
  if (paper.plan.empty()) return text + piles_text(telling, paper);
  const std::string pass = pass_words(telling, paper.paper);
  text += paragraph(sheets_words(paper, telling.unit()) + (pass.empty() ? "" : " " + pass), 2);
  const std::string narrower = paper.missing.empty() ? narrower_trims_words(paper, telling.unit()) : "";
  if (!narrower.empty()) text += paragraph(narrower, 2);
  return text + piles_text(telling, paper) + steps_text(telling, paper) + leftovers_text(telling, paper);
}

bool any_held(const CutBatch& batch) {
  for (const PaperPlan& paper : batch.papers) {
    for (const CutStep& step : paper.steps) {
      for (const SheetWork& work : step.works) {
        if (work.hold) return true;
      }
    }
  }
  return false;
}

bool anything_cut(const CutBatch& batch) {
  return std::any_of(batch.papers.begin(), batch.papers.end(),
                     [](const PaperPlan& paper) { return !paper.steps.empty(); });
}

std::string how_to_read_steps(const CutTelling& telling) {
  if (!anything_cut(telling.batch)) return {};
  std::string words =
      "Steps of one paper are done in the order of their numbers, over all its letters; those with the same "
      "number are done together, at one setting. A setting is measured from the edge that comes off. Keep "
      "your "
      "hand on the wider part at every cut. Sizes are width x height, as the sheet lies.";
  if (any_held(telling.batch)) words += " \"Tape it\": hold what stays under the hand with removable tape.";
  return "\n" + paragraph(words);
}

}  // namespace

std::string cut_report(const CutTelling& telling, bool most) {
  std::string text = head_text(telling) + verdict_text(telling, most);
  if (telling.batch.verdict == CutVerdict::undecided) return text;
  if (telling.batch.papers.empty())
    text += "\n" + paragraph("Nothing is cut: no part of it has a paper to be cut from.");
  text += first_card_text(telling) + how_to_read_steps(telling);
  for (const PaperPlan& paper : telling.batch.papers) text += paper_text(telling, paper);
  text += second_pass_text(telling) + not_cut_text(telling) + totals_text(telling);
  if (anything_cut(telling.batch)) text += care_text(telling);
  return with_plain_blanks(std::move(text));
}

}  // namespace evenmat
