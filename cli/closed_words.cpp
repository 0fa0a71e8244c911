#include "cli/closed_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "cli/quantities.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// Papers by name; what has none together.
std::string papers(const std::vector<std::string>& names) {
  std::vector<std::string> told;
  std::copy_if(names.begin(), names.end(), std::back_inserter(told),
               [](const std::string& name) { return !name.empty(); });
  if (told.size() < names.size()) told.emplace_back("what has no paper named");
  return listed(told);
}

std::string at_least(const std::vector<std::string>& unknown) { return unknown.empty() ? "" : "at least "; }

}  // namespace

std::string thickness_words(const ClosedCard& closed, Unit unit) {
  if (closed.thickness == 0) return {};
  return fmt::format("{}{} at its thickest", at_least(closed.no_thickness),
                     thickness_with_unit(closed.thickness, unit));
}

std::string thick_parts_words(const ClosedCard& closed, Unit unit) {
  if (closed.thickest.size() < 2) return {};
  std::vector<std::string> parts;
  for (const ThickPart& part : closed.thickest) {
    parts.push_back(fmt::format("{} {}", part.what, thickness_with_unit(part.thickness, unit)));
  }
  return joined(parts, ", ");
}

std::string weight_words(const ClosedCard& closed, Unit unit) {
  return closed.grams == 0 ? "" : at_least(closed.no_weight) + weight_text(closed.grams, unit);
}

std::string not_counted_words(const ClosedCard& closed) {
  if (closed.thickness == 0 && closed.grams == 0) return {};
  if (closed.no_thickness.empty() && closed.no_weight.empty()) return {};
  if (closed.no_thickness == closed.no_weight) {
    return fmt::format("Not counted, as it is not stated: thickness and weight of {}.",
                       papers(closed.no_weight));
  }
  std::vector<std::string> lacking;
  if (!closed.no_thickness.empty()) lacking.push_back("the thickness of " + papers(closed.no_thickness));
  if (!closed.no_weight.empty()) lacking.push_back("the weight of " + papers(closed.no_weight));
  return fmt::format("Not counted, as it is not stated: {}.", joined(lacking, "; "));
}

std::vector<std::string> asked_mail(const std::vector<MailNote>& mail) {
  std::vector<std::string> paragraphs;
  for (const MailNote& note : mail) {
    if (!note.asked) continue;
    paragraphs.push_back(note.kind == MailNote::Kind::post ? fmt::format("{}: {}", note.name, note.says)
                                                           : note.says);
  }
  return paragraphs;
}

std::vector<std::string> asked_mail_briefly(const std::vector<MailNote>& mail) {
  std::vector<std::string> paragraphs;
  bool caution = false;
  for (const MailNote& note : mail) {
    if (!note.asked) continue;
    if (!note.fits) {
      for (std::string& one : asked_mail({note})) paragraphs.push_back(std::move(one));
    } else if (note.kind == MailNote::Kind::envelope) {
      paragraphs.push_back(fmt::format("It goes into {}.", note.name));
    } else {
      paragraphs.push_back(fmt::format("{} takes it{}.", note.name, note.by_hand ? ", by hand" : ""));
      caution = true;
    }
  }
  if (caution) paragraphs.emplace_back("Posts' rules and prices change. Check with your post office.");
  return paragraphs;
}

std::string offered_envelopes(const std::vector<MailNote>& mail) {
  std::vector<std::string> names;
  for (const MailNote& note : mail) {
    if (!note.asked && note.kind == MailNote::Kind::envelope && note.fits) names.push_back(note.name);
  }
  if (names.empty()) return {};
  return fmt::format("The smallest standard {}: {}.",
                     names.size() == 1 ? "envelope that takes it" : "envelopes that take it",
                     joined(names, ", "));
}

}  // namespace evenmat
