#include "cli/explore/jumps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <vector>

#include "cli/explore/words.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

std::string change_words(int by, std::string_view thing) {
  const auto size = static_cast<std::size_t>(std::abs(by));
  return fmt::format("{} {}{} {}", small_number(size), thing, size == 1 ? "" : "s",
                     by > 0 ? "more" : "fewer");
}

const PaperCost* cost_of(const Alternative& card, const std::string& paper) {
  const auto same = std::find_if(card.costs.papers.begin(), card.costs.papers.end(),
                                 [&](const PaperCost& cost) { return cost.paper == paper; });
  return same == card.costs.papers.end() ? nullptr : &*same;
}

}  // namespace

std::string jump_sentence(const ExploredCard& explored, const Jump& jump, Unit unit) {
  const Alternative& card = explored.alternatives.at(jump.row);
  const PaperCost* cost = cost_of(card, jump.paper);
  if (cost == nullptr) return {};
  std::vector<std::string> parts;
  if (jump.cards_a_sheet != 0 && cost->cards_a_sheet) {
    parts.push_back(fmt::format("one sheet of {} gives {}: {}", jump.paper,
                                change_words(jump.cards_a_sheet, "card"), *cost->cards_a_sheet));
  }
  if (jump.sheets != 0) {
    parts.push_back(fmt::format("the batch takes {} of {}: {}", change_words(jump.sheets, "sheet"),
                                parts.empty() ? jump.paper : "it", cost->sheets));
  }
  if (parts.empty()) return {};
  // The amount that is swept stands first: nothing else is open.
  const std::string from = explored.open.empty() || card.amounts.empty()
                               ? fmt::format("card {}", jump.row + 1)
                               : length_text(card.amounts.front(), unit);
  return fmt::format("From {} on {}.", from, joined(parts, ", and "));
}

std::string jumps_text(const ExploredCard& explored, Unit unit) {
  std::string text;
  for (const Jump& jump : explored.jumps) {
    const std::string sentence = jump_sentence(explored, jump, unit);
    if (!sentence.empty()) text += paragraph(sentence);
  }
  return text.empty() ? text : "\n" + text;
}

}  // namespace evenmat
