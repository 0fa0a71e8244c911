// The head of a cutting report: which cards it is for, and what becomes of them. What is short, and how many
// can be made.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// Titles, numbers, spares.
std::string head_text(const CutTelling& telling);

// Behind an empty line; empty of a plan for the whole batch, unless more was asked for. `most`: as many cards
// as the paper gives were asked for.
std::string verdict_text(const CutTelling& telling, bool most);

}  // namespace evenmat
