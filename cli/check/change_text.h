// A change of one value in a card file, as reports show it.
#pragma once

#include <string>

#include "cli/excerpt.h"
#include "solver/check_card.h"

namespace evenmat {

// `line 12: "3" -> "3 1/4"`, quoted as in the file. Of a long value only what differs is shown, with what
// stands around it, and on two lines if need be: the first begins at column `indent`. No line end at the end.
std::string change_text(const Source& source, const Change& change, int indent);

}  // namespace evenmat
