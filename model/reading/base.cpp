// The table [base] and the limits: from their keys to plain values. What the keys mean together is in
// check_base.cpp.
#include "model/reading/parts.h"

namespace evenmat::reading {
namespace {

const Words<Edge> edges{
    {"left", Edge::left}, {"right", Edge::right}, {"top", Edge::top}, {"bottom", Edge::bottom}};

struct CutBackReading {
  std::optional<CutBack> cut_back;
  std::optional<Spot> edge;  // where it is stated
};

CutBackReading read_cut_back(Table& base_table, Context& context) {
  const WishTakes takes{Bound::positive, false, false};
  CutBackReading reading;
  const Entry* entry = base_table.take("cut-back");
  if (entry == nullptr) return reading;
  if (entry->value.kind != Value::Kind::table) {
    if (auto by = base_table.wish("cut-back", takes)) reading.cut_back = CutBack{Edge::right, std::move(*by)};
    return reading;
  }
  Table table(entry->value, "a cut-back", context);
  const auto edge = table.word("edge", edges);
  auto by = table.wish("by", takes);
  if (entry->value.find("by") == nullptr)
    context.mistake(entry->value.spot, "This cut-back does not say by how much. Add by = \"1\".");
  table.finish();
  if (edge) reading.edge = edge->spot;
  if (by) reading.cut_back = CutBack{edge ? edge->value : Edge::right, std::move(*by)};
  return reading;
}

}  // namespace

BaseReading read_base(const Value& value, const Stock& stock, Context& context) {
  const Words<Fold> folds{{"flat", Fold::flat}, {"side", Fold::side}, {"top", Fold::top},
                          {"gate", Fold::gate}, {"z", Fold::z},       {"tri", Fold::tri}};
  Table table(value, "the base", context);
  BaseReading reading;
  Base& base = reading.base;
  const auto fold = table.word("fold", folds);
  if (fold) base.fold = *fold;
  if (!table.has("fold")) {
    context.mistake(table.spot(),
                    R"(The base does not say how it folds. Add fold = "side", or "flat" for none.)");
  }
  auto front = table.size("front");
  if (front) base.front = std::move(*front);
  if (!table.has("front")) {
    context.mistake(table.spot(),
                    "The base does not say how large the closed card is. Add front = \"4 1/4 x 5 1/2\".");
  }
  BaseSpots spots;
  CutBackReading cut = read_cut_back(table, context);
  base.cut_back = std::move(cut.cut_back);
  spots.cut_edge = cut.edge;
  base.paper = table.text("paper");
  base.allowance = allowance_of(base.paper, stock, context.unit);
  const std::size_t mistakes_before = context.mistakes.size();
  base.leaves = table.lengths("leaves");
  spots.leaves_known = context.mistakes.size() == mistakes_before;
  if (table.has("leaves")) spots.leaves = value.find("leaves")->value.spot;
  base.scores = table.lengths("scores");
  base.opens = table.word("opens", edges);
  const bool all_read = fold.has_value() && base.cut_back.has_value() == table.has("cut-back") &&
                        base.opens.has_value() == table.has("opens");
  const bool shaped = fold && check_base(base, spots, stock, context);
  reading.faces_known = all_read && shaped;
  table.finish();
  return reading;
}

Limit read_limit(const Value& value, Context& context) {
  Table table(value, "the limits", context);
  Limit limit;
  limit.thickness = table.thickness("thickness", Bound::positive);
  limit.grams = table.number("grams", Bound::positive);
  table.finish();
  return limit;
}

}  // namespace evenmat::reading
