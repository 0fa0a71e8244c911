#include "model/reading/named_key.h"

#include <utility>

#include "model/words.h"

namespace evenmat::reading {

using Kind = Value::Kind;

std::string owner_of(std::string_view words, const std::vector<std::string>& names) {
  std::string_view best;
  for (const std::string& name : names) {
    const bool fits = words.starts_with(name) && words.size() > name.size() + 1 && words[name.size()] == '.';
    if (fits && name.size() > best.size()) best = name;
  }
  return std::string(best);
}

const Value* find_piece(const Value& root, std::string_view name) {
  for (const char* key : {"layer", "window"}) {
    const Entry* entry = root.find(key);
    if (entry == nullptr) continue;
    for (const Value& table : entry->value.items) {
      const Entry* own = table.find("name");
      if (own != nullptr && own->value.kind == Kind::text && own->value.text == name) return &table;
    }
  }
  return nullptr;
}

Value* find_piece(Value& root, std::string_view name) {
  return const_cast<Value*>(find_piece(static_cast<const Value&>(root), name));
}

std::string part_trouble(const Value& table, const std::string& key) {
  if (key != "border" && key != "margin" && key != "cut-back") {
    return in_quotes(key) + " has no parts to change. Set it whole, or a part of border, margin or cut-back.";
  }
  const Entry* whole = table.find(key);
  if (whole == nullptr || whole->value.kind == Kind::table) return {};
  if (small_letters(whole->value.text).find("even") == std::string::npos) return {};
  return in_quotes(key) + " is even here, and one side of it cannot differ. Set " + key + " whole.";
}

void put(Value& table, Entry entry) {
  if (Entry* old = table.find(entry.key)) {
    *old = std::move(entry);
  } else {
    table.entries.push_back(std::move(entry));
  }
}

Value opened_up(const std::string& key, const Value& wish, const std::string& part) {
  Value table;
  table.spot = wish.spot;
  const auto keep = [&](const char* side) { table.entries.push_back({side, wish.spot, wish}); };
  if (key == "cut-back") {
    keep("by");
    return table;
  }
  const bool across = part == "across" || part == "left" || part == "right";
  if (part == "left") keep("right");
  if (part == "right") keep("left");
  if (part == "top") keep("bottom");
  if (part == "bottom") keep("top");
  keep(across ? "down" : "across");
  return table;
}

void put_part(Value& table, const std::string& key, Entry part) {
  Entry* whole = table.find(key);
  if (whole == nullptr) {
    Value fresh;
    fresh.spot = part.spot;
    put(table, {key, part.spot, std::move(fresh)});
    whole = table.find(key);
  } else if (whole->value.kind != Kind::table) {
    whole->value = opened_up(key, whole->value, part.key);
  }
  put(whole->value, std::move(part));
}

}  // namespace evenmat::reading
