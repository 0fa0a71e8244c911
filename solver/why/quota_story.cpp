#include "solver/why/quota_story.h"

#include <fmt/format.h>

#include <algorithm>

#include "solver/quotas.h"
#include "solver/search/choose.h"
#include "solver/search/system_of.h"

namespace evenmat {
namespace {

using Values = std::vector<Rational>;

Rational product(const Area& area, const Values& values) {
  Rational product = 1;
  for (const Variable length : area.of) product *= values[length];
  return product;
}

Rational total(const Quota& quota, const Values& values) {
  Rational sum = 0;
  for (const Area& area : quota.areas) sum += area.factor * product(area, values);
  return sum;
}

std::string told(const Rules& rules, const Area& area, const Values& values, Unit unit) {
  const Rectangle& it = rules.rectangles[area.of.front() / 4];
  const std::string name = it.kind == Rectangle::Kind::face ? "the " + it.name : it.name;
  if (area.of.size() == 2) {
    return fmt::format("{} is {} x {}", name, length_text(values[area.of[0]], unit),
                       length_text(values[area.of[1]], unit));
  }
  const bool width = static_cast<Measure>(area.of.front() % 4) == Measure::width;
  return fmt::format("{} is {} {}", name, length_text(values[area.of.front()], unit),
                     width ? "wide" : "tall");
}

std::string one_place(const Rational& value) {
  const Integer tenths = floor(value * 10 + Rational(1, 2));
  return fmt::format("{}.{}", Integer(tenths / 10).str(), Integer(tenths % 10).str());
}

QuotaStory story_of_share(const Quota& quota, const Rules& rules, const Values& values, Unit unit) {
  std::vector<StoryStep> steps;
  for (const Area& area : quota.areas) {
    const bool itself = &area == &quota.areas.front();
    const std::string ends = itself ? "" : area.factor > 0 ? " and lies on it" : " and shows it";
    steps.push_back({told(rules, area, values, unit) + ends + ".", {}, std::nullopt, std::nullopt});
  }
  // total = share * paper - seen
  const Rational paper = product(quota.areas.front(), values);
  const Rational seen = std::max(Rational(0), Rational((quota.share * paper - total(quota, values)) / paper));
  steps.push_back({fmt::format("So {} of {} is seen, and {} is asked for.", fraction_text(seen),
                               rules.rectangles[quota.rectangle].name, fraction_text(quota.share)),
                   quota.spot, std::nullopt, std::nullopt});
  const std::string share = fraction_text(seen);
  return {std::move(steps),
          quota.spot,
          quota.asked,
          "at least " + share,
          seen - quota.share,
          fmt::format("Be content with {} of {}, which is what is seen of it so.", share,
                      rules.rectangles[quota.rectangle].name)};
}

QuotaStory story_of_weight(const Quota& quota, const Rules& rules, const Values& values) {
  std::vector<StoryStep> steps;
  Rational base = quota.limit;
  for (const Area& area : quota.areas) {
    const bool layer = area.of.size() == 2 && area.factor > 0;
    if (!layer) {
      base += area.factor * product(area, values);
      continue;
    }
    steps.push_back({fmt::format("{} weighs {} g.", rules.rectangles[area.of.front() / 4].name,
                                 one_place(area.factor * product(area, values))),
                     {},
                     std::nullopt,
                     std::nullopt});
  }
  if (base > 0) {
    steps.insert(steps.begin(),
                 {fmt::format("The base, less what is cut out of the card, weighs {} g.", one_place(base)),
                  {},
                  std::nullopt,
                  std::nullopt});
  }
  steps.push_back(
      {fmt::format("That is {} g, and the limit is {} g.", one_place(total(quota, values) + quota.limit),
                   length_text(quota.limit, Unit::millimetre)),
       quota.spot, std::nullopt, std::nullopt});
  const Rational weight = round_up(total(quota, values) + quota.limit, Rational(1, 10));
  const std::string grams = length_text(weight, Unit::millimetre);
  return {std::move(steps),
          quota.spot,
          quota.asked,
          grams,
          weight - quota.limit,
          fmt::format("Make the limit {} g instead of {} g, which this card keeps to.", grams, quota.asked)};
}

}  // namespace

std::optional<QuotaStory> quota_story(const Card& card, const Rules& rules, std::size_t version,
                                      const std::vector<Remark>& wishes, Prover& prover) {
  const std::vector<Quota> quotas = quotas_of(card, rules);
  const auto quota = std::find_if(quotas.begin(), quotas.end(), [&](const Quota& one) {
    return one.version == version && std::any_of(wishes.begin(), wishes.end(),
                                                 [&](const Remark& wish) { return wish.spot == one.spot; });
  });
  if (quota == quotas.end()) return std::nullopt;
  std::vector<bool> only(card.variants.size() + 1, false);
  only[version] = true;
  Rules others = only_versions(rules, only);
  // Rules that separations speak of are given ones: their places among the rules must stay.
  for (Rule& rule : others.rules) {
    if (rule.origin == Origin::stated && rule.spot == quota->spot)
      rule.choices.assign(1, std::vector<Relation>{});
  }
  const Choosing chosen = choose(others, prover);
  if (chosen.outcome != Outcome::found || total(*quota, chosen.values) <= 0) {
    QuotaStory bare;
    bare.spot = quota->spot;
    return bare;
  }
  return quota->limit > 0 ? story_of_weight(*quota, rules, chosen.values)
                          : story_of_share(*quota, rules, chosen.values, card.unit);
}

}  // namespace evenmat
