#include "cli/check/why.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "cli/check/change_text.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr int most_figures = 32;  // columns of a sum

std::string blanks(int count) { return padded("", count); }

// What no ruler shows is rounded, as the sentences beside it have it.
std::string figure(const Rational& length, Unit unit) {
  std::string text = length_text(length, unit);
  constexpr std::string_view about = "about ";
  if (text.starts_with(about)) return "~" + text.substr(about.size());
  if (unit == Unit::millimetre || is_multiple(length * 64, 1)) return text;
  if (const std::string thickness = thickness_text(length < 0 ? Rational(-length) : length, unit);
      !thickness.starts_with(about))
    return (length < 0 ? "-" : "") + thickness;
  const Integer thousandths = floor((length < 0 ? Rational(-length) : length) * 1000 + Rational(1) / 2);
  return fmt::format("~{}{}.{:0>3}", length < 0 ? "-" : "", Integer(thousandths / 1000).str(),
                     Integer(thousandths % 1000).str());
}

Rational size_of(const Rational& value) { return value < 0 ? Rational(-value) : value; }

// `"a"`, `"a" and "b"`, `"a", "b" and "c"`; the plain card by that name.
std::string versions_named(const std::vector<std::string>& versions) {
  std::string text;
  for (std::size_t i = 0; i < versions.size(); ++i) {
    if (i > 0) text += i + 1 == versions.size() ? " and " : ", ";
    text += versions[i].empty() ? "the plain card" : "\"" + versions[i] + "\"";
  }
  return text;
}

bool in_all(const std::vector<std::string>& versions, const Card& card) {
  return versions.size() > card.variants.size() || versions.empty();
}

// How far it is from holding, where no sum tells it.
std::string miss(const Conflict& conflict, Unit unit) {
  if (!conflict.story.empty()) return {};
  if (conflict.short_by) {
    const std::string by = length_with_unit(size_of(*conflict.short_by), unit);
    return fmt::format(": {} {}", by, *conflict.short_by < 0 ? "is left over" : "is missing");
  }
  if (conflict.off_mark) {
    return fmt::format(": the nearest mark is {} away", length_with_unit(*conflict.off_mark, unit));
  }
  return {};
}

std::string opening(const Card& card, const Conflict& conflict) {
  const std::string in =
      in_all(conflict.versions, card) ? "" : fmt::format(" in {}", versions_named(conflict.versions));
  if (conflict.rules.empty()) {
    return paragraph(
        fmt::format("It is not the wishes: with none of them stated{} it still could not be "
                    "built{}.",
                    in, miss(conflict, card.unit)));
  }
  const std::string_view what = conflict.rules.size() == 1 ? "This cannot hold" : "These cannot all hold";
  return paragraph(fmt::format("{}{}{}:", what, in, miss(conflict, card.unit)));
}

std::string sign_of(const Rational& before, const Rational& amount, const Rational& total) {
  return before + amount == total ? "+" : before - amount == total ? "-" : "";
}

// The sums as one writes them: what is added, what that comes to, and what it is. Sentences without figures
// stand before and behind.
class Figures {
 public:
  Figures(const std::vector<StoryStep>& story, Unit unit) : lines_(story_lines(story, unit)) {
    for (const StoryLine& line : lines_) {
      amounts_ = std::max(amounts_, columns(line.amount));
      totals_ = std::max(totals_, columns(line.total));
    }
  }

  [[nodiscard]] std::string text() const {
    std::string text;
    // The sentences tell the figures too, and can do without.
    const bool too_wide = amounts_ + totals_ > most_figures;
    for (const StoryLine& line : lines_) {
      if (too_wide || (line.amount.empty() && line.total.empty())) {
        text += paragraph(line.says, 2);
        continue;
      }
      const std::string total = line.total.empty() ? "" : "= " + line.total;
      std::string shown =
          "  " + padded(line.sign, 2) + blanks(amounts_ - columns(line.amount)) + line.amount + "  ";
      if (totals_ > 0) shown += padded(total, totals_ + 2) + "  ";
      const int start = columns(shown);
      text += shown + wrapped(line.says, page_width, start, start) + "\n";
    }
    return text;
  }

 private:
  std::vector<StoryLine> lines_;
  int amounts_ = 0;  // columns
  int totals_ = 0;
};

// How the sentence of a change ends that leaves another conflict, told once where all of them do.
constexpr std::string_view leaves_another = " That leaves another conflict.";

bool each_leaves_another(const std::vector<Change>& changes) {
  return changes.size() > 1 && std::all_of(changes.begin(), changes.end(), [](const Change& change) {
           return !change.mends_card && change.says.ends_with(leaves_another);
         });
}

// A sentence that begins with a name as the maker wrote it, or with a word of ours.
std::string begun(std::string says) {
  if (says.starts_with("the ")) says[0] = 'T';
  return says;
}

std::string listed(const Source& source, const Change& change, std::size_t number, std::string_view says) {
  constexpr int indent = 6;
  std::string text = fmt::format("{:>4}. ", number) + change_text(source, change, indent) + "\n";
  if (says.empty()) return text;
  return text + blanks(indent) + wrapped(begun(std::string(says)), page_width, indent, indent) + "\n";
}

