#include "cli/json_parts.h"

#include "cli/wording.h"

namespace evenmat {

Json length_json(const Rational& value) { return fraction_text(value); }

Json remark_json(const std::string& says, const Spot& spot) {
  Json json = Json::object();
  if (spot.line > 0) {
    json["line"] = spot.line;
    json["column"] = spot.column;
  }
  json["says"] = says;
  return json;
}

Json head_json(const Card& card, Verdict verdict) {
  Json json = {{"verdict", verdict_name(verdict)}, {"unit", unit_name(card.unit)}};
  if (!card.title.empty()) json["title"] = card.title;
  json["mark"] = length_json(card.mark);
  return json;
}

std::string text_of(const Json& json) {
  return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace evenmat
