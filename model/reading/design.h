// One buildable design out of the tables of a card file: the base, its layers and windows, the rules and
// limits, with every name looked up. Variants read theirs here as well, from changed tables.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "model/reading/document.h"
#include "model/reading/parts.h"
#include "model/reading/table.h"

namespace evenmat::reading {

// The names that the layers and windows of the file bear, in file order.
std::vector<std::string> declared_names(const Value& root);

// Asks `card` for the keys that make a design. `stock`: of the whole file. `left_out`: names of the file that
// this design does without; what is wished of other pieces in regard to them asks nothing, but nothing may
// sit on them. `context.names` holds every declared name, those left out too.
Design read_design(Table& card, const Stock& stock, const std::vector<std::string>& left_out,
                   Context& context);

// Looks up every name in the design, prunes what regards left-out pieces and tells what cannot be:
// names twice or not found, circles, places compared where there is no frame in common.
void check_names(Design& design, bool faces_known, const std::vector<std::string>& left_out,
                 Context& context);

// Names that rules may use: faces, then layers and windows.
std::vector<std::string> names_for_rules(const Base& base, bool faces_known, const Context& context);

// The faces that may be named: those of the base, or of any fold if the base could not be read.
std::vector<std::string> faces_for_names(const Base& base, bool faces_known);

}  // namespace evenmat::reading
