#include "solver/why/explain.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <set>

#include "model/change_file.h"
#include "model/read_card.h"
#include "solver/quotas.h"
#include "solver/search/system_of.h"
#include "solver/why/changes.h"
#include "solver/why/conflicts.h"
#include "solver/why/inquiry.h"
#include "solver/why/quota_story.h"
#include "solver/why/story.h"

namespace evenmat {
namespace {

bool can_be_built(const Rules& rules, Prover& prover) {
  std::size_t versions = 1;
  for (const Rule& rule : rules.rules) versions = std::max(versions, rule.version + 1);
  for (std::size_t i = 0; i < versions; ++i) {
    std::vector<bool> only(versions, false);
    only[i] = true;
    if (!possible(system_of(only_versions(rules, only)), prover)) return false;
  }
  return true;
}

constexpr int most_rounds = 24;  // of learning from a changed card

class Explainer {
 public:
  Explainer(const Card& card, std::string_view text, const WriteRules& write, Prover& prover,
            const CheckOptions& options)
      : card_(card),
        text_(text),
        write_(write),
        options_(options),
        rules_(write(card)),
        inquiry_(rules_, prover),
        aside_(&prover) {
    all_.resize(inquiry_.wishes());
    std::iota(all_.begin(), all_.end(), 0U);
    std::vector<Quota> quotas = quotas_of(card, rules_);
    for (const Quota& quota : quotas) quota_spots_.insert(quota.spot);
    inquiry_.watch(std::move(quotas));
  }

  Explanation run() {
    std::vector<Clash> clashes;
    try {
      explanation_.all_conflicts = find_clashes(inquiry_, [&](const Clash& clash) {
        clashes.push_back(clash);
        tell(clash);
        return clash.smallest && clashes.size() < options_.most_conflicts;
      });
    } catch (const OutOfTime&) {
      explanation_.all_conflicts = false;
    }
    try {
      at_work("looking for the fewest changes");
      mend(clashes);
    } catch (const OutOfTime&) {
      explanation_.mend_known = false;
    }
    return std::move(explanation_);
  }

 private:
  void at_work(std::string_view what) const {
    if (options_.at_work) options_.at_work(what);
  }

  void tell(const Clash& clash) {
    Conflict conflict;
    conflict.smallest = clash.smallest;
    std::set<std::size_t> versions;
    for (const std::size_t part : clash.parts) versions.insert(inquiry_.parts()[part].version);
    for (const std::size_t version : versions) {
      conflict.versions.push_back(version == 0 ? "" : card_.variants[version - 1].name.value);
    }
    const std::vector<std::size_t> indices = inquiry_.rules_in(clash.parts.front(), clash.wishes);
    for (const WishId wish : clash.wishes) {
      const auto rule = std::find_if(indices.begin(), indices.end(), [&](std::size_t index) {
        return rules_.rules[index].origin == Origin::stated &&
               rules_.rules[index].spot == inquiry_.spot(wish);
      });
      if (rule != indices.end()) conflict.rules.push_back({inquiry_.spot(wish), said_of(wish, indices)});
    }
    try {
      at_work("putting the reasons into words");
      const auto areas = quota_story(card_, rules_, *versions.begin(), conflict.rules, aside_);
      if (areas) {
        conflict.story = areas->steps;
      } else {
        Story story = story_of(inquiry_, clash, card_.unit, aside_);
        conflict.short_by = std::move(story.short_by);
        conflict.off_mark = std::move(story.off_mark);
        conflict.story = std::move(story.steps);
        conflict.hints = std::move(story.hints);
      }
      at_work("trying changes");
      find_changes(clash, versions, conflict);
      if (areas && !areas->steps.empty()) offer_less(*areas, conflict);
    } catch (const OutOfTime&) {
      conflict.changes_known = false;
      explanation_.all_conflicts = false;
    }
    explanation_.conflicts.push_back(conflict);
    if (options_.found) options_.found(conflict);
    at_work("looking for more that cannot hold");
  }

  // What a wish says; of one that says something of several layers, what it says of them all.
  [[nodiscard]] std::string said_of(WishId wish, const std::vector<std::size_t>& indices) const {
    std::string says;
    for (const std::size_t index : indices) {
      const Rule& rule = rules_.rules[index];
      if (rule.origin != Origin::stated || rule.spot != inquiry_.spot(wish)) continue;
      if (says.empty()) says = rule.says;
      if (says != rule.says && rule.keeps_apart) return says.substr(0, says.find(", so "));
    }
    return says;
  }

