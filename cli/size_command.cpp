#include "cli/size_command.h"

#include <fmt/format.h>

#include "cli/clash.h"
#include "cli/json_answer.h"
#include "cli/opened_card.h"
#include "cli/report.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

Answer sized_answer(const SizeCall& call, const Source& source, const Card& card, const Style& out) {
  const SizedCard sized = size_card(card, {.limit = call.limit, .seed = 0, .ranges = call.ranges});
  const bool clashes = sized.verdict == Verdict::conflict;
  Answer answer;
  answer.out = call.json ? json_answer(card, sized)
               : clashes ? clash(source, sized, out) + way_to_check(call.file)
                         : report(card, sized, out);
  if (clashes) {
    answer.status = Status::cannot_be_built;
  } else if (sized.verdict == Verdict::undecided || (call.ranges && !sized.freedom_known)) {
    answer.status = Status::limit_reached;
    if (sized.time_ran_out || !sized.freedom_known) {
      answer.err =
          fmt::format("evenmat: The limit of {} s was reached first; --limit allows more.\n", call.limit);
    }
  }
  return answer;
}

}  // namespace

Answer size_command(const SizeCall& call, const Style& out, const Style& err) {
  const OpenedCard opened = open_card(call.file, call.json, err);
  if (!opened.card) return opened.refused;
  if (call.smt2) return {Status::done, smt2_text(rules_of(*opened.card)), ""};
  return sized_answer(call, opened.source(), *opened.card, out);
}

}  // namespace evenmat
