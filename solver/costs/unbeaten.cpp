// Figures become ranks first: a card's place among all different values of a count, 0 the best. One that
// beats another has a smaller total of ranks, so that in order of totals each has to be compared only with
// those before it; and only with the unbeaten ones, as what beats a beaten one is beaten by what beats that.
#include "solver/costs/unbeaten.h"

#include <algorithm>
#include <cstdint>
#include <functional>
#include <numeric>
#include <optional>
#include <set>
#include <string>

namespace evenmat::exploring {
namespace {

// Of one count, a figure for each card, less being better; nothing is the worst.
using Figures = std::vector<std::optional<Rational>>;
using Ranks = std::vector<int>;

std::optional<Rational> more_is_better(const std::optional<Rational>& figure) {
  return figure ? std::optional<Rational>(-*figure) : std::nullopt;
}

bool can_be_cut(const Costs& costs) {
  return std::all_of(costs.papers.begin(), costs.papers.end(),
                     [](const PaperCost& paper) { return paper.is_planned(); });
}

// Nothing is taken of a paper that a card does not name.
std::optional<Rational> sheets_of(const std::string& paper, const Costs& costs) {
  for (const PaperCost& one : costs.papers) {
    if (one.paper == paper) return one.is_planned() ? std::optional<Rational>(one.sheets) : std::nullopt;
  }
  return Rational(0);
}

// Figures that a card without all its paper has by leaving it out are none.
std::optional<Rational> figure(Best best, const Costs& costs) {
  switch (best) {
    case Best::sheets:
      return can_be_cut(costs) ? std::optional<Rational>(costs.sheets) : std::nullopt;
    case Best::cost:
      return can_be_cut(costs) ? costs.cost : std::nullopt;
    case Best::waste:
      return can_be_cut(costs) ? costs.waste : std::nullopt;
    case Best::border:
      return more_is_better(costs.border);
    case Best::seen:
      return more_is_better(costs.seen);
    case Best::thickness:
      return costs.thickness;
  }
  return std::nullopt;
}

template <typename Figure>
Figures figures_of(const std::vector<Costs>& all, const Figure& of) {
  Figures figures;
  figures.reserve(all.size());
  for (const Costs& costs : all) figures.push_back(of(costs));
  return figures;
}

Ranks ranks_of(const Figures& figures) {
  std::vector<const Rational*> values;
  for (const auto& one : figures) {
    if (one) values.push_back(&*one);
  }
  const auto less = [](const Rational* a, const Rational* b) { return *a < *b; };
  std::sort(values.begin(), values.end(), less);
  values.erase(std::unique(values.begin(), values.end(),
                           [](const Rational* a, const Rational* b) { return *a == *b; }),
               values.end());
  Ranks ranks;
  ranks.reserve(figures.size());
  for (const auto& one : figures) {
    const auto at = one ? std::lower_bound(values.begin(), values.end(), &*one, less) : values.end();
    ranks.push_back(static_cast<int>(at - values.begin()));
  }
  return ranks;
}

std::vector<Ranks> ranks_on_every_count(const std::vector<Costs>& all) {
  std::set<std::string> papers;
  for (const Costs& costs : all) {
    for (const PaperCost& paper : costs.papers) papers.insert(paper.paper);
  }
  std::vector<Ranks> counts;
  for (const std::string& paper : papers)
    counts.push_back(ranks_of(figures_of(all, [&](const Costs& costs) { return sheets_of(paper, costs); })));
  counts.push_back(ranks_of(figures_of(all, [](const Costs& costs) {
    return can_be_cut(costs) ? std::optional<Rational>(costs.missing) : std::nullopt;
  })));
  for (const Best best : {Best::cost, Best::waste, Best::border, Best::seen, Best::thickness})
    counts.push_back(ranks_of(figures_of(all, [&](const Costs& costs) { return figure(best, costs); })));
  return counts;
}

}  // namespace

std::vector<bool> unbeaten(const std::vector<Costs>& all) {
  const std::vector<Ranks> counts = ranks_on_every_count(all);
  std::vector<Ranks> rows(all.size());
  std::vector<std::int64_t> totals(all.size(), 0);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (const Ranks& ranks : counts) rows[i].push_back(ranks[i]);
    totals[i] = std::accumulate(rows[i].begin(), rows[i].end(), std::int64_t{0});
  }
  std::vector<std::size_t> places(all.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::stable_sort(places.begin(), places.end(),
                   [&](std::size_t a, std::size_t b) { return totals[a] < totals[b]; });
  std::vector<std::size_t> best;
  std::vector<bool> is_unbeaten(all.size(), false);
  for (const std::size_t i : places) {
    const bool beaten = std::any_of(best.begin(), best.end(), [&](std::size_t other) {
      return totals[other] < totals[i] &&
             std::equal(rows[other].begin(), rows[other].end(), rows[i].begin(), std::less_equal<>());
    });
    if (beaten) continue;
    is_unbeaten[i] = true;
    best.push_back(i);
  }
  return is_unbeaten;
}

std::vector<std::size_t> order(Best best, const std::vector<Costs>& all) {
  const Ranks ranks = ranks_of(figures_of(all, [&](const Costs& costs) { return figure(best, costs); }));
  std::vector<std::size_t> places(all.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::stable_sort(places.begin(), places.end(),
                   [&](std::size_t a, std::size_t b) { return ranks[a] < ranks[b]; });
  return places;
}

}  // namespace evenmat::exploring
