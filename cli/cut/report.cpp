#include "cli/cut/report.h"

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
  const bool planned = !paper.plan.empty();
  if (planned) text += paragraph(sheets_words(paper, telling.unit()), 2);
  const std::string pass = pass_words(telling, paper.paper);
  if (planned && !pass.empty()) text += paragraph(pass, 2);
  text += piles_text(telling, paper);
  if (!planned) return text;
  text += "\n" + plan_text(telling, paper) + steps_text(telling, paper);
  const std::string left = leftovers_text(telling, paper);
  return text + (left.empty() ? "" : "\n" + left);
}

std::string how_to_read_steps(const CutTelling& telling) {
  for (const PaperPlan& paper : telling.batch.papers) {
    if (paper.steps.empty()) continue;
    return "\n" + paragraph(
                      "Of each paper, steps with one number are done together, at one setting, on all of its "
                      "sheets. Lengths along the rule are measured from the edge that comes off.");
  }
  return {};
}

}  // namespace

std::string cut_report(const CutTelling& telling, bool most) {
  std::string text = head_text(telling) + verdict_text(telling, most);
  if (telling.batch.verdict == CutVerdict::undecided) return text;
  text += first_card_text(telling) + how_to_read_steps(telling);
  for (const PaperPlan& paper : telling.batch.papers) text += paper_text(telling, paper);
  return text + second_pass_text(telling) + not_cut_text(telling) + totals_text(telling) + care_text(telling);
}

}  // namespace evenmat
