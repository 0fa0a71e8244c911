#include "cli/explore/formats_words.h"

#include <fmt/format.h>

#include <vector>

#include "cli/explore/facts.h"
#include "cli/wording.h"
#include "solver/body/mail.h"

namespace evenmat {
namespace {

// Of the variants alone, where not every version is to blame.
std::string where(const Conflict& conflict, const Card& card) {
  if (conflict.versions.empty() || conflict.versions.size() > card.variants.size()) return {};
  std::vector<std::string> names;
  for (const std::string& version : conflict.versions)
    names.push_back(version.empty() ? "the plain card" : fmt::format("\"{}\"", version));
  return " in " + listed(names);
}

// What no ruler shows is told as calipers have it.
std::string amount(const Rational& length, Unit unit) {
  const bool on_ruler = unit == Unit::millimetre || is_multiple(length * 64, 1);
  return on_ruler ? length_with_unit(length, unit) : thickness_with_unit(length, unit);
}

std::string how_far(const Conflict& conflict, Unit unit) {
  if (conflict.short_by && *conflict.short_by < 0)
    return fmt::format("Left over: {}.", amount(-*conflict.short_by, unit));
  if (conflict.short_by) return fmt::format("Missing: {}.", amount(*conflict.short_by, unit));
  if (conflict.off_mark) return fmt::format("The nearest mark is {} away.", amount(*conflict.off_mark, unit));
  return {};
}

std::string conflict_line(const Conflict& conflict, const Card& card) {
  std::vector<std::string> rules;
  for (const Remark& rule : conflict.rules) rules.push_back(rule.says);
  std::string line =
      rules.empty()
          ? fmt::format(
                "It is not the wishes: with none of them stated{} it still could not "
                "be built.",
                where(conflict, card))
          : fmt::format("{}{}: {}.", rules.size() == 1 ? "This cannot hold" : "These cannot all hold",
                        where(conflict, card), joined(rules, "; "));
  if (const std::string far = how_far(conflict, card.unit); !far.empty()) line += " " + far;
  if (!conflict.changes.empty()) return line + " " + conflict.changes.front().says;
  return conflict.changes_known ? line + " No change of a single number mends it." : line;
}

}  // namespace

std::string_view verdict_word(const TriedFormat& tried) {
  return tried.checked ? verdict_name(tried.checked->verdict) : "invalid";
}

const SizedVersion* built(const TriedFormat& tried) {
  if (!tried.checked || tried.checked->verdict != Verdict::buildable || !tried.checked->sized) return nullptr;
  return &tried.checked->sized->versions.front();
}

const Conflict* first_conflict(const TriedFormat& tried) {
  const bool any = tried.checked && !tried.checked->conflicts.empty();
  return any ? &tried.checked->conflicts.front() : nullptr;
}

std::string why_not(const TriedFormat& tried) {
  if (!tried.checked) return tried.mistakes.front().says;
  const CheckedCard& checked = *tried.checked;
  if (checked.verdict == Verdict::buildable) return {};
  if (checked.verdict == Verdict::undecided) {
    const bool late = !checked.sized || checked.sized->time_ran_out || checked.sized->lengths.empty();
    return late ? "Not settled within the time allowed."
                : "Whether it can be built as stated is not settled.";
  }
  const Conflict* conflict = first_conflict(tried);
  return conflict == nullptr ? "The time allowed was over before it was known why."
                             : conflict_line(*conflict, *tried.card);
}

std::string smallest_envelope(const TriedFormat& tried) {
  const SizedVersion* version = built(tried);
  if (version == nullptr || !version->closed) return {};
  Card asks_none = *tried.card;
  asks_none.mail.envelopes.clear();
  asks_none.mail.posts.clear();
  SizedVersion unasked = *version;
  unasked.mail = mail_of(asks_none, *version->closed);
  return envelope_words(unasked);
}

}  // namespace evenmat
