#include "model/reading/variant.h"

#include <algorithm>
#include <array>

#include "model/reading/design.h"
#include "model/reading/named_key.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

using Kind = Value::Kind;

constexpr int most_cards = 1'000'000;
constexpr std::array<std::string_view, 2> changeable_tables{"base", "limit"};

// The tables of the file that make a design, to be changed and read again.
Value design_tables(const Value& root) {
  Value tables;
  tables.spot = root.spot;
  for (const Entry& entry : root.entries) {
    if (entry.key == "base" || entry.key == "layer" || entry.key == "window" || entry.key == "rules" ||
        entry.key == "limit")
      tables.entries.push_back(entry);
  }
  return tables;
}

class Changes {
 public:
  Changes(Value& tables, const std::vector<std::string>& left_out, Context& context)
      : tables_(tables), left_out_(left_out), names_(context.names), context_(context) {
    names_.insert(names_.end(), changeable_tables.begin(), changeable_tables.end());
  }

  void make(const Value& set) {
    for (const Entry& entry : set.entries) {
      const std::string owner = owner_of(entry.key);
      if (entry.key == "rules") {
        put(tables_, entry);
      } else if (owner.empty()) {
        unknown(entry);
      } else if (entry.key == owner) {
        change_each(owner, entry);
      } else {
        change(owner, {entry.key.substr(owner.size() + 1), entry.spot, entry.value});
      }
    }
  }

 private:
  // The longest declared name, or `base` or `limit`, that is the key or stands in it before a dot.
  [[nodiscard]] std::string owner_of(const std::string& key) const {
    const bool is_name = std::find(names_.begin(), names_.end(), key) != names_.end();
    return is_name ? key : reading::owner_of(key, names_);
  }

  void unknown(const Entry& entry) {
    const std::string name = entry.key.substr(0, entry.key.rfind('.'));
    context_.mistake(entry.spot, in_quotes(entry.key) +
                                     " does not begin with a layer or window of this card, or base." +
                                     offer(name, names_) + " Write \"LAYER.key\".");
  }

  // `greeting = { width = "2" }`, or the same with dots in place of braces.
  void change_each(const std::string& owner, const Entry& entry) {
    if (entry.value.kind != Kind::table) {
      context_.mistake(entry.spot, in_quotes(entry.key) + " does not say which key to change. Write \"" +
                                       owner + ".width\" or another key.");
      return;
    }
    for (const Entry& inner : entry.value.entries) {
      if (inner.value.kind == Kind::table && !inner.value.braces) {
        for (const Entry& part : inner.value.entries)
          change(owner, {inner.key + "." + part.key, part.spot, part.value});
      } else {
        change(owner, inner);
      }
    }
  }

  // `change.key`: `width`, or `border.left`.
  void change(const std::string& owner, const Entry& change) {
    Value* table = table_of(owner, change);
    if (table == nullptr) return;
    const std::size_t dot = change.key.find('.');
    const std::string key = change.key.substr(0, dot);
    if (key == "name") {
      context_.mistake(change.spot, "A variant keeps the names of its layers. Change other keys only.");
    } else if (dot == std::string::npos) {
      put(*table, {key, change.spot, change.value});
    } else if (std::string trouble = part_trouble(*table, key); !trouble.empty()) {
      context_.mistake(change.spot, std::move(trouble));
    } else {
      put_part(*table, key, {change.key.substr(dot + 1), change.spot, change.value});
    }
  }

  Value* table_of(const std::string& owner, const Entry& change) {
    if (std::find(left_out_.begin(), left_out_.end(), owner) != left_out_.end()) {
      context_.mistake(change.spot,
                       "This variant changes " + in_quotes(owner) + " and leaves it out. Do one of the two.");
      return nullptr;
    }
    if (Value* piece = find_piece(tables_, owner)) return piece;
    Entry* entry = tables_.find(owner);
    if (entry == nullptr) {
      Value fresh;
      fresh.spot = change.spot;
      tables_.entries.push_back({owner, change.spot, fresh});
      entry = &tables_.entries.back();
    }
    return entry->value.kind == Kind::table ? &entry->value : nullptr;
  }

  Value& tables_;
  const std::vector<std::string>& left_out_;
  std::vector<std::string> names_;  // of all that may be changed
  Context& context_;
};

// The names to leave out that are there, with their tables taken away.
std::vector<std::string> leave_out(Value& tables, const std::vector<Name>& without, Context& context) {
  std::vector<std::string> names;
  for (const Name& name : without) {
    if (find_piece(tables, name.value) == nullptr) {
      context.mistake(name.spot, in_quotes(name.value) + " is not a layer or window of this card." +
                                     offer(name.value, context.names));
      continue;
    }
    names.push_back(name.value);
  }
  for (const char* key : {"layer", "window"}) {
    Entry* entry = tables.find(key);
    if (entry == nullptr) continue;
    std::erase_if(entry->value.items, [&](const Value& table) {
      const Entry* own = table.find("name");
      return own != nullptr && std::find(names.begin(), names.end(), own->value.text) != names.end();
    });
  }
  return names;
}

bool told(const std::vector<Remark>& mistakes, const Remark& mistake) {
  return std::any_of(mistakes.begin(), mistakes.end(), [&](const Remark& other) {
    return other.spot == mistake.spot && other.says == mistake.says;
  });
}

}  // namespace

Variant read_variant(const Value& value, const Value& root, const Stock& stock, Context& context) {
  Table table(value, "a variant", context);
  Variant variant;
  if (!table.has("name")) context.mistake(value.spot, "This variant has no name. Add name = \"...\".");
  variant.name = table.text("name").value_or(Name{});
  if (const auto cards = table.count("cards", 1, most_cards)) variant.cards = cards->value;
  const Value* set = table.one_table("set");
  const std::vector<Name> without = table.names("without");
  table.finish();

  Value tables = design_tables(root);
  const std::vector<std::string> left_out = leave_out(tables, without, context);
  if (set != nullptr) Changes(tables, left_out, context).make(*set);

  Context own;
  own.unit = context.unit;
  own.names = context.names;
  Table card(tables, "the card", own);
  variant.design = read_design(card, stock, left_out, own);
  const std::size_t plain_mistakes = context.mistakes.size();
  for (Remark& mistake : own.mistakes) {
    const std::vector<Remark>& before = context.mistakes;
    if (told({before.begin(), before.begin() + static_cast<std::ptrdiff_t>(plain_mistakes)}, mistake))
      continue;
    mistake.says = "In the variant " + in_quotes(variant.name.value) + ": " + mistake.says;
    context.mistakes.push_back(std::move(mistake));
  }
  return variant;
}

}  // namespace evenmat::reading