  void find_changes(const Clash& clash, const std::set<std::size_t>& versions, Conflict& conflict) {
    std::vector<std::size_t> parts;
    for (std::size_t part = 0; part < inquiry_.parts().size(); ++part) {
      if (versions.contains(inquiry_.parts()[part].version)) parts.push_back(part);
    }
    std::map<std::pair<Spot, std::size_t>, NewValue> nearest;  // a list of sizes is one
    for (const std::size_t number : inquiry_.numbers_of(clash.wishes)) {
      const auto value = nearest_within_quotas(parts, clash.wishes, number);
      if (!value) continue;
      const StatedNumber& stated = rules_.numbers[number];
      const bool listed = stated.number().part == NumberPart::one_of;
      const auto [known, fresh] =
          nearest.try_emplace({stated.spot, listed ? 0 : stated.place}, NewValue{number, *value});
      if (!fresh && moved(number, *value) < moved(known->second.number, known->second.value)) {
        known->second = {number, *value};
      }
    }
    for (const auto& [key, value] : nearest) {
      Change change = change_of({value});
      const auto builds = try_out({change});
      if (!builds) continue;
      change.mends_card = *builds;
      if (!change.mends_card) tell_rest(value, change);
      conflict.changes.push_back(std::move(change));
    }
    std::stable_sort(conflict.changes.begin(), conflict.changes.end(),
                     [](const Change& a, const Change& b) { return abs(a.by) < abs(b.by); });
    if (conflict.changes.empty() && conflict.off_mark) offer_about(clash, conflict);
  }

  // The nearest value with which quotas are kept too: each that is tried may show more than was known.
  std::optional<Rational> nearest_within_quotas(const std::vector<std::size_t>& parts, const WishIds& held,
                                                std::size_t number) {
    for (int round = 0; round < most_rounds; ++round) {
      std::optional<Rational> value = nearest_value(inquiry_, parts, held, number);
      if (!value || quota_spots_.empty() || inquiry_.possible_at(parts, held, number, *value)) return value;
    }
    return std::nullopt;
  }

  // Adds the rules that a changed card shows. False when there are none that were not known.
  bool learn_from(const std::vector<Change>& changes) {
    if (quota_spots_.empty()) return false;
    const auto changed = with_changes(text_, changes);
    const CardReading reading = read_card(changed.value_or(""));
    if (!reading.card || refusal(*reading.card)) return false;
    bool learnt = false;
    for (Rule& rule : write_(*reading.card).rules) {
      const auto same = [&](const Rule& other) { return is_same(rule, other); };
      if (rule.origin != Origin::stated || !quota_spots_.contains(rule.spot) ||
          std::any_of(rules_.rules.begin(), rules_.rules.end(), same) ||
          std::any_of(learnt_.begin(), learnt_.end(), same))
        continue;
      inquiry_.add(rule);
      learnt_.push_back(std::move(rule));
      learnt = true;
    }
    return learnt;
  }

  static bool is_same(const Rule& a, const Rule& b) {
    if (a.spot != b.spot || a.version != b.version || a.choices.size() != b.choices.size()) return false;
    return std::equal(a.choices.begin(), a.choices.end(), b.choices.begin(),
                      [](const auto& x, const auto& y) {
                        const Sum difference = x.front().sum - y.front().sum;
                        return difference.is_constant() && difference.constant() == 0;
                      });
  }

  [[nodiscard]] Rational moved(std::size_t number, const Rational& value) const {
    return abs(value - rules_.numbers[number].number().value);
  }

  // What changing the same number further would do for the rest of the card.
  void tell_rest(const NewValue& value, Change& change) {
    std::vector<std::size_t> parts(inquiry_.parts().size());
    std::iota(parts.begin(), parts.end(), 0U);
    const auto whole = nearest_within_quotas(parts, all_, value.number);
    change.says += whole && *whole != value.value
                       ? fmt::format(" That leaves another conflict; {} would mend the whole card.",
                                     rules_.numbers[value.number].number().part == NumberPart::thickness
                                         ? thickness_with_unit(*whole, card_.unit)
                                         : length_with_unit(*whole, card_.unit))
                       : " That leaves another conflict.";
  }

  // Where an exact length cannot be had on the marks, one that may give way a little can.
  void offer_about(const Clash& clash, Conflict& conflict) {
    for (const std::size_t number : inquiry_.numbers_of(clash.wishes)) {
      const StatedNumber& stated = rules_.numbers[number];
      if (stated.number().part != NumberPart::exact) continue;
      Change change;
      change.spot = stated.spot;
      change.from = stated.text;
      change.to = stated.text;
      change.to.insert(stated.number().begin, "about ");
      change.on_marks = false;
      change.says = fmt::format("Let {} be about {}: as near it as the marks allow.", stated.about,
                                length_with_unit(stated.number().value, card_.unit));
      const auto builds = try_out({change});
      if (!builds || !mends(change, conflict)) continue;
      change.mends_card = *builds;
      if (!*builds) change.says += " That leaves another conflict.";
      conflict.changes.push_back(std::move(change));
    }
  }

  // To ask for no more of an area than there is.
  void offer_less(const QuotaStory& areas, Conflict& conflict) {
    Change change;
    change.spot = areas.spot;
    change.from = areas.from;
    change.to = areas.to;
    change.by = areas.by;
    change.says = areas.says;
    change.on_marks = false;
    const auto builds = try_out({change});
    if (!builds) return;
    change.mends_card = *builds;
    if (!*builds) change.says += " That leaves another conflict.";
    conflict.changes.push_back(std::move(change));
  }

