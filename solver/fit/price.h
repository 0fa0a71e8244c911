// What cards are put in order by when they are fitted to their paper. Knows no cards, only their figures.
#pragma once

#include <vector>

#include "solver/costs/price_paper.h"

namespace evenmat::exploring {

// Of all papers together; the first that differs decides, less being better.
struct Price {
  int never = 0;    // papers that cannot be cut at all, or of which that is not known
  int missing = 0;  // sheets
  Rational amount;  // what they cost; sheets, where no costs are stated

  [[nodiscard]] bool enough() const { return never == 0 && missing == 0; }
  friend bool operator==(const Price&, const Price&) = default;
  friend bool operator<(const Price& a, const Price& b) {
    if (a.never != b.never) return a.never < b.never;
    if (a.missing != b.missing) return a.missing < b.missing;
    return a.amount < b.amount;
  }
};

// `by_cost`: costs are stated.
inline Price price_of(const std::vector<PricedPaper>& papers, bool by_cost) {
  Price price;
  for (const PricedPaper& paper : papers) {
    if (paper.cost.never || !paper.cost.trouble.empty()) ++price.never;
    price.missing += paper.cost.missing;
    price.amount += by_cost ? paper.cost.cost.value_or(Rational(0)) : Rational(paper.cost.sheets);
  }
  return price;
}

// No plan is had for less.
inline Price price_of(const std::vector<PaperBound>& papers, bool by_cost) {
  Price price;
  for (const PaperBound& paper : papers) {
    if (paper.never) ++price.never;
    price.missing += paper.missing;
    price.amount += by_cost ? paper.cost : Rational(paper.sheets);
  }
  return price;
}

}  // namespace evenmat::exploring
