// The tables of a card file, one function for each kind: from a tree of values to the plain data of
// card.h. Every mistake that shows within one table is told here; names are looked up elsewhere.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "model/reading/document.h"
#include "model/reading/table.h"

namespace evenmat::reading {

// `[allowance]`, as far as it is stated.
struct StatedAllowance {
  Maybe<Rational> doors, flap, fold, envelope;
};

// What stands beside the designs of a card file and settles something in each of them.
struct Stock {
  std::vector<Paper> papers;
  StatedAllowance allowance;
};

StatedAllowance read_allowance(const Value& value, Context& context);

// The allowances of a base of that paper: what is stated, else the usual (common practice, no source):
// between doors 1/16 in (1 mm) and of a flap 1/16 in (2 mm), or twice the paper's thickness where that is
// more; nothing for a fold.
Allowance allowance_of(const Maybe<std::string>& paper, const Stock& stock, Unit unit);

// What an envelope is larger than what goes in: what is stated, else 1/16 in (1.5 mm).
Rational ease_of(const StatedAllowance& allowance, Unit unit);

struct BaseReading {
  Base base;
  // False where what was stated could not be read: then no name of a face can be told to be wrong.
  bool faces_known = false;
};
BaseReading read_base(const Value& value, const Stock& stock, Context& context);

// Where keys of a base stand of which `Base` keeps no spot.
struct BaseSpots {
  std::optional<Spot> leaves, cut_edge;  // absent where not stated
  bool leaves_known = true;              // false where what is stated of them could not be read
};

// Tells what does not go together in a base whose fold is known, and settles the edge that is cut back. True
// if its leaves are known and nothing is known against them, so that it has faces.
bool check_base(Base& base, const BaseSpots& spots, const Stock& stock, Context& context);

// `layer` or `window`; what it is on, and every name, as stated.
Piece read_piece(const Value& value, Piece::Kind kind, Context& context);

Limit read_limit(const Value& value, Context& context);
Paper read_paper(const Value& value, Context& context);
Trimmer read_trimmer(const Value& value, Context& context);
Mail read_mail(const Value& value, Context& context);
Supply read_supply(const Value& value, Context& context);

}  // namespace evenmat::reading
