#include "cli/check_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "cli/check/as_stated.h"
#include "cli/check/hand.h"
#include "cli/check/measured.h"
#include "cli/check/mend.h"
#include "cli/json_answer.h"
#include "cli/json_check.h"
#include "cli/opened_card.h"
#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {
namespace {

// A length of the call in the card's unit, or why it is none that will do.
LengthReading length_of(std::string_view option, const std::string& text, const Card& card) {
  LengthReading reading = read_length(text, card.unit);
  const auto refuse = [&](const std::string& says) { reading = {{}, fmt::format("{}: {}", option, says)}; };
  if (!reading.value) {
    refuse(reading.trouble);
    return reading;
  }
  const Size& front = card.design.base.front.size;
  if (*reading.value <= 0) {
    refuse("It must be more than 0.");
  } else if (*reading.value > std::max(front.width, front.height)) {
    refuse(fmt::format("{} is more than the whole card, which is {} x {}.",
                       length_with_unit(*reading.value, card.unit), length_text(front.width, card.unit),
                       length_with_unit(front.height, card.unit)));
  }
  return reading;
}

class Checking {
 public:
  Checking(const CheckCall& call, const OpenedCard& opened, const Style& out, const Meanwhile& meanwhile)
      : call_(call),
        card_(*opened.card),
        source_(opened.source()),
        out_(out),
        meanwhile_(meanwhile),
        options_{.limit = call.limit, .found = {}, .at_work = meanwhile.at_work} {}

  Answer as_stated() {
    if (call_.mend) {
      const std::string trouble = trouble_with(target_of(call_));
      if (!trouble.empty()) return refused_call(trouble, call_.json);
    }
    const CheckedCard checked = check_aloud(telling(), meanwhile_);
    return call_.mend ? with_mending(checked) : answer_of(telling(), checked, way_to_mend(checked));
  }

  Answer by_hand(const Rational& error) {
    const HandCheck hand = check_hand(card_, source_.text, error, options_);
    Answer answer;
    if (hand.verdict == Verdict::conflict) answer = cannot_be_built();
    if (hand.verdict == Verdict::undecided || !hand.safe_known) answer = not_in_time(call_.limit);
    if (hand.verdict == Verdict::buildable) answer.out = hand_text(source_, card_, hand, error, out_);
    if (call_.json) answer.out = json_hand(card_, hand, error);
    return answer;
  }

  Answer as_measured(const Rational& tolerance) {
    const MeasuredCard measured = check_measured(card_, tolerance, options_);
    if (!measured.not_stated.empty()) return not_measured(measured);
    Answer answer;
    if (measured.verdict == Verdict::conflict) answer.status = Status::cannot_be_built;
    if (measured.verdict == Verdict::undecided) answer = not_in_time(call_.limit);
    if (measured.verdict != Verdict::undecided) answer.out = measured_text(card_, measured, tolerance, out_);
    if (call_.json) answer.out = json_measured(card_, measured, tolerance);
    return answer;
  }

 private:
  [[nodiscard]] CheckTelling telling() const { return {source_, card_, call_.limit, call_.json, out_}; }

  Answer with_mending(const CheckedCard& checked) const {
    if (checked.verdict != Verdict::conflict) {
      Answer answer = answer_of(telling(), checked, {});
      const std::string_view why =
          checked.verdict == Verdict::buildable ? "The card builds as it is: n" : "N";
      answer.err += fmt::format("evenmat: {}othing was written to {}.\n", why, printable(*call_.mend));
      return answer;
    }
    const Mending mending = mend(call_, source_, checked);
    if (mending.status == Status::bad_input && call_.json) return refused_call(mending.trouble, true);
    Answer answer = answer_of(telling(), checked, {}, mending.mended);
    answer.status = mending.status;
    if (!call_.json) answer.out += "\n" + mended_text(source_, mending);
    if (!mending.trouble.empty()) {
      answer.err = fmt::format("evenmat: {} Nothing was written.\n", mending.trouble);
    }
    return answer;
  }

  // How to have it done.
  [[nodiscard]] std::string way_to_mend(const CheckedCard& checked) const {
    if (call_.mend || checked.mend.empty()) return {};
    return paragraph("--mend OUT.toml writes the card so mended; --choose picks other changes.");
  }

  [[nodiscard]] Answer cannot_be_built() const {
    return {
        Status::cannot_be_built,
        paragraph(fmt::format("This card cannot be built even by the steadiest hand: evenmat check {} tells "
                              "why.",
                              call_.file)),
        ""};
  }

  [[nodiscard]] Answer not_measured(const MeasuredCard& measured) const {
    std::vector<Remark> mistakes;
    std::string told = "evenmat: A card is held against its rules when every size is stated. Not stated:\n";
    for (const std::string& what : measured.not_stated) {
      mistakes.push_back({{}, "Not stated: " + what});
      told += paragraph(what, 2);
    }
    return {Status::bad_input, call_.json ? json_mistakes(mistakes) : "", told};
  }

  const CheckCall& call_;
  const Card& card_;
  Source source_;
  const Style& out_;
  const Meanwhile& meanwhile_;
  CheckOptions options_;
};

}  // namespace

Answer check_command(const CheckCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile) {
  const OpenedCard opened = open_card(call.file, call.json, err);
  if (!opened.card) return opened.refused;
  Checking checking(call, opened, out, meanwhile);
  if (!call.hand && !call.tolerance) return checking.as_stated();

  const LengthReading length = call.hand ? length_of("--hand", *call.hand, *opened.card)
                                         : length_of("--tolerance", *call.tolerance, *opened.card);
  if (!length.value) return refused_call(length.trouble, call.json);
  return call.hand ? checking.by_hand(*length.value) : checking.as_measured(*length.value);
}

}  // namespace evenmat
