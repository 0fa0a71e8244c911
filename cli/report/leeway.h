// What is still open in a sized card: what can be moved, how small and large all could be; and what is worth
// a second look.
#pragma once

#include <string>
#include <vector>

#include "cli/report/telling.h"

namespace evenmat {

// Each behind an empty line; empty if there is nothing to tell.
std::string slides_text(const Telling& telling, const std::vector<Slide>& slides);
std::string ranges_text(const Telling& telling, const std::vector<Range>& ranges);
std::string warnings_text(const Telling& telling, const std::vector<Remark>& warnings);

}  // namespace evenmat
