// The first card of a batch is cut and tried before the rest: which sheets and steps give its pieces.
#pragma once

#include <string>
#include <vector>

#include "cli/cut/telling.h"

namespace evenmat {

// A paper and what is cut of it for the first card; or the name of a card file, above its papers.
struct FirstCardRow {
  std::string name;
  std::string sources;  // empty: the row of a card file
};

// None when there is no more than one card to cut.
std::vector<FirstCardRow> first_card_rows(const CutTelling& telling);

// Behind an empty line; empty when there is no more than one card to cut.
std::string first_card_text(const CutTelling& telling);

}  // namespace evenmat
