// Which wish of a card keeps its batch from coming out of the paper there is, and by how little it has to be
// written otherwise: each wish is let go by itself, and the nearest card that comes out is looked for.
#pragma once

#include <chrono>
#include <functional>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "solver/costs/paper_costs.h"
#include "solver/fit_card.h"

namespace evenmat::exploring {

struct Loosened {
  std::vector<Loosening> wishes;  // each that alone would do, the least first
  bool all_known = true;
};

// `as_sized`: what is open in the card as it stands. `papers`: of the card. Pre: within its wishes nothing
// comes out.
Loosened loosened(const Card& card, const std::vector<OpenAmount>& as_sized, const FitOptions& options,
                  PaperCosts& papers, std::chrono::steady_clock::time_point until);

}  // namespace evenmat::exploring
