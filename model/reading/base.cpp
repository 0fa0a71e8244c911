#include <algorithm>

#include "model/faces.h"
#include "model/reading/parts.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

const Words<Edge> edges{
    {"left", Edge::left}, {"right", Edge::right}, {"top", Edge::top}, {"bottom", Edge::bottom}};

// The edge of the front that lies at the fold, where a fold leaves no doubt which that is.
std::optional<Edge> fold_edge(const Base& base) {
  const Edge free = free_edge(base);
  if (base.fold.value == Fold::side) return free == Edge::left ? Edge::right : Edge::left;
  if (base.fold.value == Fold::top) return free == Edge::top ? Edge::bottom : Edge::top;
  return std::nullopt;
}

// The least that a wish leaves.
std::optional<Rational> least(const Wish& wish) {
  if (!wish.one_of.empty()) return wish.one_of.front();
  return wish.at_least;
}

struct CutBackReading {
  std::optional<CutBack> cut_back;
  bool edge_stated = false;
  Spot edge_spot;
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
  if (edge) {
    reading.edge_stated = true;
    reading.edge_spot = edge->spot;
  }
  if (by) reading.cut_back = CutBack{edge ? edge->value : Edge::right, std::move(*by)};
  return reading;
}

void check_cut_back(const Base& base, const CutBackReading& reading, bool front_known, Context& context) {
  const CutBack& cut = *base.cut_back;
  const Spot spot = reading.edge_stated ? reading.edge_spot : cut.by.spot;
  if (base.fold.value == Fold::flat) {
    return context.mistake(
        cut.by.spot,
        "A flat base has no fold, so nothing opens that could be cut back. State a smaller front.");
  }
  if (fold_edge(base) == cut.edge) {
    return context.mistake(spot, "The " + std::string(edge_name(cut.edge)) +
                                     " edge of the front is at the fold. Cut back another edge.");
  }
  if (!front_known) return;
  const Rational& whole = is_across(cut.edge) ? base.front.size.width : base.front.size.height;
  const auto cut_least = least(cut.by);
  if (cut_least && *cut_least >= whole) {
    context.mistake(cut.by.spot, "Cut back by " + in_quotes(cut.by.text) +
                                     ", nothing is left of the front, which is " +
                                     in_quotes(base.front.text) + ". Cut back less.");
  }
}

void check_leaves(const Base& base, Spot spot, Context& context) {
  const std::size_t count = base.leaves.size();
  const bool folds_once = base.fold.value == Fold::side || base.fold.value == Fold::top;
  if (base.fold.value == Fold::flat) {
    context.mistake(spot, "A flat base has no leaves. Take the key out, or state a fold.");
  } else if (folds_once && count != 2) {
    context.mistake(
        spot, "A base folded once has 2 leaves, and here are " + std::to_string(count) + ". State two.");
  } else if (!folds_once && count < 3) {
    context.mistake(spot, "This fold has 3 leaves at least, and here are " + std::to_string(count) +
                              ". State each of them.");
  }
}

void check_opens(const Base& base, Context& context) {
  const bool opens_across = is_across(base.opens->value);
  if (base.fold.value == Fold::flat) {
    context.mistake(base.opens->spot, "A flat base does not open. Take the key out, or state a fold.");
  } else if (base.fold.value == Fold::side && !opens_across) {
    context.mistake(
        base.opens->spot,
        "A side fold opens left or right. Write one of these, or fold = \"top\" for the other way.");
  } else if (base.fold.value == Fold::top && opens_across) {
    context.mistake(
        base.opens->spot,
        "A top fold opens at the top or bottom. Write one of these, or fold = \"side\" for the other way.");
  }
}

}  // namespace

BaseReading read_base(const Value& value, Context& context) {
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
  CutBackReading cut = read_cut_back(table, context);
  base.cut_back = std::move(cut.cut_back);
  base.paper = table.text("paper");
  const std::size_t mistakes_before = context.mistakes.size();
  base.leaves = table.lengths("leaves");
  const bool leaves_known = table.has("leaves") && context.mistakes.size() == mistakes_before;
  base.scores = table.lengths("scores");
  base.opens = table.word("opens", edges);
  if (fold) {
    if (leaves_known) check_leaves(base, value.find("leaves")->value.spot, context);
    if (base.opens) check_opens(base, context);
    if (base.cut_back) {
      if (!cut.edge_stated) base.cut_back->edge = free_edge(base);
      check_cut_back(base, cut, front.has_value(), context);
    }
  }
  reading.faces_known = fold.has_value() && base.cut_back.has_value() == table.has("cut-back");
  table.finish();
  return reading;
}

Limit read_limit(const Value& value, Context& context) {
  Table table(value, "the limits", context);
  Limit limit;
  limit.thickness = table.length("thickness", Bound::positive);
  limit.grams = table.number("grams", Bound::positive);
  table.finish();
  return limit;
}

}  // namespace evenmat::reading
