#include "cli/json_check.h"

#include <algorithm>
#include <cstddef>
#include <utility>

#include "cli/json_parts.h"
#include "cli/json_version.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

Json remarks_json(const std::vector<Remark>& remarks) {
  Json list = Json::array();
  for (const Remark& remark : remarks) list.push_back(remark_json(remark.says, remark.spot));
  return list;
}

Json story_json(const std::vector<StoryStep>& story) {
  Json list = Json::array();
  for (const StoryStep& step : story) {
    Json json = remark_json(step.says, step.spot);
    if (step.amount) json["amount"] = length_json(*step.amount);
    if (step.total) json["total"] = length_json(*step.total);
    list.push_back(std::move(json));
  }
  return list;
}

Json place_json(const Change& change) {
  return {
      {"line", change.spot.line}, {"column", change.spot.column}, {"from", change.from}, {"to", change.to}};
}

// `number` counts on from change to change.
Json conflict_json(const Conflict& conflict, bool has_variants, std::size_t& number) {
  Json json = {{"rules", remarks_json(conflict.rules)}};
  if (has_variants) json["versions"] = conflict.versions;
  json["smallest"] = conflict.smallest;
  if (conflict.short_by) json["short_by"] = length_json(*conflict.short_by);
  if (conflict.off_mark) json["off_mark"] = length_json(*conflict.off_mark);
  json["story"] = story_json(conflict.story);
  json["hints"] = conflict.hints;
  Json changes = Json::array();
  for (const Change& change : conflict.changes) {
    Json one = {{"number", ++number}};
    one.update(place_json(change));
    one["by"] = length_json(change.by);
    one["says"] = change.says;
    one["mends_card"] = change.mends_card;
    one["on_marks"] = change.on_marks;
    changes.push_back(std::move(one));
  }
  json["changes"] = std::move(changes);
  json["changes_known"] = conflict.changes_known;
  return json;
}

Json conflicts_json(const std::vector<Conflict>& conflicts, bool has_variants) {
  Json list = Json::array();
  std::size_t number = 0;
  for (const Conflict& conflict : conflicts) list.push_back(conflict_json(conflict, has_variants, number));
  return list;
}

void put_spare(Json& json, const CheckedCard& checked) {
  Json spare = Json::array();
  for (const Spare& one : checked.spare) {
    Json rule = remark_json(one.says, one.spot);
    rule["by"] = length_json(one.by);
    spare.push_back(std::move(rule));
  }
  json["spare"] = std::move(spare);
  json["idle"] = remarks_json(checked.idle);
  json["pulling"] = remarks_json(checked.pulling);
}

// Version `index` as `size` would answer it, of a card that can be built.
void put_sized(Json& json, const Card& card, const CheckedCard& checked, std::size_t index) {
  if (checked.verdict != Verdict::buildable || !checked.sized) return;
  if (index >= checked.sized->versions.size()) return;
  put_body(json, card, design_of(card, index), checked.sized->versions[index], checked.sized->freedom_known);
}

void put_variants(Json& json, const Card& card, const CheckedCard& checked) {
  if (card.variants.empty()) return;
  const auto fails = [&](const std::string& name) {
    return std::find(checked.failing.begin(), checked.failing.end(), name) != checked.failing.end();
  };
  Json variants = Json::array();
  for (std::size_t i = 0; i < card.variants.size(); ++i) {
    const Variant& variant = card.variants[i];
    const Verdict verdict = fails(variant.name.value)               ? Verdict::conflict
                            : checked.verdict == Verdict::undecided ? Verdict::undecided
                                                                    : Verdict::buildable;
    Json one = {{"name", variant.name.value}, {"cards", variant.cards}, {"verdict", verdict_name(verdict)}};
    put_sized(one, card, checked, i + 1);
    variants.push_back(std::move(one));
  }
  json["variants"] = std::move(variants);
}

Json slips_json(const std::vector<Slip>& slips) {
  Json list = Json::array();
  for (const Slip& slip : slips) {
    Json json = remark_json(slip.says, slip.spot);
    json["spare"] = length_json(slip.spare);
    json["worst"] = length_json(slip.worst);
    json["errors"] = slip.errors;
    list.push_back(std::move(json));
  }
  return list;
}

Json borders_json(const std::vector<Unevenness>& borders) {
  Json list = Json::array();
  for (const Unevenness& border : borders) {
    Json json = remark_json(border.says, border.spot);
    json["wished"] = length_json(border.wished);
    json["narrowest"] = length_json(border.narrowest);
    json["widest"] = length_json(border.widest);
    json["looks_even"] = border.looks_even;
    json["safe"] = length_json(border.safe);
    list.push_back(std::move(json));
  }
  return list;
}

Json safe_json(const HandCheck& hand, bool has_variants) {
  Json list = Json::array();
  const auto add = [&](const std::string& layer, const std::string& version, Json&& lengths) {
    Json one = {{"name", layer}};
    if (has_variants) one["version"] = version;
    one.update(lengths);
    list.push_back(std::move(one));
  };
  for (const SafeSize& size : *hand.safe) {
    add(size.layer, size.version, {{"width", length_json(size.width)}, {"height", length_json(size.height)}});
  }
  for (const SafePlace& place : hand.safe_places) {
    add(place.layer, place.version,
        {{"from_left", length_json(place.from_left)}, {"from_top", length_json(place.from_top)}});
  }
  return list;
}

}  // namespace

std::string json_check(const Card& card, const CheckedCard& checked, const std::optional<Mended>& mended) {
  Json json = head_json(card, checked.verdict);
  if (checked.verdict == Verdict::conflict) {
    json["conflicts"] = conflicts_json(checked.conflicts, !card.variants.empty());
    json["all_conflicts"] = checked.all_conflicts;
    Json mend = Json::array();
    for (const Change& change : checked.mend) mend.push_back(place_json(change));
    json["mend"] = std::move(mend);
    json["mend_known"] = checked.mend_known;
  }
  put_sized(json, card, checked, 0);
  if (checked.verdict == Verdict::buildable) put_spare(json, checked);
  json["warnings"] = remarks_json(checked.warnings);
  put_variants(json, card, checked);
  if (mended) {
    json["mended"] = {{"file", mended->file}};
    if (mended->builds) json["mended"]["builds"] = *mended->builds;
  }
  return text_of(json);
}

std::string json_hand(const Card& card, const HandCheck& hand, const Rational& error) {
  Json json = head_json(card, hand.verdict);
  if (hand.verdict != Verdict::buildable) return text_of(json);
  json["hand"] = {{"error", length_json(error)},
                  {"slips", slips_json(hand.slips)},
                  {"borders", borders_json(hand.borders)}};
  if (hand.safe) {
    json["hand"]["safe"] = safe_json(hand, !card.variants.empty());
  } else if (!hand.in_the_way.empty()) {
    json["hand"]["in_the_way"] = conflicts_json(hand.in_the_way, !card.variants.empty());
  }
  json["hand"]["safe_known"] = hand.safe_known;
  return text_of(json);
}

std::string json_measured(const Card& card, const MeasuredCard& measured, const Rational& tolerance) {
  Json json = head_json(card, measured.verdict);
  json["tolerance"] = length_json(tolerance);
  Json rules = Json::array();
  for (const Measured& rule : measured.rules) {
    Json one = remark_json(rule.says, rule.spot);
    one["off"] = length_json(rule.off);
    one["within"] = rule.off <= tolerance;
    rules.push_back(std::move(one));
  }
  json["measured"] = std::move(rules);
  return text_of(json);
}

}  // namespace evenmat
