#include "cli/json_answer.h"

#include <cstddef>
#include <utility>

#include "cli/json_parts.h"
#include "cli/json_version.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// One version, with what is still open in it. What could not be found out in time is left out.
void put_version(Json& json, const Card& card, const Design& design, const SizedVersion& version,
                 bool freedom_known) {
  put_body(json, card, design, version, freedom_known);
  if (version.verdict == Verdict::conflict) return;

  if (freedom_known) {
    Json slides = Json::array();
    for (const Slide& slide : version.slides) {
      slides.push_back({{"layers", slide.names},
                        {"across", slide.across},
                        {"low", length_json(slide.low)},
                        {"high", length_json(slide.high)}});
    }
    json["slides"] = std::move(slides);
  }

  if (!version.ranges.empty()) {
    Json ranges = Json::array();
    for (const Range& range : version.ranges) {
      ranges.push_back({{"layer", range.layer},
                        {"what", range.what},
                        {"least", length_json(range.least)},
                        {"most", length_json(range.most)}});
    }
    json["ranges"] = std::move(ranges);
  }

  Json warnings = Json::array();
  for (const Remark& warning : version.warnings) warnings.push_back(remark_json(warning.says, warning.spot));
  json["warnings"] = std::move(warnings);
}

void put_clash(Json& json, const SizedCard& sized) {
  Json rules = Json::array();
  for (const ClashingRule& rule : sized.clash) rules.push_back(remark_json(rule.says, rule.spot));
  Json conflict = {{"rules", std::move(rules)}};
  if (!sized.off_marks.empty()) conflict["says"] = sized.off_marks;
  json["conflicts"] = Json::array({std::move(conflict)});
}

Json card_json(const Card& card, const SizedCard& sized) {
  Json json = head_json(card, sized.verdict);
  if (sized.verdict == Verdict::conflict) put_clash(json, sized);
  if (sized.versions.empty()) return json;

  put_version(json, card, card.design, sized.versions.front(), sized.freedom_known);
  if (sized.versions.size() > 1) {
    Json variants = Json::array();
    for (std::size_t i = 1; i < sized.versions.size(); ++i) {
      const SizedVersion& version = sized.versions[i];
      Json variant = {
          {"name", version.name}, {"cards", version.cards}, {"verdict", verdict_name(version.verdict)}};
      put_version(variant, card, design_of(card, i), version, sized.freedom_known);
      variants.push_back(std::move(variant));
    }
    json["variants"] = std::move(variants);
  }
  return json;
}

}  // namespace

std::string json_answer(const Card& card, const SizedCard& sized) { return text_of(card_json(card, sized)); }

std::string json_stacks(const std::vector<SizedStack>& stacks) {
  Verdict worst = Verdict::buildable;
  Json all = Json::array();
  for (const SizedStack& stack : stacks) {
    worst = worse(worst, stack.sized->verdict);
    all.push_back(card_json(*stack.card, *stack.sized));
  }
  Json json = {{"verdict", verdict_name(worst)}};
  if (!all.empty()) {
    json["unit"] = all[0]["unit"];
    json["layers"] = all[0].value("layers", Json::array());
  }
  json["stacks"] = std::move(all);
  return text_of(json);
}

std::string json_mistakes(const std::vector<Remark>& mistakes) {
  Json errors = Json::array();
  for (const Remark& mistake : mistakes) errors.push_back(remark_json(mistake.says, mistake.spot));
  return text_of({{"verdict", "invalid"}, {"errors", std::move(errors)}});
}

}  // namespace evenmat
