// The card in the hand: how its base is folded, what it is closed, and where it goes in.
#pragma once

#include <string>

#include "cli/report/telling.h"

namespace evenmat {

// Each behind an empty line. Empty of a flat base with no windows; of a card of which no thickness and no
// weight is known and that keeps within its front; and where no envelope or post is told of.
std::string making_text(const Telling& telling);
std::string closed_text(const Telling& telling);
std::string mail_text(const Telling& telling);

}  // namespace evenmat
