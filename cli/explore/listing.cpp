#include "cli/explore/listing.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "cli/cut/telling.h"
#include "cli/explore/jumps.h"
#include "cli/explore/words.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr std::string_view as_sized = "as sized";

// The most columns that a value of the amount may take, whichever cards are still to come.
int widest_value(const OpenAmount& open, const Rational& mark, Unit unit) {
  constexpr int most_tried = 5000;
  int width =
      std::max(columns(value_words(open, open.least, unit)), columns(value_words(open, open.most, unit)));
  if (!open.ways.empty()) return width;
  Rational value = round_up(open.least, mark);
  for (int i = 0; i < most_tried && value <= open.most; ++i, value += mark)
    width = std::max(width, columns(length_text(value, unit)));
  return width;
}

std::string mark_of(const Alternative& card, bool with_unbeaten) {
  std::vector<std::string> marks;
  if (card.as_sized) marks.emplace_back(as_sized);
  if (with_unbeaten && card.unbeaten) marks.emplace_back("unbeaten");
  return joined(marks, ", ");
}

// What cards are compared by, as far as the card states what that takes.
std::vector<std::string> counts(const std::vector<Alternative>& cards) {
  std::vector<std::string> names;
  const auto add = [&](const char* name, const auto& has) {
    if (std::any_of(cards.begin(), cards.end(), [&](const Alternative& card) { return has(card.costs); }))
      names.emplace_back(name);
  };
  add("sheets", [](const Costs& costs) { return !costs.papers.empty(); });
  add("cost", [](const Costs& costs) { return costs.cost.has_value(); });
  add("waste", [](const Costs& costs) { return costs.waste.has_value(); });
  add("narrowest border", [](const Costs& costs) { return costs.border.has_value(); });
  add("share seen", [](const Costs& costs) { return costs.seen.has_value(); });
  add("thickness", [](const Costs& costs) { return costs.thickness.has_value(); });
  return names;
}

std::string unbeaten_text(const ExploredCard& explored) {
  std::set<std::size_t> numbers;
  for (std::size_t i = 0; i < explored.alternatives.size(); ++i) {
    if (explored.alternatives[i].unbeaten) numbers.insert(i + 1);
  }
  if (explored.compared < 2) return {};
  const std::string among = fmt::format("among the {} cards compared", many_words(explored.compared));
  if (numbers.empty())
    return paragraph(fmt::format("None of these is unbeaten {}; --best shows some that are.", among));
  return paragraph(fmt::format(
      "Unbeaten {}: {}. No other is as good as such a card on every count ({}) and better on one.", among,
      run_words(numbers, [](std::size_t number) { return std::to_string(number); }),
      joined(counts(explored.alternatives), ", ")));
}

}  // namespace

Facts CardList::first_facts(const ExploredCard& explored, std::size_t which) {
  const Alternative& card = explored.alternatives[which];
  Facts facts = amount_facts(explored.open, card, call_.card.unit);
  for (Fact& fact : paper_facts(call_.card, card, call_.sweep, signs_)) facts.push_back(std::move(fact));
  return facts;
}

std::string CardList::head(const ExploredCard& explored) const {
  std::string text;
  if (explored.nothing_open.empty()) {
    text = open_text(explored.open, call_.card.unit);
  } else {
    text = paragraph(explored.nothing_open);
  }
  return text + "\n";
}

std::string CardList::next(const ExploredCard& so_far, std::size_t which) {
  std::string text;
  FactRow row{which + 1, first_facts(so_far, which), mark_of(so_far.alternatives[which], false)};
  if (!columns_) {
    std::vector<int> widest;
    for (const OpenAmount& open : so_far.open) {
      if (open.ways.empty() && open.least == open.most) continue;
      widest.push_back(widest_value(open, call_.card.mark, call_.card.unit));
    }
    const std::size_t amounts = widest.size();
    columns_.emplace(row.facts, widest, std::min(so_far.count, call_.most), as_sized, amounts);
    text = head(so_far) + columns_->heading(out_);
  }
  told_ = which + 1;
  return text + columns_->row(row);
}

std::string CardList::in_order(const ExploredCard& explored, std::vector<std::string>& alike) {
  std::vector<FactRow> rows;
  for (std::size_t i = 0; i < explored.alternatives.size(); ++i)
    rows.push_back({i + 1, first_facts(explored, i), mark_of(explored.alternatives[i], true)});
  told_ = rows.size();
  return head(explored) + fact_table(std::move(rows), alike, out_);
}

std::string CardList::bodies(const ExploredCard& explored, std::vector<std::string> alike) const {
  std::vector<FactRow> rows;
  for (std::size_t i = 0; i < explored.alternatives.size(); ++i) {
    const Alternative& card = explored.alternatives[i];
    rows.push_back({i + 1, body_facts(call_.card, card), mark_of(card, true)});
  }
  std::vector<std::string> more;
  const std::string table = fact_table(std::move(rows), more, out_);
  alike.insert(alike.end(), more.begin(), more.end());
  std::string text;
  if (!table.empty()) text += "\n" + out_.strong("How they differ") + "\n" + table;
  if (!alike.empty()) {
    text += "\n" + paragraph(fmt::format("{}: {}.",
                                         explored.alternatives.size() == 1 ? "This card" : "The same in all",
                                         joined(alike, ", ")));
  }
  return text;
}

// The first thing that is wrong with the papers, and how many more there are.
std::string CardList::no_sheets(const ExploredCard& explored) const {
  const std::vector<Remark>& remarks = explored.no_costs;
  if (remarks.empty()) return {};
  std::string text = noted_lines(call_.source, "No sheets are told", {remarks.front()}, out_);
  if (remarks.size() > 1) {
    text += paragraph(fmt::format("and {} more of the kind; evenmat cut tells all.", remarks.size() - 1), 2);
  }
  return text;
}

std::string CardList::rest(const ExploredCard& explored) {
  std::string text;
  std::vector<std::string> alike;
  if (explored.alternatives.empty())
    return head(explored) + paragraph("No card was found in the time allowed.");
  if (call_.best && told_ == 0) text += in_order(explored, alike);
  for (std::size_t i = told_; i < explored.alternatives.size(); ++i) text += next(explored, i);
  text += signs_.key();
  text += jumps_text(explored, call_.card.unit);
  text += bodies(explored, std::move(alike));
  text += "\n" + unbeaten_text(explored) + paragraph(count_sentence(explored, call_.best));
  return text + no_sheets(explored);
}

std::string count_sentence(const ExploredCard& explored, std::optional<Best> best) {
  const std::size_t shown = explored.alternatives.size();
  const std::string order = best ? std::string(best_words(*best)) : "";
  if (explored.open.empty()) return "There is no other card within the wishes; --vary opens more.";
  if (explored.complete && shown >= explored.count) {
    if (shown == 1) return "There is no other card within the wishes.";
    return fmt::format("These are all {} cards{}{}.", many_words(shown), best ? ", " : "", order);
  }
  if (shown >= explored.count) {
    return fmt::format("{} found; whether there are more is not known.",
                       counted(static_cast<int>(shown), "card"));
  }
  std::string text = fmt::format("{} of {}{} cards, ", many_words(shown),
                                 explored.complete                                        ? ""
                                 : explored.count < most_counted || explored.time_ran_out ? "at least "
                                                                                          : "more than ",
                                 many_words(explored.count));
  if (!best) return text + "those that differ most.";
  text += order;
  if (explored.compared < explored.count || !explored.complete)
    text += fmt::format(" of the {} compared", many_words(explored.compared));
  return text + ".";
}

}  // namespace evenmat
