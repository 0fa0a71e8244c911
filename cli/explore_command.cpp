#include "cli/explore_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <string_view>
#include <utility>

#include "cli/check/as_stated.h"
#include "cli/draw/contact_sheet.h"
#include "cli/drawing/render.h"
#include "cli/drawn_file.h"
#include "cli/explore/asked.h"
#include "cli/explore/csv.h"
#include "cli/explore/fit.h"
#include "cli/explore/formats.h"
#include "cli/explore/listing.h"
#include "cli/explore/written.h"
#include "cli/files.h"
#include "cli/json_answer.h"
#include "cli/json_explore.h"
#include "cli/new_file.h"
#include "cli/opened_card.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "solver/fit_card.h"

namespace evenmat {
namespace {

class Exploring {
 public:
  // `asked`: with its card. Both must outlive it.
  Exploring(const ExploreCall& call, const OpenedCard& opened, const AskedCard& asked, const Style& out,
            const Style& err, const Meanwhile& meanwhile)
      : call_(call),
        asked_(asked),
        card_(*asked.card),
        source_{opened.name + (call.changes.empty() ? "" : ", as the call changes it"), asked.text},
        out_(out),
        err_(err),
        meanwhile_(meanwhile) {}

  Answer answer() {
    if (call_.on) return on_formats();
    NamesReading kept = kept_names(call_.keep_same, card_);
    if (!kept.trouble.empty()) return refused_call(kept.trouble, call_.json);
    keep_same_ = std::move(kept.names);
    if (call_.write) {
      const std::string trouble = trouble_with(target());
      if (!trouble.empty()) return refused_call(trouble, call_.json);
    }
    if (call_.draw) {
      const std::string trouble = trouble_with_drawing(picture(), {call_.file});
      if (!trouble.empty()) return refused_call(trouble, call_.json);
      if (call_.write && same_file(call_.write->path, *call_.draw))
        return refused_call("--write and --draw name one file.", call_.json);
    }
    return call_.fit ? fitted() : explored();
  }

 private:
  [[nodiscard]] double seconds_left() const {
    const std::chrono::duration<double> gone = std::chrono::steady_clock::now() - began_;
    return std::max(call_.limit - gone.count(), 0.01);
  }

  [[nodiscard]] NewFile target() const {
    return {.path = call_.write->path, .force = call_.force, .original = call_.file};
  }

  [[nodiscard]] NewFile picture() const {
    return {.path = *call_.draw, .force = call_.force, .original = call_.file};
  }

  // What became of --draw, in the answer.
  void draw(const std::vector<OpenAmount>& open, const std::vector<const Alternative*>& cards,
            Answer& answer) {
    if (!call_.draw) return;
    const PageSize page = format_of(*call_.draw) != FileKind::pdf ? PageSize::roll
                          : card_.unit == Unit::inch              ? PageSize::letter
                                                                  : PageSize::a4;
    if (meanwhile_.at_work) meanwhile_.at_work("drawing the cards side by side");
    const Drawing drawing = contact_sheet(card_, open, cards, page);
    const std::string trouble = write_drawing(picture(), drawing);
    if (!trouble.empty()) {
      answer.status = Status::bad_input;
      trouble_ = trouble;
      answer.err += fmt::format("evenmat: {} Nothing was drawn.\n", trouble);
      return;
    }
    const std::string only =
        cards.size() > most_drawn ? fmt::format(" The first {} of them are drawn.", most_drawn) : "";
    const std::string told = paragraph(fmt::format("The cards are side by side in {}: {}.{}", *call_.draw,
                                                   pages_words(drawing, *call_.draw), only));
    answer.err += missing_letters(drawing);
    if (call_.json || call_.csv) {
      answer.err += told;
    } else {
      answer.out += "\n" + told;
    }
  }

