#include "cli/cut/plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>
#include <utility>
#include <vector>

#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// How many sheets of each size are taken, offcuts aside.
std::vector<std::pair<Size, int>> sizes_taken(const PaperPlan& paper) {
  std::vector<std::pair<Size, int>> sizes;
  for (std::size_t i = 0; i < paper.stock.size(); ++i) {
    const int times = paper.stock[i].is_offcut() ? 0 : taken(paper, i);
    if (times == 0) continue;
    const auto same = std::find_if(sizes.begin(), sizes.end(),
                                   [&](const auto& one) { return one.first == paper.stock[i].size; });
    if (same == sizes.end()) {
      sizes.emplace_back(paper.stock[i].size, times);
    } else {
      same->second += times;
    }
  }
  return sizes;
}

std::string bound_words(const PaperPlan& paper) {
  if (paper.cost) {
    return paper.proven
               ? fmt::format(", at a cost of {}, the least possible", amount_words(*paper.cost))
               : fmt::format(", at a cost of {}; no plan can cost less than {}", amount_words(*paper.cost),
                             amount_words(paper.cost_at_least.value_or(0)));
  }
  return paper.proven ? ", the fewest possible"
                      : fmt::format("; no plan can use fewer than {}", paper.at_least);
}

using CardLayer = std::pair<std::size_t, std::string>;

CardLayer card_layer(const PieceUse& use) { return {use.card, use.layer}; }

// All pieces of one layer that the sheets of a letter give, and of which versions.
struct Given {
  const PieceUse* use = nullptr;
  int count = 0;
  std::map<std::size_t, int> of_versions;
};

// In the order in which they lie.
std::vector<Given> given_by(const PaperPlan& paper, const LaidSheet& laid) {
  std::vector<Given> all;
  for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
    for (const LabelledRun& run : laid.runs) {
      const PieceUse& use = paper.pieces[laid.pieces[i].kind].uses[run.uses[i]];
      auto same = std::find_if(all.begin(), all.end(),
                               [&](const Given& one) { return card_layer(*one.use) == card_layer(use); });
      if (same == all.end()) same = all.insert(all.end(), Given{&use, 0, {}});
      same->count += run.times;
      same->of_versions[use.version] += run.times;
    }
  }
  return all;
}

// Which versions the pieces are for is told where the paper's list of piles does not say it: of a layer that
// several letters give to several versions.
std::string versions_words(const CutTelling& telling, const PaperPlan& paper, const Given& given) {
  std::set<std::size_t> versions;
  int letters = 0;
  for (const LaidSheet& laid : paper.plan) {
    for (const Given& other : given_by(paper, laid)) {
      if (card_layer(*other.use) != card_layer(*given.use)) continue;
      ++letters;
      for (const auto& [version, count] : other.of_versions) versions.insert(version);
    }
  }
  if (letters < 2 || versions.size() < 2) return {};
  std::vector<std::string> told;
  for (const auto& [version, count] : given.of_versions) {
    const std::string name = version_name(telling, given.use->card, version);
    told.push_back(given.of_versions.size() == 1 ? name : fmt::format("{} {}", name, count));
  }
  return joined(told, ", ");
}

std::string gives(const CutTelling& telling, const PaperPlan& paper, const LaidSheet& laid) {
  const std::vector<Given> all = given_by(paper, laid);
  std::vector<std::string> layers;
  std::vector<std::string> versions;
  for (const Given& given : all) {
    layers.push_back(fmt::format("{} {}", given.count, layer_name(telling, *given.use)));
    versions.push_back(versions_words(telling, paper, given));
  }
  const bool alike = all.size() > 1 && !versions.front().empty() &&
                     std::count(versions.begin(), versions.end(), versions.front()) ==
                         static_cast<std::ptrdiff_t>(versions.size());
  if (alike) return fmt::format("{} (of each: {})", joined(layers, ", "), versions.front());
  for (std::size_t i = 0; i < layers.size(); ++i) {
    if (!versions[i].empty()) layers[i] += fmt::format(" ({})", versions[i]);
  }
  return joined(layers, ", ");
}

// To the whole per cent below, so that a sheet that is not used up never looks as if it were.
std::string per_cent(const Rational& share) { return fmt::format("{} %", floor(share * 100).str()); }

// An offcut is there to be cut once what gives it is: of a base's face, once the base is made.
std::string when_there(const CutSheet& sheet) {
  switch (sheet.from) {
    case CutSheet::From::cut_back:
      return ", once the bases are scored, folded and trimmed";
    case CutSheet::From::window:
      return ", once that is cut out";
    case CutSheet::From::hollow:
      return ", once that is cut away";
    case CutSheet::From::stated:
    case CutSheet::From::more:
      break;
  }
  return {};
}

}  // namespace

std::string offcut_words(const CutSheet& sheet) {
  switch (sheet.from) {
    case CutSheet::From::cut_back:
      return fmt::format("from the cut-back of the {}", sheet.comes_of);
    case CutSheet::From::window:
      return fmt::format("from what comes out of {}", sheet.comes_of);
    case CutSheet::From::hollow:
      return fmt::format("from the hidden middle of {}", sheet.comes_of);
    case CutSheet::From::stated:
    case CutSheet::From::more:
      break;
  }
  return {};
}

std::string sheets_words(const PaperPlan& paper, Unit unit) {
  if (paper.sheets == 0) return "No sheet: all of it comes of what other cuts give up.";
  const auto sizes = sizes_taken(paper);
  std::string words = counted(paper.sheets, "sheet");
  if (sizes.size() == 1) {
    words += " of " + size_words(sizes.front().first, unit);
  } else {
    std::vector<std::string> parts;
    for (const auto& [size, times] : sizes)
      parts.push_back(fmt::format("{} of {}", times, size_words(size, unit)));
    words += fmt::format(" ({})", joined(parts, ", "));
  }
  const auto letters = std::count_if(paper.plan.begin(), paper.plan.end(), [&](const LaidSheet& laid) {
    return !paper.stock[laid.sheet].is_offcut();
  });
  if (letters == 1 && paper.sheets > 1) words += ", all cut alike";
  return words + bound_words(paper) + ".";
}

std::string narrower_trims_words(const PaperPlan& paper, Unit unit) {
  if (!paper.with_narrower_trims) return {};
  const auto& [sliver, sheets] = *paper.with_narrower_trims;
  const std::string width =
      sliver == 0 ? "of any width" : fmt::format("as narrow as {}", length_with_unit(sliver, unit));
  return fmt::format("With trims {} ([trimmer] sliver = \"{}\") {} would do.", width,
                     exact_words(sliver, unit), counted(sheets, "sheet"));
}

std::string letter_text(const CutTelling& telling, const PaperPlan& paper, std::size_t index) {
  const LaidSheet& laid = paper.plan[index];
  const CutSheet& sheet = paper.stock[laid.sheet];
  std::string words =
      fmt::format("{}: {}", laid.letter, counted(laid.times, sheet.is_offcut() ? "piece" : "sheet"));
  if (sheet.is_offcut() || sizes_taken(paper).size() > 1)
    words += " of " + size_words(sheet.size, telling.unit());
  if (sheet.is_offcut()) words += fmt::format(" {}{}", offcut_words(sheet), when_there(sheet));
  words += fmt::format(", {} used: {}", per_cent(laid.used), gives(telling, paper, laid));
  return telling.style.strong(paragraph(words + (laid.cuts.empty() ? ", uncut" : ""), 2));
}

}  // namespace evenmat
