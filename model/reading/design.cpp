#include "model/reading/design.h"

#include <algorithm>

#include "model/faces.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

using Kind = Value::Kind;

constexpr std::size_t most_rule_bytes = 4000;

struct PieceTable {
  const Value* table;
  Piece::Kind kind;
};

// Layers and windows as they come in the file, whichever way they interleave.
std::vector<PieceTable> piece_tables(Table& card) {
  std::vector<PieceTable> tables;
  for (const Value* table : card.many_tables("layer")) tables.push_back({table, Piece::Kind::layer});
  for (const Value* table : card.many_tables("window")) tables.push_back({table, Piece::Kind::window});
  std::stable_sort(tables.begin(), tables.end(),
                   [](const PieceTable& a, const PieceTable& b) { return a.table->spot < b.table->spot; });
  return tables;
}

struct RuleText {
  std::string text;
  Spot spot;
};

std::vector<RuleText> rule_texts(Table& card, Context& context) {
  std::vector<RuleText> texts;
  const Entry* entry = card.take("rules");
  if (entry == nullptr) return texts;
  const auto add = [&](const Value& value) {
    if (value.kind != Kind::text) {
      context.mistake(value.spot, "A rule is a text between quotes. Write it like \"a.width <= b.width\".");
    } else if (value.text.size() > most_rule_bytes) {
      context.mistake(value.spot, "This rule goes on for more than " + std::to_string(most_rule_bytes) +
                                      " characters. Part it into several.");
    } else {
      texts.push_back({value.text, value.spot});
    }
  };
  if (entry->value.kind == Kind::list) {
    for (const Value& item : entry->value.items) add(item);
  } else {
    add(entry->value);
  }
  if (texts.size() > most_rules) {
    context.mistake(texts[most_rules].spot,
                    "A card file holds " + std::to_string(most_rules) + " rules at most. Take some out.");
    texts.clear();
  }
  return texts;
}

}  // namespace

std::vector<std::string> declared_names(const Value& root) {
  std::vector<std::pair<Spot, std::string>> found;
  for (const char* key : {"layer", "window"}) {
    const Entry* entry = root.find(key);
    if (entry == nullptr) continue;
    const std::vector<Value> alone{entry->value};
    for (const Value& table : entry->value.kind == Kind::list ? entry->value.items : alone) {
      const Entry* name = table.find("name");
      if (name != nullptr && name->value.kind == Kind::text) found.emplace_back(table.spot, name->value.text);
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  names.reserve(found.size());
  for (auto& [spot, name] : found) names.push_back(std::move(name));
  return names;
}

std::vector<std::string> faces_for_names(const Base& base, bool faces_known) {
  if (faces_known) return face_names(base);
  std::vector<std::string> all;
  for (Fold fold : {Fold::side, Fold::gate, Fold::z, Fold::tri}) {
    for (Edge opens : {Edge::right, Edge::bottom}) {
      Base any;
      any.fold.value = fold;
      any.front.size = {1, 1};
      if (fold != Fold::side) any.opens = {opens, {}};
      for (std::string& name : face_names(any))
        if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(std::move(name));
    }
  }
  all.emplace_back("reveal");
  return all;
}

std::vector<std::string> names_for_rules(const Base& base, bool faces_known, const Context& context) {
  std::vector<std::string> names = faces_for_names(base, faces_known);
  names.insert(names.end(), context.names.begin(), context.names.end());
  return names;
}

Design read_design(Table& card, const Stock& stock, const std::vector<std::string>& left_out,
                   Context& context) {
  BaseReading base;
  if (const Value* table = card.one_table("base")) {
    base = read_base(*table, stock, context);
  } else if (!card.has("base")) {
    context.mistake(
        {1, 1},
        "A card needs a [base] that says how it folds and how large its front is. Begin with [base], "
        "fold = \"side\" and front = \"4 1/4 x 5 1/2\".");
  }
  Design design;
  design.base = std::move(base.base);
  const std::vector<PieceTable> tables = piece_tables(card);
  if (tables.size() > most_pieces) {
    context.mistake(tables[most_pieces].table->spot, "A card file holds " + std::to_string(most_pieces) +
                                                         " layers and windows at most, and this is one more. "
                                                         "Take some out.");
  } else {
    for (const PieceTable& piece : tables)
      design.pieces.push_back(read_piece(*piece.table, piece.kind, context));
  }
  const std::vector<RuleText> texts = rule_texts(card, context);
  if (tables.size() <= most_pieces) {
    const std::vector<std::string> names = names_for_rules(design.base, base.faces_known, context);
    for (const RuleText& rule : texts) {
      StatementReading reading = read_statement(rule.text, names, context.unit, rule.spot);
      if (reading.statement) {
        design.rules.push_back(std::move(*reading.statement));
      } else {
        context.mistake(rule.spot, reading.trouble);
      }
    }
  }
  if (const Value* table = card.one_table("limit")) design.limit = read_limit(*table, context);
  check_names(design, base.faces_known, left_out, context);
  return design;
}

}  // namespace evenmat::reading
