// `evenmat check FILE`: can the card be built, how near a miss is it, and if not, why and what mends it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"

namespace evenmat {

struct CheckCall {
  std::string file;  // "-": standard input
  bool json = false;
  double limit = 30;                     // seconds
  std::optional<std::string> hand;       // a length: how far each cut and each placement may be off
  std::optional<std::string> tolerance;  // a length: the sizes were measured so exactly
  std::optional<std::string> mend;       // a path to write the mended card to
  std::vector<std::size_t> choose;       // the changes to make, as numbered; none: the smallest set
  bool force = false;                    // write over `mend`
};

// Conflicts are told through `meanwhile` as they are found, unless the answer is in JSON.
Answer check_command(const CheckCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile);

}  // namespace evenmat
