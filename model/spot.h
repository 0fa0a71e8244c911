// A place in the card file, and what is said about it.
#pragma once

#include <string>

namespace evenmat {

// Line and column count from 1; the column in characters (not bytes). 0: no place in the file.
struct Spot {
  int line = 0;
  int column = 0;
  friend bool operator==(const Spot&, const Spot&) = default;
  friend auto operator<=>(const Spot&, const Spot&) = default;  // NOLINT(modernize-use-nullptr): none here
};

// A mistake in a card file, or a remark about it, in a card maker's words.
struct Remark {
  Spot spot;
  std::string says;
};

}  // namespace evenmat
