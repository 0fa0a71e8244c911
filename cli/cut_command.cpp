#include "cli/cut_command.h"

#include <fmt/format.h>

#include <utility>

#include "cli/cut/batch_files.h"
#include "cli/cut/report.h"
#include "cli/files.h"
#include "cli/json_cut.h"
#include "cli/leftover_file.h"
#include "cli/new_file.h"
#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {
namespace {

NewFile target(const CutCall& call) {
  return {.path = call.keep.value_or(""), .force = call.force, .original = call.files.front()};
}

std::string trouble_with_keeping(const CutCall& call) {
  std::vector<std::string> read = call.files;
  read.insert(read.end(), call.also.begin(), call.also.end());
  for (const std::string& file : read) {
    if (same_file(*call.keep, file) && *call.keep != "-") {
      return fmt::format(
          "{} is read for this plan, and is never written over. Keep what is left in another file.",
          printable(*call.keep));
    }
  }
  return trouble_with(target(call));
}

// The sentence that says why it could not be done, or nothing.
std::string write(const CutCall& call, const std::string& text) {
  const std::string trouble = trouble_with_keeping(call);
  return trouble.empty() ? write_new_file(target(call), text) : trouble;
}

Answer planned_answer(const CutCall& call, const PlannedBatch& planned, const Style& out) {
  const CutBatch& batch = planned.batch;
  Answer answer;
  answer.status = status_of(batch);
  answer.err = unused_leftovers(planned);
  std::optional<std::string> kept;
  std::string kept_told;
  if (call.keep && batch.verdict == CutVerdict::planned) {
    const std::string text = leftover_file(planned.cards, planned.more, batch);
    const std::string trouble = text.empty() ? "" : write(call, text);
    if (!trouble.empty() && call.json) return refused_call(trouble, true);
    if (!trouble.empty()) {
      answer.status = Status::bad_input;
      answer.err += fmt::format("evenmat: {} Nothing was written.\n", trouble);
    } else if (text.empty()) {
      answer.err += fmt::format("evenmat: Nothing worth keeping is left: nothing was written to {}.\n",
                                printable(*call.keep));
    } else {
      kept = call.keep;
      kept_told = paragraph(fmt::format("What is left was written to {}.", printable(*kept)));
    }
  } else if (call.keep) {
    answer.err += fmt::format("evenmat: There is no plan for the whole batch: nothing was written to {}.\n",
                              printable(*call.keep));
  }
  const CutTelling telling{planned.cards, planned.more, batch, out, planned.no_spare_stated};
  answer.out = call.json ? json_cut(planned.cards, batch, kept) : cut_report(telling, call.most);
  if (!call.json && kept) answer.out += "\n" + kept_told;
  answer.err += limit_words(batch, call.limit);
  return answer;
}

}  // namespace

Answer cut_command(const CutCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile) {
  const std::string trouble = call.keep ? trouble_with_keeping(call) : "";
  if (!trouble.empty()) return refused_call(trouble, call.json);
  const BatchPlanning planning = plan_batch(
      {call.files, call.also, call.most, call.grain_along_fold, call.json, call.limit}, out, err, meanwhile);
  return planning.planned ? planned_answer(call, *planning.planned, out) : planning.refused;
}

}  // namespace evenmat
