// The sizes that suit the paper on hand, as a maker reads it: the batch as sized and with the best sizes,
// what changes, whether anything better is possible, and which wish to loosen where it does not come out.
#pragma once

#include <string>

#include "cli/answer.h"
#include "cli/excerpt.h"
#include "model/card.h"
#include "solver/fit_card.h"

namespace evenmat {

// `most`: the most cards were asked for. Plain text of at most 80 columns.
std::string fit_text(const Source& source, const Card& card, const FitCard& fit, bool most,
                     const Style& style);

// Done; not from this paper; or the limit reached before that was known.
Status status_of(const FitCard& fit, bool most);

// "The border of indigo mat: 1/8 to 1/16."
std::string change_sentence(const OpenAmount& open, const Rational& from, const Rational& to, Unit unit);

}  // namespace evenmat