std::string changes_text(const Source& source, const std::vector<Change>& changes, std::size_t number) {
  if (changes.empty()) return {};
  const bool at_once = each_leaves_another(changes);
  std::string text =
      "\n" + paragraph(changes.size() == 1 ? "To mend it, change this:" : "To mend it, change one of these:");
  for (const Change& change : changes) {
    std::string_view says = change.says;
    if (at_once) says.remove_suffix(leaves_another.size());
    text += listed(source, change, ++number, says);
  }
  return at_once ? text + paragraph("Each of these leaves another conflict.") : text;
}

// The number under which a change was listed.
std::optional<std::size_t> number_of(const std::vector<Conflict>& conflicts, const Change& change) {
  std::size_t number = 0;
  for (const Conflict& conflict : conflicts) {
    for (const Change& other : conflict.changes) {
      ++number;
      if (other.spot == change.spot && other.to == change.to) return number;
    }
  }
  return {};
}

std::string mend_text(const Source& source, const CheckedCard& checked) {
  if (!checked.mend_known) {
    return "\n" + paragraph("Time ran out before the fewest changes that mend the whole card were known.");
  }
  if (checked.mend.empty()) {
    const bool none_alone = checked.conflicts.size() == 1 && checked.conflicts.front().changes.empty();
    return "\n" + paragraph(none_alone ? "Nor does any change of several numbers."
                                       : "No change of numbers mends the whole card.");
  }
  const std::optional<std::size_t> only = number_of(checked.conflicts, checked.mend.front());
  if (checked.mend.size() == 1 && only) {
    return "\n" +
           paragraph(fmt::format("The smallest change that mends the whole card is number {}.", *only));
  }
  std::string text = "\n" + paragraph(fmt::format("To mend the whole card, change {}:",
                                                  counted(static_cast<int>(checked.mend.size()), "thing")));
  for (const Change& change : checked.mend) {
    const std::optional<std::size_t> number = number_of(checked.conflicts, change);
    text += fmt::format("{:>5} ", number ? fmt::format("{}.", *number) : "") +
            change_text(source, change, 6) + "\n";
  }
  return text;
}

}  // namespace

std::string conflict_text(const Source& source, const Card& card, const Conflict& conflict,
                          const Told& before, const Style& style) {
  const std::string heading =
      before.conflicts == 0 ? style.strong("This card cannot be built as stated.") + "\n\n"
                            : "\n" + style.strong(fmt::format("Conflict {}", before.conflicts + 1)) + "\n";
  return heading + conflict_body(source, card, conflict, before, style);
}

std::vector<StoryLine> story_lines(const std::vector<StoryStep>& story, Unit unit) {
  std::vector<StoryLine> lines;
  std::optional<Rational> before;
  for (const StoryStep& step : story) {
    StoryLine line;
    line.says = step.says;
    if (step.amount) line.amount = figure(*step.amount, unit);
    if (step.total && step.total != step.amount) {
      line.total = figure(*step.total, unit);
      if (before && step.amount) line.sign = sign_of(*before, *step.amount, *step.total);
    }
    before = step.total ? step.total : step.amount;
    lines.push_back(std::move(line));
  }
  return lines;
}

std::string conflict_body(const Source& source, const Card& card, const Conflict& conflict,
                          const Told& before, const Style& style) {
  std::string text = opening(card, conflict);
  for (const Remark& rule : conflict.rules) text += noted_line(source, rule, style);
  if (!conflict.smallest) {
    text += paragraph("Time ran out before it was known whether fewer of these are to blame.");
  }
  if (!conflict.story.empty()) text += "\n" + Figures(conflict.story, card.unit).text();
  for (const std::string& hint : conflict.hints) text += "\n" + paragraph(hint);
  text += changes_text(source, conflict.changes, before.changes);
  if (!conflict.changes_known) {
    text += "\n" + paragraph("Time ran out before all changes were tried; --limit allows more.");
  } else if (conflict.changes.empty()) {
    text += "\n" + paragraph("No change of a single number mends it.");
  }
  return text;
}

std::string mending_text(const Source& source, const Card& card, const CheckedCard& checked, double limit,
                         const Style& style) {
  if (checked.conflicts.empty()) {
    return style.strong("This card cannot be built as stated.") + "\n" +
           paragraph(fmt::format("The limit of {} s was reached before it was known why.", limit));
  }
  std::string text;
  if (!checked.all_conflicts) {
    const bool many = checked.conflicts.size() >= CheckOptions{}.most_conflicts;
    text += "\n" +
            paragraph(many ? fmt::format("There may be more: no more than {} are looked for.",
                                         checked.conflicts.size())
                           : fmt::format("There may be more: the limit of {} s was reached first.", limit));
  }
  if (!in_all(checked.failing, card)) {
    const bool plain_fails = checked.failing.front().empty();
    text += "\n" + paragraph(fmt::format("Only {} cannot be built{}.", versions_named(checked.failing),
                                         plain_fails ? "" : "; the plain card can"));
  }
  return text + mend_text(source, checked);
}

}  // namespace evenmat
