#include "model/set_key.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <vector>

#include "model/card_keys.h"
#include "model/reading/design.h"
#include "model/reading/document.h"
#include "model/reading/named_key.h"
#include "model/reading/plain_text.h"
#include "model/reading/toml_text.h"
#include "model/reading/written_key.h"
#include "model/words.h"

namespace evenmat {
namespace {

using reading::Entry;
using reading::Value;
using Kind = Value::Kind;

// Tables of which a card file has one, and what their kind is called; and the keys of the top that are none.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> single_tables{
    {{"base", "the base"},
     {"limit", "the limits"},
     {"trimmer", "the trimmer"},
     {"mail", "the mail"},
     {"allowance", "the allowances"}}};
constexpr std::array<std::string_view, 6> top_keys{"cards", "spare", "mark", "rules", "title", "unit"};

KeyChangeReading refused(std::string trouble) { return {std::nullopt, std::move(trouble)}; }

// The table that bears the name: a layer or window, else one of its kind.
const Value* table_of(const Value& root, std::string_view name) {
  if (name.empty()) return &root;
  if (const Value* piece = reading::find_piece(root, name)) return piece;
  const auto known = [&](const auto& single) { return single.first == name; };
  if (std::none_of(single_tables.begin(), single_tables.end(), known)) return nullptr;
  const Entry* entry = root.find(name);
  return entry != nullptr && entry->value.kind == Kind::table ? &entry->value : nullptr;
}

bool is_among(const Value& piece, const Entry* list) {
  if (list == nullptr) return false;
  return std::any_of(list->value.items.begin(), list->value.items.end(),
                     [&](const Value& item) { return &item == &piece; });
}

std::string kind_of(const Value& root, const std::string& name) {
  if (const Value* piece = reading::find_piece(root, name))
    return is_among(*piece, root.find("window")) ? "a window" : "a layer";
  for (const auto& [single, kind] : single_tables)
    if (single == name) return std::string(kind);
  return {};
}

bool holds(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// Why the key, or its part, cannot be stated in the table of that name; empty if it can.
std::string key_trouble(const Value& root, const std::string& name, const std::string& stated) {
  auto keys = card_keys();
  const std::string kind = kind_of(root, name);
  const std::size_t dot = stated.find('.');
  const std::string key = stated.substr(0, dot);
  if (key == "name" && reading::find_piece(root, name) != nullptr)
    return "A layer or window keeps its name. Change other keys only.";
  if (!holds(keys[kind], key))
    return in_quotes(key) + " is not a key of " + kind + "." + offer(key, keys[kind]);
  if (dot == std::string::npos) return {};
  const Value nothing;
  const Value* table = table_of(root, name);
  std::string trouble = reading::part_trouble(table == nullptr ? nothing : *table, key);
  const std::string part = stated.substr(dot + 1);
  const std::string kind_of_parts = key == "cut-back" ? "a cut-back" : "a table of sides";
  if (trouble.empty() && !holds(keys[kind_of_parts], part))
    return in_quotes(part) + " is not a key of " + kind_of_parts + "." + offer(part, keys[kind_of_parts]);
  return trouble;
}

// What may be meant by a name that is not there: `name.key`, or `name.border.left`.
std::string name_part(std::string_view stated) {
  std::string_view name = stated.substr(0, stated.rfind('.'));
  for (std::string_view parted : {".border", ".margin", ".cut-back"})
    if (name.ends_with(parted) && name.size() > parted.size()) name.remove_suffix(parted.size());
  return std::string(name);
}

// What stands before the sign says neither whose key it is nor one of the top.
std::string stray_trouble(const std::string& stated, const std::vector<std::string>& names) {
  constexpr std::string_view form = " Write \"NAME.key=VALUE\".";
  if (stated.empty()) return "This does not say which key to change." + std::string(form);
  if (holds(names, stated)) {
    return in_quotes(stated) + " does not say which key to change. Write " + in_quotes(stated + ".width") +
           " or another key.";
  }
  if (stated.find('.') == std::string::npos) {
    auto keys = card_keys();
    const bool of_piece =
        holds(keys["a layer"], stated) || holds(keys["a window"], stated) || holds(keys["the base"], stated);
    if (of_piece) {
      return in_quotes(stated) +
             " does not say whose it is. Write a name before it: " + in_quotes(names.front() + "." + stated) +
             ".";
    }
    std::vector<std::string> all(top_keys.begin(), top_keys.end());
    all.insert(all.end(), names.begin(), names.end());
    return in_quotes(stated) + " is neither a key of the top of the card file nor a name in it." +
           offer(stated, all) + std::string(form);
  }
  const std::string name = name_part(stated);
  return in_quotes(name) + " is not a layer or window of this card, or base." + offer(name, names) +
         std::string(form);
}

// The value as TOML reads it, on a line with others. Nothing if it is none.
std::optional<Value> toml_value(std::string_view text) {
  const reading::DocumentReading document =
      reading::read_document("v = { v = " + std::string(text) + ", w = 0 }\n");
  if (!document.root || document.root->entries.size() != 1) return std::nullopt;
  const Value& table = document.root->entries.front().value;
  const bool alone = table.entries.size() == 2 && table.entries.front().key == "v" &&
                     table.entries.back().key == "w" && table.entries.back().value.text == "0";
  if (!alone) return std::nullopt;
  return table.entries.front().value;
}

// As it is to be written, and how that reads.
struct StatedValue {
  reading::WrittenValue written;
  Value reads;
};

// `old`: what it takes the place of, if anything.
StatedValue stated_value(std::string_view words, const Value* old) {
  const std::string_view text = trimmed(words);
  const std::optional<Value> value = toml_value(text);
  StatedValue stated;
  stated.reads.kind = Kind::text;
  stated.reads.text = std::string(text);
  if (value && value->kind == Kind::text) stated.reads.text = value->text;
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  const bool number = value && value->kind == Kind::number && value->text == text &&
                      (old == nullptr || old->kind != Kind::text) &&
                      std::any_of(text.begin(), text.end(), is_digit);
  const bool other =
      value && (value->kind == Kind::truth || value->kind == Kind::list || value->kind == Kind::table);
  if (!number && !other) {
    stated.written = {stated.reads.text, false};
    return stated;
  }
  stated.written = {std::string(text), true};
  stated.reads = *value;
  return stated;
}

// What the file states under the key, or of its part; one wish for all parts is of each.
const Value* stated_at(const Value& root, std::string_view name, std::string_view key,
                       std::string_view part) {
  const Value* table = table_of(root, name);
  const Entry* entry = table == nullptr ? nullptr : table->find(key);
  if (entry != nullptr && !part.empty() && entry->value.kind == Kind::table) entry = entry->value.find(part);
  return entry == nullptr ? nullptr : &entry->value;
}

// The same keys and values, wherever and in whichever order they stand.
bool alike(const Value& a, const Value& b) {  // NOLINT(misc-no-recursion): as deep as documents may be
  if (a.kind != b.kind || a.text != b.text || a.truth != b.truth) return false;
  if (a.entries.size() != b.entries.size()) return false;
  const auto same = [](const Value& one, const Value& other) { return alike(one, other); };
  if (!std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(), same)) return false;
  return std::all_of(a.entries.begin(), a.entries.end(), [&](const Entry& entry) {
    const Entry* other = b.find(entry.key);
    return other != nullptr && alike(entry.value, other->value);
  });
}

}  // namespace

