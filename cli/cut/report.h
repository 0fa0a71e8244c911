// The plan of a batch as a maker reads and follows it. Plain text of at most 80 columns.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// `most`: as many cards as the paper gives were asked for.
std::string cut_report(const CutTelling& telling, bool most);

}  // namespace evenmat
