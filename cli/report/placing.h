// Where each piece goes, as a table of distances from what it lies on, and how much of it is seen there.
#pragma once

#include <string>

#include "cli/report/telling.h"

namespace evenmat {

// Behind an empty line; empty if there are no pieces.
std::string placing_text(const Telling& telling, const Pieces& pieces);

// How much of a layer is seen, where some of it is hidden; empty where nothing need be said.
std::string seen_words(const Shown& shown);

}  // namespace evenmat
