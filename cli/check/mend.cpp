#include "cli/check/mend.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>

#include "cli/check/change_text.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"
#include "model/read_card.h"

namespace evenmat {
namespace {

Mending refused(Status status, std::string trouble) { return {{}, {}, status, std::move(trouble)}; }

// The changes with these numbers, or the sentence that says why there are none.
Mending chosen(const std::vector<std::size_t>& numbers, const CheckedCard& checked) {
  std::vector<Change> all;
  for (const Conflict& conflict : checked.conflicts) {
    all.insert(all.end(), conflict.changes.begin(), conflict.changes.end());
  }
  if (all.empty() && !checked.all_conflicts) {
    return refused(Status::limit_reached,
                   "The limit was reached before any change was found; --limit allows more.");
  }
  Mending choice;
  std::vector<std::size_t> of;  // the numbers of the changes that are made
  for (const std::size_t number : numbers) {
    if (number < 1 || number > all.size()) {
      const std::string there = all.empty()       ? "there is none"
                                : all.size() == 1 ? "there is only number 1"
                                                  : fmt::format("they go from 1 to {}", all.size());
      return refused(Status::bad_input, fmt::format("There is no change number {}: {}.", number, there));
    }
    const Change& change = all[number - 1];
    const auto same = std::find_if(choice.changes.begin(), choice.changes.end(),
                                   [&](const Change& other) { return other.spot == change.spot; });
    if (same == choice.changes.end()) {
      choice.changes.push_back(change);
      of.push_back(number);
    } else if (same->to != change.to) {
      const std::size_t other = of[static_cast<std::size_t>(same - choice.changes.begin())];
      return refused(Status::bad_input,
                     fmt::format("The changes {} and {} are both of line {}, and only one can be made.",
                                 other, number, change.spot.line));
    }
  }
  return choice;
}

Mending smallest(const CheckedCard& checked) {
  if (!checked.mend_known) {
    return refused(
        Status::limit_reached,
        "The limit was reached before it was known what mends the whole card; --limit allows more.");
  }
  if (checked.mend.empty()) {
    return refused(Status::cannot_be_built, "No change of numbers mends the whole card.");
  }
  return {{}, checked.mend, Status::cannot_be_built, {}};
}

// Whether the card can be built so; absent when that is not known in time.
std::optional<bool> builds(const Card& card, std::string_view text, double limit) {
  const CheckedCard checked =
      check_card(card, text, {.limit = limit, .seed = 0, .most_conflicts = 1, .found = {}, .at_work = {}});
  if (checked.verdict == Verdict::undecided) return {};
  return checked.verdict == Verdict::buildable;
}

}  // namespace

NewFile target_of(const CheckCall& call) {
  return {.path = call.mend.value_or(""), .force = call.force, .original = call.file};
}

Mending mend(const CheckCall& call, const Source& source, const CheckedCard& checked) {
  Mending mending = call.choose.empty() ? smallest(checked) : chosen(call.choose, checked);
  if (!mending.trouble.empty()) return mending;
  const std::optional<std::string> text = with_changes(source.text, mending.changes);
  if (!text) return refused(Status::bad_input, "These changes cannot be written into the file.");
  const CardReading reading = read_card(*text);
  const std::optional<Remark> remark = reading.card ? refusal(*reading.card) : reading.mistakes.front();
  if (remark) {
    return refused(Status::bad_input, fmt::format("With these changes the file has a mistake in line {}: {}",
                                                  remark->spot.line, remark->says));
  }
  const std::optional<bool> so_builds = builds(*reading.card, *text, call.limit);
  if (call.choose.empty() && !so_builds) {
    return refused(
        Status::limit_reached,
        "The limit was reached before it was sure that the changed card builds; --limit allows more.");
  }
  if (call.choose.empty() && !*so_builds) {
    return refused(Status::cannot_be_built, "So changed, the card still cannot be built.");
  }
  std::string trouble = write_new_file(target_of(call), *text);
  if (!trouble.empty()) return refused(Status::bad_input, std::move(trouble));
  mending.mended = Mended{*call.mend, so_builds};
  return mending;
}

std::string mended_text(const Source& source, const Mending& mending) {
  if (!mending.mended) return {};
  const std::string file = printable(mending.mended->file);
  std::string text = paragraph(fmt::format("Written to {}, with {} changed:", file,
                                           counted(static_cast<int>(mending.changes.size()), "thing")));
  for (const Change& change : mending.changes) text += "  " + change_text(source, change, 2) + "\n";
  const std::optional<bool>& builds = mending.mended->builds;
  return text + paragraph(!builds   ? "The limit was reached before it was known whether it builds so."
                          : *builds ? "It builds so."
                                    : "It still does not build so; check it to see what is left.");
}

}  // namespace evenmat
