#include "cli/check/as_stated.h"

#include <fmt/format.h>

#include <string>
#include <utility>

#include "cli/check/builds.h"
#include "cli/check/why.h"
#include "cli/table.h"

namespace evenmat {
namespace {

// Not for want of time: a layer is to show more of itself than this card does, and no rule says whether
// another could.
Answer not_settled(const CheckedCard& checked, double limit) {
  if (!checked.sized || checked.sized->time_ran_out || checked.sized->lengths.empty())
    return not_in_time(limit);
  std::string text = paragraph("Whether it can be built as stated is not settled.");
  for (const Remark& warning : checked.warnings)
    text += paragraph(fmt::format("{} (line {})", warning.says, warning.spot.line), 2);
  return {Status::limit_reached, std::move(text), ""};
}

}  // namespace

CheckedCard check_aloud(const CheckTelling& telling, const Meanwhile& meanwhile) {
  CheckOptions options{.limit = telling.limit, .found = {}, .at_work = meanwhile.at_work};
  Told told;
  if (!telling.json) {
    options.found = [&](const Conflict& conflict) {
      meanwhile.say(conflict_text(telling.source, telling.card, conflict, told, telling.out));
      ++told.conflicts;
      told.changes += conflict.changes.size();
    };
  }
  return check_card(telling.card, telling.source.text, options);
}

Answer answer_of(const CheckTelling& telling, const CheckedCard& checked, std::string_view way_to_mend,
                 const std::optional<Mended>& mended) {
  const auto& [source, card, limit, json, out] = telling;
  Answer answer;
  switch (checked.verdict) {
    case Verdict::buildable:
      answer.out = builds_text(source, card, checked, out);
      break;
    case Verdict::conflict:
      answer.status = Status::cannot_be_built;
      answer.out = mending_text(source, card, checked, limit, out) + std::string(way_to_mend) +
                   noted_lines(source, "Worth a second look", checked.warnings, out);
      break;
    case Verdict::undecided:
      answer = not_settled(checked, limit);
      break;
  }
  if (json) answer.out = json_check(card, checked, mended);
  return answer;
}

Answer not_in_time(double limit) {
  return {Status::limit_reached, paragraph("Not settled within the time allowed."), limit_told(limit)};
}

std::string limit_told(double limit) {
  return fmt::format("evenmat: The limit of {} s was reached first; --limit allows more.\n", limit);
}

}  // namespace evenmat
