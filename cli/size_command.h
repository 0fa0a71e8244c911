// `evenmat size FILE`: from a card file to the whole answer.
#pragma once

#include <string>

#include "cli/answer.h"

namespace evenmat {

struct SizeCall {
  std::string file;  // "-": standard input
  bool json = false;
  bool ranges = false;
  bool smt2 = false;  // the rules instead of an answer
  double limit = 30;  // seconds
};

// `out` and `err`: how each stream may be dressed.
Answer size_command(const SizeCall& call, const Style& out, const Style& err);

}  // namespace evenmat
