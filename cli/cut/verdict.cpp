#include "cli/cut/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "cli/cut/plan.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

std::string spares(int count) { return count == 0 ? "" : fmt::format(" and {} spare", count); }

// "the plain card 9, for the ferry crew 4"; empty where there is one version.
std::string versions_words(const CutTelling& telling, std::size_t card) {
  const std::vector<int>& made = telling.batch.made[card];
  if (made.size() < 2) return {};
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < made.size(); ++i)
    parts.push_back(fmt::format("{} {}", version_name(telling, card, i), made[i]));
  return ": " + joined(parts, ", ");
}

std::string card_words(const CutTelling& telling, std::size_t index) {
  const Card& card = *telling.cards[index].card;
  std::string words = counted(card.cards, "card") + spares(card.spare);
  const int made = cards_made(telling.batch, index);
  if (made != card.cards + card.spare && made > 0) words += fmt::format(", planned here for {}", made);
  return words + (made > 0 ? versions_words(telling, index) : "");
}

// Common practice, no source.
int usual_spares(int cards) { return std::max(1, cards / 10); }

std::string spare_note(const CutTelling& telling, std::size_t index) {
  const std::vector<std::size_t>& none = telling.no_spare_stated;
  if (std::find(none.begin(), none.end(), index) == none.end()) return {};
  return fmt::format("No spare is counted. One in ten is common, and at least one: spare = {}",
                     usual_spares(telling.cards[index].card->cards));
}

// Files of different units are told in one.
std::string unit_note(const CutTelling& telling) {
  const Unit unit = telling.unit();
  const bool differ = std::any_of(telling.cards.begin(), telling.cards.end(),
                                  [&](const BatchCard& other) { return other.card->unit != unit; }) ||
                      std::any_of(telling.more.begin(), telling.more.end(), [&](const MorePaper& other) {
                        return !other.papers.empty() && other.unit != unit;
                      });
  if (!differ) return {};
  return paragraph(fmt::format("All is told in {}, the unit of {}.",
                               unit == Unit::inch ? "inches" : "millimetres",
                               printable(telling.cards.front().file)));
}

// All that is stated, of several versions: no more than that was looked for.
bool all_of_several(const CutTelling& telling) {
  int versions = 0;
  for (std::size_t i = 0; i < telling.cards.size(); ++i) {
    const Card& card = *telling.cards[i].card;
    if (cards_made(telling.batch, i) != card.cards + card.spare) return false;
    const std::vector<int>& made = telling.batch.made[i];
    versions += static_cast<int>(std::count_if(made.begin(), made.end(), [](int one) { return one > 0; }));
  }
  return versions > 1;
}

std::string most_words(const CutTelling& telling) {
  const CutBatch& batch = telling.batch;
  if (!batch.most)
    return "No paper sets a limit to the cards that can be made, so the plan is for the batch.";
  if (*batch.most == 0) {
    return batch.most_proven ? "Not one card can be made of what is there."
                             : "No plan was found that makes even one card of what is there.";
  }
  if (all_of_several(telling)) {
    return "The paper is enough for all cards stated. What it is enough for beyond the stated numbers is "
           "only "
           "found out where there is one kind of card.";
  }
  const std::string cards = counted(*batch.most, "card");
  return batch.most_proven
             ? fmt::format("{} can be made of what is there, and no more; the plan is for those.", cards)
             : fmt::format(
                   "{} can be made of what is there; whether more can was not found out. The plan is "
                   "for those.",
                   cards);
}

}  // namespace

std::string head_text(const CutTelling& telling) {
  if (telling.one_card()) {
    const std::string& title = telling.cards.front().card->title;
    const std::string note = spare_note(telling, 0);
    return (title.empty() ? "" : telling.style.strong(paragraph(title))) + paragraph(card_words(telling, 0)) +
           (note.empty() ? "" : paragraph(note)) + unit_note(telling);
  }
  std::string text = telling.style.strong(paragraph(
      fmt::format("Cut together: {}", counted(static_cast<int>(telling.cards.size()), "card file"))));
  for (std::size_t i = 0; i < telling.cards.size(); ++i) {
    const std::string note = spare_note(telling, i);
    text += paragraph(fmt::format("{}: {}", card_name(telling, i), card_words(telling, i)), 2);
    if (!note.empty()) text += paragraph(note, 4);
  }
  return text + unit_note(telling);
}

std::string verdict_text(const CutTelling& telling, bool most) {
  const CutBatch& batch = telling.batch;
  const bool is_short = batch.verdict == CutVerdict::short_of_paper;
  const bool undecided = batch.verdict == CutVerdict::undecided;
  std::string text;
  if (is_short) text += telling.style.strong("There is not paper enough for the whole batch.") + "\n";
  if (undecided && batch.time_ran_out) {
    text += telling.style.strong("No plan was found within the time allowed.") + "\n";
  } else if (undecided) {
    text += telling.style.strong("No plan was found.") + "\n";
  }
  for (const PaperPlan& paper : batch.papers) {
    if (!paper.trouble.empty()) text += paragraph(fmt::format("{}: {}", paper.paper, paper.trouble), 2);
    if (!is_short && !undecided) continue;
    for (const Shortage& one : paper.missing) text += paragraph(one.says, 2);
    const std::string narrower = narrower_trims_words(paper, telling.unit());
    if (!paper.missing.empty() && !narrower.empty()) text += paragraph(narrower, 4);
  }
  if (is_short || (most && !undecided)) text += paragraph(most_words(telling));
  return text.empty() ? "" : "\n" + text;
}

}  // namespace evenmat
