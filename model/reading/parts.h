// The tables of a card file, one function for each kind: from a tree of values to the plain data of
// card.h. Every mistake that shows within one table is told here; names are looked up elsewhere.
#pragma once

#include <vector>

#include "model/card.h"
#include "model/reading/document.h"
#include "model/reading/table.h"

namespace evenmat::reading {

struct BaseReading {
  Base base;
  // False where what was stated could not be read: then no name of a face can be told to be wrong.
  bool faces_known = false;
};
BaseReading read_base(const Value& value, Context& context);

// `layer` or `window`; what it is on, and every name, as stated.
Piece read_piece(const Value& value, Piece::Kind kind, Context& context);

Limit read_limit(const Value& value, Context& context);
Paper read_paper(const Value& value, Context& context);
Trimmer read_trimmer(const Value& value, Context& context);
Mail read_mail(const Value& value, Context& context);
Supply read_supply(const Value& value, Context& context);

}  // namespace evenmat::reading
