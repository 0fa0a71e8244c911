// From the text of a file of paper left over to its papers, or to every mistake in it. It is TOML that holds
// a `unit` and `[[paper]]` entries as a card file has them, and nothing else.
#pragma once

#include <string_view>
#include <vector>

#include "model/card.h"

namespace evenmat {

// Either there are papers, each with a sheet, or mistakes in file order.
struct LeftoversReading {
  Unit unit = Unit::inch;  // of all lengths in `papers`
  std::vector<Paper> papers;
  std::vector<Remark> mistakes;
};

// `text` is the whole file (TOML 1.0, UTF-8). Throws nothing.
LeftoversReading read_leftovers(std::string_view text);

}  // namespace evenmat
