// Which sheets of a paper are taken, whether fewer could do, and what each of them gives.
#pragma once

#include <string>

#include "cli/cut/telling.h"

namespace evenmat {

// "3 sheets of 8 1/2 x 11, the fewest possible": a bound in its place where that is not proven.
std::string sheets_words(const PaperPlan& paper, Unit unit);

// How few sheets would do if the trimmer took off narrower trims; empty where that is not known to help.
std::string narrower_trims_words(const PaperPlan& paper, Unit unit);

// One letter: its sheets, their use, and all that comes of them. In a line or more.
std::string letter_text(const CutTelling& telling, const PaperPlan& paper, std::size_t index);

// Of an offcut, what gives it up: "the strips that the cut-back gives up".
std::string offcut_words(const CutSheet& sheet);

}  // namespace evenmat
