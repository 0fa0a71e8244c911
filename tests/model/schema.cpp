// The schema of the card file names the keys that are read, no more and no fewer.
#include <algorithm>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "model/card_keys.h"
#include "tests/catch.h"

using namespace evenmat;

namespace {

std::vector<std::string> keys_at(const nlohmann::json& schema, const std::string& pointer) {
  const nlohmann::json& properties = schema.at(nlohmann::json::json_pointer(pointer + "/properties"));
  CHECK(schema.at(nlohmann::json::json_pointer(pointer + "/additionalProperties")) == false);
  std::vector<std::string> keys;
  for (const auto& [key, value] : properties.items()) {
    INFO(pointer << " " << key);
    CHECK(value.contains("title"));
    keys.push_back(key);
  }
  return keys;
}

}  // namespace

TEST_CASE("the schema and the reading know the same keys") {
  std::ifstream file(std::string(EVENMAT_SOURCE) + "/model/card.schema.json");
  const nlohmann::json schema = nlohmann::json::parse(file);
  const std::map<std::string, std::string> places{
      {"the card", ""},
      {"the base", "/properties/base"},
      {"a cut-back", "/properties/base/properties/cut-back/anyOf/1"},
      {"a layer", "/properties/layer/items"},
      {"a window", "/properties/window/items"},
      {"a table of sides", "/$defs/sides/anyOf/1"},
      {"a paper", "/properties/paper/items"},
      {"a variant", "/properties/variant/items"},
      {"the trimmer", "/properties/trimmer"},
      {"the allowances", "/properties/allowance"},
      {"the limits", "/properties/limit"},
      {"the mail", "/properties/mail"},
      {"a supply", "/properties/supply/items"}};
  const auto known = card_keys();
  CHECK(known.size() == places.size());
  for (auto [kind, keys] : known) {
    INFO(kind);
    REQUIRE(places.contains(kind));
    std::vector<std::string> described = keys_at(schema, places.at(kind));
    std::sort(keys.begin(), keys.end());
    std::sort(described.begin(), described.end());
    CHECK(keys == described);
  }
}
