#include "cli/size_command.h"

#include <fmt/format.h>

#include <vector>

#include "cli/clash.h"
#include "cli/excerpt.h"
#include "cli/files.h"
#include "cli/json_answer.h"
#include "cli/report.h"
#include "model/read_card.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

Answer refused(const SizeCall& call, const std::vector<Remark>& mistakes, std::string told) {
  return {Status::bad_input, call.json ? json_mistakes(mistakes) : "", std::move(told)};
}

Answer sized_answer(const SizeCall& call, const Source& source, const Card& card, const Style& out) {
  const SizedCard sized = size_card(card, {.limit = call.limit, .seed = 0, .ranges = call.ranges});
  const bool clashes = sized.verdict == Verdict::conflict;
  Answer answer;
  answer.out = call.json ? json_answer(card, sized)
               : clashes ? clash(source, sized, out)
                         : report(card, sized, out);
  if (clashes) {
    answer.status = Status::cannot_be_built;
  } else if (sized.verdict == Verdict::undecided || (call.ranges && !sized.freedom_known)) {
    answer.status = Status::limit_reached;
    answer.err =
        fmt::format("evenmat: The limit of {} s was reached first; --limit allows more.\n", call.limit);
  }
  return answer;
}

}  // namespace

Answer size_command(const SizeCall& call, const Style& out, const Style& err) {
  const FileText file = read_file(call.file);
  if (!file.trouble.empty()) {
    return refused(call, {{.spot = {}, .says = file.trouble}}, "evenmat: " + file.trouble + "\n");
  }
  const Source source{call.file == "-" ? "standard input" : call.file, file.text};
  const CardReading reading = read_card(file.text);
  if (!reading.card) return refused(call, reading.mistakes, excerpts(source, reading.mistakes, err));
  if (const auto remark = refusal(*reading.card)) {
    return refused(call, {*remark}, excerpt(source, *remark, err));
  }
  if (call.smt2) return {Status::done, smt2_text(rules_of(*reading.card)), ""};
  return sized_answer(call, source, *reading.card, out);
}

}  // namespace evenmat
