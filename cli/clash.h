// Why a card cannot be built, as a maker reads it. Plain text of at most 80 columns but for the excerpts'
// sentences.
#pragma once

#include <string>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "solver/size_card.h"

namespace evenmat {

// Which of the card's versions cannot be built, and each rule of the clash with its place in the file.
std::string clash(const Source& source, const SizedCard& sized, const Style& style);

// Where to read on when the card of a file cannot be built, behind an empty line.
std::string way_to_check(const std::string& file);

}  // namespace evenmat