  Answer on_formats() {
    const FormatReading reading = read_formats(*call_.on, card_.unit, call_.json, err_);
    if (reading.formats.empty()) return reading.refused;
    const std::vector<TriedFormat> tried =
        try_formats(asked_.text, reading.formats, {.limit = call_.limit, .at_work = meanwhile_.at_work});
    Answer answer{status_of(tried), "", ""};
    answer.out = call_.json  ? formats_json(card_, tried)
                 : call_.csv ? formats_csv(card_, tried)
                             : formats_text(card_, tried, out_);
    if (answer.status == Status::limit_reached) answer.err = limit_told(call_.limit);
    return answer;
  }

  Answer explored() {
    ExploreOptions options;
    options.limit = call_.limit;
    options.keep_same = keep_same_;
    options.best = call_.best;
    if (call_.show) options.show = *call_.show;
    if (call_.is_sweep()) {
      options.sweep = {asked_.varied.front().name, asked_.varied.front().key};
      options.show = 0;
    }
    options.at_work = meanwhile_.at_work;
    const std::size_t most = options.show == 0 ? most_counted : options.show;
    CardList list({source_, card_, most, call_.is_sweep(), call_.best}, out_);
    if (!call_.json && !call_.csv && !call_.best) {
      options.found = [&](const ExploredCard& so_far, std::size_t which) {
        meanwhile_.say(list.next(so_far, which));
      };
    }
    const ExploredCard explored = explore_card(card_, options);
    if (explored.verdict != Verdict::buildable) return not_built();
    Answer answer;
    if (explored.time_ran_out) answer = {Status::limit_reached, "", limit_told(call_.limit)};
    std::vector<const Alternative*> cards;
    for (const Alternative& one : explored.alternatives) cards.push_back(&one);
    if (!call_.json) answer.out = call_.csv ? explored_csv(explored.open, cards) : list.rest(explored);
    const std::optional<WrittenCard> written = write(explored.open, cards, answer);
    if (!cards.empty()) draw(explored.open, cards, answer);
    if (call_.json && answer.status == Status::bad_input) return refused_in_json(answer);
    if (call_.json) answer.out = json_explored(card_, explored, written);
    return answer;
  }

  Answer fitted() {
    const FitCard fit = fit_card(
        card_,
        {.limit = call_.limit, .most = call_.most, .keep_same = keep_same_, .at_work = meanwhile_.at_work});
    if (fit.verdict != Verdict::buildable) return not_built();
    if (!fit.no_costs.empty()) {
      return {Status::bad_input, call_.json ? json_mistakes(fit.no_costs) : "",
              excerpts(source_, fit.no_costs, err_)};
    }
    if (fit.best.costs.papers.empty()) {
      return refused_call(
          "--fit: no layer of this card is cut from a paper that it names, so there is nothing to fit. Write "
          "paper = \"...\" in a layer, and a [[paper]] of that name with its sheet.",
          call_.json);
    }
    Answer answer{status_of(fit, call_.most), "", ""};
    if (fit.time_ran_out) answer.err = limit_told(call_.limit);
    if (!call_.json) {
      // The first is the one that --write writes.
      answer.out = call_.csv ? explored_csv(fit.open, {&fit.best, &fit.as_sized})
                             : fit_text(source_, card_, fit, call_.most, out_);
    }
    const std::optional<WrittenCard> written = write(fit.open, {&fit.best}, answer);
    std::vector<const Alternative*> drawn{&fit.best};
    if (!fit.best.as_sized) drawn.push_back(&fit.as_sized);
    draw(fit.open, drawn, answer);
    if (call_.json && answer.status == Status::bad_input) return refused_in_json(answer);
    if (call_.json) answer.out = json_fit(card_, fit, call_.most, written);
    return answer;
  }

