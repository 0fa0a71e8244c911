#include "solver/why/story.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "solver/search/session.h"
#include "solver/search/system_of.h"
#include "solver/why/off_marks.h"
#include "solver/why/tell_sum.h"

namespace evenmat {
namespace {

std::string name_of(const Rules& rules, std::size_t rectangle) {
  const Rectangle& it = rules.rectangles[rectangle];
  return it.kind == Rectangle::Kind::face ? "the " + it.name : it.name;
}

// Layers laid on the same thing where one was perhaps meant to lie on the other. Of three and more that do
// not fit beside one another that is unlikely.
std::vector<std::string> hints_of(const Rules& rules, const std::vector<std::size_t>& indices) {
  std::vector<std::string> hints;
  for (const Separation& separation : rules.separations) {
    if (std::find(indices.begin(), indices.end(), separation.rule) == indices.end()) continue;
    const std::string first = name_of(rules, separation.first);
    const std::string second = name_of(rules, separation.second);
    hints.push_back(fmt::format(
        "{} and {} (line {}) both lie on {}, where layers keep beside one another. If {} "
        "belongs on {}, give it on = \"{}\"; if it may cover part of {}, add over = "
        "[\"{}\"] to it.",
        first, second, rules.rules[separation.rule].spot.line,
        name_of(rules, *rules.rectangles[separation.first].on), second, first, first, first, first));
  }
  if (hints.size() > 1) hints.clear();
  for (const std::size_t index : indices) {
    const Rule& rule = rules.rules[index];
    if (!is_pile(rules, rule) || rule.choices.size() == 1) continue;
    std::set<std::string> names;
    for (const Term& term : rule.choices[1].front().sum.terms()) {
      const Rectangle& it = rules.rectangles[term.variable / 4];
      if (it.kind != Rectangle::Kind::face) names.insert(it.name);
    }
    if (names.size() == 2) {
      hints.push_back(
          fmt::format("If {} and {} did not lie over one another when the card is closed, their "
                      "thicknesses would not add up.",
                      *names.begin(), *names.rbegin()));
    }
  }
  return hints;
}

// The other way of lying apart, where there is just one pair to lay.
void tell_other_way(const Rules& rules, const Nearest& nearest, Unit unit, std::vector<StoryStep>& steps) {
  if (nearest.open.size() != 1 || !rules.rules[nearest.open[0]].keeps_apart) return;
  const auto lies_across = [](const WayThrough& way) { return way.choices[0] < 2; };
  const bool across = lies_across(nearest.ways[0]);
  const ExactSum* other = nullptr;
  for (const WayThrough& way : nearest.ways) {
    if (lies_across(way) == across || way.sums.size() != 1) continue;
    const ExactSum& sum = way.sums[0];
    const bool lacks_room =
        sum.fits_in() && sum.longer_helps && rules.rules[sum.lines[*sum.space].rule].amount.extent;
    if (!lacks_room) continue;
    if (other == nullptr || sum.miss < other->miss) other = &sum;
  }
  if (other == nullptr) return;
  steps.push_back({fmt::format("{} they would be {} too {}.", across ? "One above the other" : "Side by side",
                               length_with_unit(other->miss, unit), across ? "tall" : "wide"),
                   {},
                   std::nullopt,
                   std::nullopt});
}

void tell_choice(const Rules& rules, const Nearest& nearest, std::vector<StoryStep>& steps) {
  std::set<std::string> told;
  for (std::size_t i = 0; i < nearest.open.size(); ++i) {
    const Rule& rule = rules.rules[nearest.open[i]];
    const WayThrough& way = nearest.ways[0];
    const bool counts = std::any_of(way.sums.begin(), way.sums.end(), [&](const ExactSum& sum) {
      return std::any_of(sum.lines.begin(), sum.lines.end(),
                         [&](const SumLine& line) { return line.rule == nearest.open[i]; });
    });
    if (!rule.keeps_apart || !counts) continue;
    const bool across = way.choices[i] < 2;
    const std::string says = fmt::format("{}. {} they come nearest to fitting", rule.says,
                                         across ? "Side by side" : "One above the other");
    if (told.insert(rule.says).second)
      steps.push_back({sentence(says), rule.spot, std::nullopt, std::nullopt});
  }
}

void tell_other_choices(const Rules& rules, const Nearest& nearest, std::vector<StoryStep>& steps) {
  const bool apart = std::any_of(nearest.open.begin(), nearest.open.end(),
                                 [&](std::size_t rule) { return rules.rules[rule].keeps_apart; });
  if (nearest.open.empty() || (apart && nearest.open.size() == 1)) return;
  if (!nearest.all_ways && nearest.ways.size() < 2) return;
  steps.push_back(
      {apart ? "However they are laid, no less is missing." : "Every other choice misses by as much or more.",
       {},
       std::nullopt,
       std::nullopt});
}

void tell_nearest(const Rules& rules, const Nearest& nearest, Unit unit, Story& story) {
  tell_choice(rules, nearest, story.steps);
  // The same sum at two sides is told once.
  std::set<std::vector<std::string>> told;
  for (const ExactSum& sum : nearest.ways[0].sums) {
    std::vector<StoryStep> steps;
    tell_sum(rules, sum, unit, steps);
    std::vector<std::string> words;
    for (const StoryStep& step : steps) words.push_back(step.says);
    if (told.insert(words).second) story.steps.insert(story.steps.end(), steps.begin(), steps.end());
  }
  tell_other_way(rules, nearest, unit, story.steps);
  tell_other_choices(rules, nearest, story.steps);
  for (const ExactSum& sum : nearest.ways[0].sums) {
    const Rational by = sum.short_by();
    if (!story.short_by || abs(by) > abs(*story.short_by)) story.short_by = by;
  }
  for (std::string& hint : hints_of(rules, nearest.rules)) {
    if (std::find(story.hints.begin(), story.hints.end(), hint) == story.hints.end()) {
      story.hints.push_back(std::move(hint));
    }
  }
}

void tell_part(const Inquiry& inquiry, std::size_t part, const WishIds& held, Unit unit, Prover& prover,
               Story& story) {
  const Rules& rules = inquiry.rules();
  const std::vector<std::size_t> indices = inquiry.rules_in(part, held);
  const auto nearest = nearest_sum(rules, indices, std::nullopt, prover);
  if (!nearest) {
    OffMarks off = off_marks(rules, indices, unit, prover);
    if (!story.off_mark || off.by > *story.off_mark) story.off_mark = off.by;
    story.steps.insert(story.steps.end(), off.steps.begin(), off.steps.end());
    return;
  }
  tell_nearest(rules, *nearest, unit, story);
}

}  // namespace

Story story_of(const Inquiry& inquiry, const Clash& clash, Unit unit, Prover& prover) {
  Story story;
  // The same in a variant is told once.
  const std::size_t version = inquiry.parts()[clash.parts.front()].version;
  for (const std::size_t part : clash.parts) {
    if (inquiry.parts()[part].version == version) tell_part(inquiry, part, clash.wishes, unit, prover, story);
  }
  if (story.short_by) story.off_mark.reset();
  return story;
}

}  // namespace evenmat