KeyChangeReading read_key_change(std::string_view words, std::string_view file) {
  const reading::DocumentReading document = reading::read_document(file);
  if (!document.root) return refused(document.mistake.says);
  if (const auto strange = reading::not_plain(reading::quoted(words, {}))) return refused(strange->says);
  std::vector<std::string> names = reading::declared_names(*document.root);
  for (const auto& single : single_tables) names.emplace_back(single.first);

  const std::string_view all = trimmed(words);
  KeyChange change;
  change.name = reading::owner_of(all, names);
  const std::string_view rest = change.name.empty() ? all : all.substr(change.name.size() + 1);
  const std::size_t sign = rest.find('=');
  change.key = std::string(trimmed(rest.substr(0, sign)));
  if (change.name.empty() && !holds({top_keys.begin(), top_keys.end()}, change.key))
    return refused(stray_trouble(change.key, names));
  if (!change.name.empty()) {
    std::string trouble = key_trouble(*document.root, change.name, change.key);
    if (!trouble.empty()) return refused(std::move(trouble));
  }
  if (sign == std::string_view::npos) {
    return refused(in_quotes(all) + " does not say what it is to be. Write " +
                   in_quotes(std::string(all) + "=VALUE") + ".");
  }
  change.value = std::string(trimmed(rest.substr(sign + 1)));
  if (change.value.empty())
    return refused(in_quotes(all) + " says nothing after the sign. Write a value there.");
  return {std::move(change), {}};
}

std::optional<std::string> with_key(std::string_view file, const KeyChange& change) {
  const std::size_t mark = file.starts_with(reading::byte_order_mark) ? reading::byte_order_mark.size() : 0;
  const std::string_view text = file.substr(mark);
  const reading::DocumentReading document = reading::read_document(text);
  if (!document.root) return std::nullopt;
  const Value& root = *document.root;
  const bool has_table = table_of(root, change.name) != nullptr;
  const bool may_have = !kind_of(root, change.name).empty() && root.find(change.name) == nullptr;
  if (!has_table && !may_have) return std::nullopt;

  const std::size_t dot = std::min(change.key.find('.'), change.key.size());
  const std::string key = change.key.substr(0, dot);
  const std::string part = change.key.substr(std::min(dot + 1, change.key.size()));
  const StatedValue value = stated_value(change.value, stated_at(root, change.name, key, part));

  // What the file is to read as.
  Value wanted = root;
  if (!has_table) wanted.entries.push_back({change.name, {}, {}});
  auto& table = const_cast<Value&>(*table_of(wanted, change.name));
  if (part.empty()) {
    reading::put(table, {key, {}, value.reads});
  } else if (!reading::part_trouble(table, key).empty()) {
    return std::nullopt;
  } else {
    reading::put_part(table, key, {part, {}, value.reads});
  }

  std::optional<std::string> changed;
  if (has_table) {
    changed = reading::with_written(text, root, *table_of(root, change.name), key, part, value.written);
  } else if (part.empty()) {
    changed = reading::with_table(text, change.name, key, value.written);
  }
  if (!changed) return std::nullopt;
  const reading::DocumentReading again = reading::read_document(*changed);
  if (!again.root || !alike(*again.root, wanted)) return std::nullopt;
  return std::string(file.substr(0, mark)) + *changed;
}

}  // namespace evenmat