  // What became of --write, in the answer; nothing where nothing was written.
  std::optional<WrittenCard> write(const std::vector<OpenAmount>& open,
                                   const std::vector<const Alternative*>& cards, Answer& answer) {
    if (!call_.write) return std::nullopt;
    const auto refuse = [&](Status status, const std::string& why) {
      answer.status = status;
      trouble_ = why;
      answer.err += fmt::format("evenmat: {} Nothing was written.\n", why);
    };
    const std::size_t number = call_.write->number;
    if (number > cards.size()) {
      refuse(Status::bad_input,
             cards.size() == 1
                 ? fmt::format("There is no card {}: only card 1 is shown.", number)
                 : fmt::format("There is no card {}: those shown go from 1 to {}.", number, cards.size()));
      return std::nullopt;
    }
    if (meanwhile_.at_work) meanwhile_.at_work("sizing the card that is written");
    // However little is left of the time: the list is there, and one card is soon sized.
    const WriteOutcome outcome = write_card(target(), asked_.text, open, *cards[number - 1], card_.unit,
                                            std::max(seconds_left(), least_to_size));
    if (!outcome.trouble.empty()) {
      refuse(outcome.status, outcome.trouble);
      return std::nullopt;
    }
    const std::string told =
        paragraph(fmt::format("Card {} was written to {}.", number, printable(call_.write->path)));
    if (call_.csv) {
      answer.err += told;
    } else if (!call_.json) {
      answer.out += "\n" + told;
    }
    return WrittenCard{number, call_.write->path};
  }

  [[nodiscard]] Answer refused_in_json(const Answer& answer) const {
    return {Status::bad_input, json_mistakes({{.spot = {}, .says = trouble_}}), answer.err};
  }

  // Why the card as asked cannot be built, as `check` tells it; where lines are wanted for a spreadsheet, on
  // standard error.
  [[nodiscard]] Answer not_built() const {
    const CheckTelling telling{source_, card_, call_.limit, call_.json, call_.csv ? err_ : out_};
    std::string said;
    Meanwhile aside = meanwhile_;
    aside.say = [&](std::string_view text) { said += text; };
    CheckedCard checked = check_aloud(telling, call_.csv ? aside : meanwhile_);
    // It can be built, and only what else can be was not found in time.
    if (checked.verdict == Verdict::buildable) {
      checked = {};
      checked.verdict = Verdict::undecided;
    }
    Answer answer = answer_of(telling, checked, way_to_mend(checked));
    if (!call_.changes.empty() && !call_.json) {
      answer.err +=
          "evenmat: Lines are told as --set and --vary have them, which the file itself does not.\n";
    }
    if (call_.csv) {
      answer.err = said + answer.out + answer.err;
      answer.out.clear();
    }
    return answer;
  }

  [[nodiscard]] std::string way_to_mend(const CheckedCard& checked) const {
    if (checked.mend.empty() || !call_.changes.empty()) return {};
    const bool quoted = call_.file.find_first_of(" \t") != std::string::npos;
    return paragraph(fmt::format("evenmat check {0}{1}{0} --mend OUT.toml writes the card so mended.",
                                 quoted ? "\"" : "", call_.file));
  }

  static constexpr double least_to_size = 5;  // seconds

  const ExploreCall& call_;
  const AskedCard& asked_;
  const Card& card_;
  Source source_;
  const Style& out_;
  const Style& err_;
  const Meanwhile& meanwhile_;
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
  std::vector<std::string> keep_same_;
  std::string trouble_;  // with --write
};

}  // namespace

bool ExploreCall::is_sweep() const {
  const auto varied =
      std::count_if(changes.begin(), changes.end(), [](const CallChange& change) { return change.vary; });
  return varied == 1 && !show && !best && !fit && !on;
}

Answer explore_command(const ExploreCall& call, const Style& out, const Style& err,
                       const Meanwhile& meanwhile) {
  const OpenedCard opened = open_card(call.file, call.json, err);
  if (!opened.card) return opened.refused;
  const AskedCard asked = asked_card(opened.text, *opened.card, call.changes);
  if (!asked.card) return refused_call(asked.trouble, call.json);
  return Exploring(call, opened, asked, out, err, meanwhile).answer();
}

}  // namespace evenmat
