#include "model/read_leftovers.h"

#include <algorithm>
#include <string>

#include "model/reading/document.h"
#include "model/reading/parts.h"
#include "model/reading/table.h"
#include "model/words.h"

namespace evenmat {
namespace {

using reading::Context;
using reading::Entry;
using reading::Table;
using reading::Value;

// What only a card file has: someone named a card where leftovers were wanted.
const Entry* sign_of_a_card(const Value& root) {
  for (const char* key : {"base", "layer", "window", "variant"}) {
    if (const Entry* entry = root.find(key)) return entry;
  }
  return nullptr;
}

void read_root(const Value& root, LeftoversReading& reading, Context& context) {
  if (const Entry* entry = sign_of_a_card(root)) {
    return context.mistake(
        entry->spot,
        in_quotes(entry->key) +
            " makes this a card file. A file of leftovers holds a unit and [[paper]] entries, no more.");
  }
  Table table(root, "a file of leftovers", context);
  const reading::Words<Unit> units{{"in", Unit::inch}, {"mm", Unit::millimetre}};
  if (const auto unit = table.word("unit", units)) reading.unit = unit->value;
  context.unit = reading.unit;
  for (const Value* paper : table.many_tables("paper")) {
    reading.papers.push_back(read_paper(*paper, context));
    if (paper->find("sheet") == nullptr) {
      context.mistake(paper->spot,
                      "This leftover has no size. Add sheet = \"width x height\", such as \"4 x 8 1/2\".");
    }
  }
  table.finish();
  if (reading.papers.empty() && context.mistakes.empty()) {
    context.mistake(root.spot,
                    "No paper is left over in this file. Add a [[paper]] with a name and a sheet, or leave "
                    "the file out.");
  }
}

}  // namespace

LeftoversReading read_leftovers(std::string_view text) {
  LeftoversReading reading;
  reading::DocumentReading document = reading::read_document(text);
  if (!document.root) {
    reading.mistakes.push_back(std::move(document.mistake));
    return reading;
  }
  Context context;
  read_root(*document.root, reading, context);
  std::stable_sort(context.mistakes.begin(), context.mistakes.end(),
                   [](const Remark& a, const Remark& b) { return a.spot < b.spot; });
  reading.mistakes = std::move(context.mistakes);
  if (!reading.mistakes.empty()) reading.papers.clear();
  return reading;
}

}  // namespace evenmat