  // Whether the conflict's own wishes can hold in the changed file.
  bool mends(const Change& change, const Conflict& conflict) {
    const CardReading reading = read_card(with_changes(text_, {change}).value_or(""));
    if (!reading.card) return false;
    const Rules rules = write_(*reading.card);
    std::size_t most = 0;
    for (const Rule& rule : rules.rules) most = std::max(most, rule.wish);
    std::vector<bool> held(most + 1, false);
    for (const Rule& rule : rules.rules) {
      held[rule.wish] =
          held[rule.wish] || std::any_of(conflict.rules.begin(), conflict.rules.end(),
                                         [&](const Remark& told) { return told.spot == rule.spot; });
    }
    return possible(system_of(rules, held), aside_);
  }

  // Absent when the file cannot be read with the changes made.
  std::optional<bool> try_out(const std::vector<Change>& changes) {
    const auto changed = with_changes(text_, changes);
    if (!changed) return std::nullopt;
    const CardReading reading = read_card(*changed);
    if (!reading.card || refusal(*reading.card)) return std::nullopt;
    return can_be_built(write_(*reading.card), aside_);
  }

  // Numbers of one text, changed together.
  Change change_of(const std::vector<NewValue>& values) {
    const StatedNumber& stated = rules_.numbers[values.front().number];
    Change change;
    change.spot = stated.spot;
    change.from = stated.text;
    std::vector<std::pair<std::size_t, Rational>> places;
    for (const NewValue& value : values) {
      const StatedNumber& number = rules_.numbers[value.number];
      places.emplace_back(number.place, value.value);
      const Rational by = value.value - number.number().value;
      const bool thin = number.number().part == NumberPart::thickness;
      const auto shown = [&](const Rational& length) {
        const std::string thickness = thin ? thickness_text(length, card_.unit) : "about";
        return thickness.starts_with("about") ? length_text(length, card_.unit) : thickness;
      };
      change.by += by;
      change.says += fmt::format("{}Make {} {} instead of {}{} ({} {} {}).", change.says.empty() ? "" : " ",
                                 number.about.empty() ? "it" : number.about, shown(value.value),
                                 shown(number.number().value), number.about.empty() ? " in this rule" : "",
                                 shown(abs(by)), unit_name(card_.unit), by < 0 ? "less" : "more");
      if (number.number().part == NumberPart::one_of)
        change.says += " That is, if there is one of that size.";
    }
    change.to = with_numbers(stated.numbered, places, card_.unit);
    return change;
  }

  void mend(const std::vector<Clash>& clashes) {
    std::vector<Change> changes;
    for (int round = 0; round < most_rounds; ++round) {
      changes.clear();
      const std::vector<NewValue> values = fewest_changes(inquiry_, clashes, explanation_.all_conflicts);
      std::map<Spot, std::vector<NewValue>> by_spot;
      for (const NewValue& value : values) by_spot[rules_.numbers[value.number].spot].push_back(value);
      for (const auto& [spot, some] : by_spot) {
        changes.push_back(change_of(some));
        changes.back().mends_card = by_spot.size() == 1;
      }
      if (changes.empty() || !learn_from(changes)) break;
    }
    if (changes.empty()) {
      // Lengths that give way may do, one for each conflict, where no other numbers do.
      std::map<Spot, Change> first;
      for (const Conflict& conflict : explanation_.conflicts) {
        if (conflict.changes.empty()) return;
        first.try_emplace(conflict.changes[0].spot, conflict.changes[0]);
      }
      for (const auto& [spot, change] : first) changes.push_back(change);
      if (changes.empty() || !try_out(changes).value_or(false)) return;
    } else if (!try_out(changes).value_or(false)) {
      // Lengths that keep to all that was seen of an area so far may still not do. One change that does is as
      // few as can be.
      changes.clear();
      for (const Conflict& conflict : explanation_.conflicts) {
        const auto whole = std::find_if(conflict.changes.begin(), conflict.changes.end(),
                                        [](const Change& change) { return change.mends_card; });
        if (changes.empty() && whole != conflict.changes.end()) changes.push_back(*whole);
      }
      explanation_.mend_known = !changes.empty();
    }
    explanation_.mend = std::move(changes);
  }

  const Card& card_;
  std::string_view text_;
  const WriteRules& write_;
  const CheckOptions& options_;
  Rules rules_;
  Inquiry inquiry_;
  Prover aside_;
  WishIds all_;
  std::set<Spot> quota_spots_;
  std::vector<Rule> learnt_;
  Explanation explanation_;
};

}  // namespace

std::optional<std::string> with_changes(std::string_view text, const std::vector<Change>& changes) {
  std::vector<Change> last_first = changes;
  std::sort(last_first.begin(), last_first.end(),
            [](const Change& a, const Change& b) { return a.spot > b.spot; });
  std::string changed(text);
  for (const Change& change : last_first) {
    auto next = with_value(changed, change.spot, change.to);
    if (!next) return std::nullopt;
    changed = std::move(*next);
  }
  return changed;
}

Explanation explain(const Card& card, std::string_view text, const WriteRules& write, Prover& prover,
                    const CheckOptions& options) {
  try {
    return Explainer(card, text, write, prover, options).run();
  } catch (const OutOfTime&) {
    return {{}, false, {}, false};
  }
}

}  // namespace evenmat
