// What a TOML document says, whichever way it is written: every value by the way to it.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "model/reading/document.h"
#include "tests/catch.h"

namespace evenmat::testing {

// Every value of a document by the way to it, as text.
using Flat = std::map<std::string, std::string>;

inline void flatten(const reading::Value& value, const std::string& way, Flat& flat) {
  switch (value.kind) {
    case reading::Value::Kind::text:
      flat[way] = "text " + value.text;
      break;
    case reading::Value::Kind::number:
      flat[way] = "number " + value.text;
      break;
    case reading::Value::Kind::truth:
      flat[way] = value.truth ? "true" : "false";
      break;
    case reading::Value::Kind::moment:
      flat[way] = "moment";
      break;
    case reading::Value::Kind::list:
      flat[way] = "list of " + std::to_string(value.items.size());
      for (std::size_t i = 0; i < value.items.size(); ++i)
        flatten(value.items[i], way + "/" + std::to_string(i), flat);
      break;
    case reading::Value::Kind::table:
      flat[way] = "table";
      for (const reading::Entry& entry : value.entries) flatten(entry.value, way + "/" + entry.key, flat);
      break;
  }
}

inline Flat flat(std::string_view file) {
  const reading::DocumentReading document = reading::read_document(file);
  INFO(file << "\n" << document.mistake.says);
  REQUIRE(document.root);
  Flat all;
  flatten(*document.root, "", all);
  return all;
}

inline Flat without(Flat all, const std::string& way) {
  std::erase_if(all,
                [&](const auto& entry) { return entry.first == way || entry.first.starts_with(way + "/"); });
  return all;
}

}  // namespace evenmat::testing
