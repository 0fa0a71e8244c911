// `evenmat cut FILE...`: from card files, and paper left over, to the plan by which their batch is cut.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"

namespace evenmat {

struct CutCall {
  std::vector<std::string> files;   // one or more; "-": standard input
  std::vector<std::string> also;    // files of leftovers
  std::optional<std::string> keep;  // a path to write what is left to
  bool force = false;               // write over `keep`
  bool most = false;                // as many cards as the paper gives
  bool grain_along_fold = false;
  bool json = false;
  double limit = 30;  // seconds
};

// What is being done is told through `meanwhile`.
Answer cut_command(const CutCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile);

}  // namespace evenmat
