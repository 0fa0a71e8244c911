#include "model/read_card.h"

#include <algorithm>
#include <map>
#include <utility>

#include "model/card_keys.h"
#include "model/reading/design.h"
#include "model/reading/document.h"
#include "model/reading/parts.h"
#include "model/reading/table.h"
#include "model/reading/variant.h"
#include "model/words.h"

namespace evenmat {
namespace {

using reading::Bound;
using reading::Context;
using reading::Stock;
using reading::Table;
using reading::Value;

constexpr int most_cards = 1'000'000;

Rational usual_mark(Unit unit) { return unit == Unit::inch ? Rational(1) / 16 : Rational(1); }

// True if the number of cards is known.
bool read_batch(Card& card, Table& table) {
  if (const auto title = table.text("title")) card.title = title->value;
  card.mark = usual_mark(card.unit);
  if (const auto mark = table.length("mark", Bound::positive)) card.mark = mark->value;
  const auto cards = table.count("cards", 1, most_cards);
  if (cards) card.cards = cards->value;
  if (const auto spare = table.count("spare", 0, most_cards)) card.spare = spare->value;
  return cards || !table.has("cards");
}

// Names that are told apart from those of the layers and windows, and from each other.
void check_name(const Name& name, std::map<std::string, Spot>& taken, Context& context) {
  if (name.value.empty()) return;
  const auto [first, added] = taken.emplace(name.value, name.spot);
  if (added) return;
  context.mistake(name.spot,
                  in_quotes(name.value) +
                      (first->second.line > 0 ? " is already the name of what is stated on line " +
                                                    std::to_string(first->second.line)
                                              : std::string(" is what a part of the base is called")) +
                      ". Choose another name.");
}

// `batch_known`: false where the number of cards could not be read, so that nothing is held against it.
void read_variants(Card& card, Table& table, const Value& root, const Stock& stock, bool batch_known,
                   Context& context) {
  const std::vector<const Value*> tables = table.many_tables("variant");
  if (tables.size() > most_variants) {
    return context.mistake(tables[most_variants]->spot, "A card file holds " + std::to_string(most_variants) +
                                                            " variants at most. Take some out.");
  }
  std::map<std::string, Spot> taken;
  for (const std::string& face : reading::faces_for_names(card.design.base, false))
    taken.emplace(face, Spot{});
  taken.emplace("base", Spot{});
  for (const Piece& piece : card.design.pieces) taken.emplace(piece.name.value, piece.name.spot);
  long long claimed = 0;
  for (const Value* variant : tables) {
    card.variants.push_back(reading::read_variant(*variant, root, stock, context));
    const Variant& read = card.variants.back();
    check_name(read.name, taken, context);
    const bool fitted = claimed <= card.cards;
    claimed += read.cards;
    if (!batch_known || !fitted || claimed <= card.cards) continue;
    const auto* cards = variant->find("cards");
    context.mistake(cards == nullptr ? variant->spot : cards->value.spot,
                    "With this one the variants claim " + std::to_string(claimed) +
                        " cards, and the batch is " + std::to_string(card.cards) +
                        ". Claim fewer, or raise cards at the top of the file.");
  }
}

Stock read_stock(Table& table, Context& context) {
  Stock stock;
  for (const Value* paper : table.many_tables("paper")) stock.papers.push_back(read_paper(*paper, context));
  if (const Value* allowance = table.one_table("allowance"))
    stock.allowance = read_allowance(*allowance, context);
  return stock;
}

void read_tools_and_mail(Card& card, Table& table, const Stock& stock, Context& context) {
  if (const Value* trimmer = table.one_table("trimmer")) card.trimmer = read_trimmer(*trimmer, context);
  if (const Value* mail = table.one_table("mail")) card.mail = read_mail(*mail, context);
  card.mail.ease = reading::ease_of(stock.allowance, card.unit);
  std::map<std::string, Spot> taken;
  for (const Value* supply : table.many_tables("supply")) {
    card.supplies.push_back(read_supply(*supply, context));
    check_name(card.supplies.back().name, taken, context);
  }
}

Card read_root(const Value& root, Context& context) {
  Table table(root, "the card", context);
  Card card;
  const reading::Words<Unit> units{{"in", Unit::inch}, {"mm", Unit::millimetre}};
  if (const auto unit = table.word("unit", units)) card.unit = unit->value;
  context.unit = card.unit;
  context.names = reading::declared_names(root);
  const bool batch_known = read_batch(card, table);
  Stock stock = read_stock(table, context);
  card.design = reading::read_design(table, stock, {}, context);
  read_variants(card, table, root, stock, batch_known, context);
  read_tools_and_mail(card, table, stock, context);
  card.papers = std::move(stock.papers);
  table.finish();
  return card;
}

// In file order, each told once.
void put_in_order(std::vector<Remark>& mistakes) {
  const auto key = [](const Remark& remark) { return std::pair(remark.spot, std::string_view(remark.says)); };
  std::stable_sort(mistakes.begin(), mistakes.end(),
                   [](const Remark& a, const Remark& b) { return a.spot < b.spot; });
  const auto end = std::unique(mistakes.begin(), mistakes.end(),
                               [&](const Remark& a, const Remark& b) { return key(a) == key(b); });
  mistakes.erase(end, mistakes.end());
}

}  // namespace

CardReading read_card(std::string_view text) {
  if (text.size() > most_file_bytes) {
    return {std::nullopt,
            {{{},
              "The file is larger than " + std::to_string(most_file_bytes / 1000) +
                  " kB, which no card file needs. Check that it is a card file."}}};
  }
  reading::DocumentReading document = reading::read_document(text);
  if (!document.root) return {std::nullopt, {std::move(document.mistake)}};
  Context context;
  Card card = read_root(*document.root, context);
  put_in_order(context.mistakes);
  if (!context.mistakes.empty()) return {std::nullopt, std::move(context.mistakes)};
  return {std::move(card), {}};
}

bool states_at_top(std::string_view text, std::string_view key) {
  const reading::DocumentReading document = reading::read_document(text);
  return document.root && document.root->find(key) != nullptr;
}

std::map<std::string, std::vector<std::string>> card_keys() {
  // Every kind of table once, empty; what is looked for in it are its keys.
  const reading::DocumentReading document = reading::read_document(
      "base = {cut-back = {}}\nlayer = [{border = {}}]\nwindow = [{}]\nvariant = [{}]\npaper = [{}]\n"
      "supply = [{}]\ntrimmer = {}\nmail = {}\nlimit = {}\nallowance = {}\n");
  Context context;
  if (document.root) read_root(*document.root, context);
  return std::move(context.keys);
}

}  // namespace evenmat
