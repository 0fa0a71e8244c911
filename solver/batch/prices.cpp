// Prices in whole numbers, and the bound on sheets that areas give.
#include "solver/batch/prices.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

#include "solver/batch/grid.h"

namespace evenmat::batch {
namespace {

using boost::multiprecision::denominator;
using boost::multiprecision::numerator;

// The planner takes prices up to a million; a further sheet is to count for much more than any there is.
constexpr std::int64_t most_further = 1'000'000;
constexpr std::int64_t most_price = most_further / 10;

Rational cost_of(const CutSheet& sheet) { return sheet.cost.value_or(Rational(0)); }

std::int64_t pieces_in_all(const cutting::Job& job) {
  std::int64_t count = 0;
  for (const cutting::Kind& kind : job.kinds) count += kind.count;
  return count;
}

void price_by_cost(Prices& prices, const PaperNeeds& needs, const PaperJob& paper) {
  Rational dearest = 0;
  for (const std::size_t index : paper.stock) {
    const CutSheet& sheet = needs.stock[index];
    if (sheet.is_offcut() || cost_of(sheet) == 0) continue;
    const Rational cost = cost_of(sheet);
    dearest = std::max(dearest, cost);
    prices.step = common_measure(prices.step, cost);
  }
  if (prices.step == 0) prices.step = 1;
  const Rational steps = dearest / prices.step;
  prices.per_step = pieces_in_all(paper.job) + 1;
  prices.sheets_count = steps * prices.per_step < most_price;
  if (!prices.sheets_count) prices.per_step = 1;
  if (!prices.sheets_count && steps > most_price) prices.step = dearest / most_price;
  for (std::size_t i = 0; i < prices.of.size(); ++i) {
    const CutSheet& sheet = needs.stock[paper.stock[i]];
    if (sheet.is_offcut()) continue;
    const auto money = floor(cost_of(sheet) / prices.step).convert_to<std::int64_t>();
    prices.of[i] = money * prices.per_step + (prices.sheets_count ? 1 : 0);
  }
}

// The fewest of the sheets that any of these kinds can be cut from, by area.
std::optional<int> sheets_for(const PaperJob& paper, const std::vector<std::size_t>& kinds) {
  const cutting::Job& job = paper.job;
  Integer wanted = 0;
  for (const std::size_t kind : kinds)
    wanted += Integer(job.kinds[kind].width) * job.kinds[kind].height * job.kinds[kind].count;
  std::vector<std::pair<Integer, std::optional<int>>> sheets;
  for (std::size_t i = 0; i < job.sheets.size(); ++i) {
    if (std::none_of(kinds.begin(), kinds.end(), [&](std::size_t kind) { return paper.takes[kind][i]; }))
      continue;
    const Integer area = Integer(job.sheets[i].width) * job.sheets[i].height;
    if (paper.is_sheet[i]) {
      sheets.emplace_back(area, job.sheets[i].have);
    } else {
      wanted -= area * job.sheets[i].have.value_or(0);
    }
  }
  std::sort(sheets.begin(), sheets.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  Integer count = 0;
  for (const auto& [area, have] : sheets) {
    if (wanted <= 0) break;
    const Integer fill = (wanted + area - 1) / area;
    const Integer used = have ? std::min(fill, Integer(*have)) : fill;
    wanted -= used * area;
    count += used;
  }
  if (wanted > 0) return std::nullopt;
  return count.convert_to<int>();
}

}  // namespace

Rational Prices::money(std::int64_t at_least) const { return step * (at_least / per_step); }

int Prices::sheets(std::int64_t at_least, const Rational& cost) const {
  if (!sheets_count) return 0;
  if (!cost_stated) return static_cast<int>(at_least);
  const auto steps = floor(cost / step).convert_to<std::int64_t>();
  return static_cast<int>(std::max<std::int64_t>(0, at_least - steps * per_step));
}

Prices prices_of(const PaperNeeds& needs, const PaperJob& paper) {
  Prices prices;
  prices.of.resize(paper.stock.size());
  for (std::size_t i = 0; i < prices.of.size(); ++i) {
    const CutSheet& sheet = needs.stock[paper.stock[i]];
    prices.of[i] = sheet.is_offcut() ? 0 : 1;
    if (!sheet.is_offcut() && sheet.cost) prices.cost_stated = true;
  }
  if (prices.cost_stated) price_by_cost(prices, needs, paper);
  const std::int64_t pieces = pieces_in_all(paper.job);
  std::int64_t all = 0;
  for (std::size_t i = 0; i < prices.of.size(); ++i) {
    const std::int64_t have = paper.job.sheets[i].have.value_or(std::numeric_limits<int>::max());
    all += prices.of[i] * std::min(have, pieces);
  }
  prices.further = std::min(most_further, all + 1);
  return prices;
}

std::optional<int> sheets_by_area(const PaperJob& paper) {
  std::vector<std::size_t> all(paper.job.kinds.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  return sheets_for(paper, all);
}

bool may_be_enough(const PaperJob& paper, std::size_t kind) { return sheets_for(paper, {kind}).has_value(); }

}  // namespace evenmat::batch
