// Points are planned in order of what they cost at least, as far as that is known from a few plans, and of
// equals in the order given. Once one is found that costs no more than the next would at least, no other can
// be chosen. They are planned in lots, on all cores, so that which are planned does not depend on the clock.
#include "solver/fit/cheapest.h"

#include <algorithm>
#include <atomic>
#include <set>
#include <string>

#include "model/versions.h"
#include "solver/explore/on_all_cores.h"
#include "solver/fit/point_floors.h"

namespace evenmat::exploring {
namespace {

// Whether any paper from which something is cut states what a sheet costs.
bool states_costs(const Card& card) {
  std::set<std::string> named;
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const Design& design = design_of(card, version);
    if (design.base.paper) named.insert(design.base.paper->value);
    for (const Piece& piece : design.pieces) {
      if (piece.paper) named.insert(piece.paper->value);
    }
  }
  return std::any_of(card.papers.begin(), card.papers.end(),
                     [&](const Paper& paper) { return paper.cost && named.contains(paper.name.value); });
}

// What comes out of a window in a face, or of the middle of a mat, depends on what else lies there; of a
// window in a layer only its size counts.
bool offcuts_want_places(const Card& card) {
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const Design& design = design_of(card, version);
    const auto is_in_a_layer = [&](const Piece& window) {
      return std::any_of(design.pieces.begin(), design.pieces.end(), [&](const Piece& piece) {
        return piece.kind == Piece::Kind::layer && piece.name.value == window.on.value;
      });
    };
    for (const Piece& piece : design.pieces) {
      if (piece.hollow && piece.paper) return true;
      if (piece.kind == Piece::Kind::window && design.base.paper && !is_in_a_layer(piece)) return true;
    }
  }
  return false;
}

class Search {
 public:
  Search(const std::vector<Amounts>& points, const CutPoints& cards, const Price& bound, int sheets_bound)
      : points_(points), cards_(cards), bound_{bound, sheets_bound}, looked_(points.size()) {}

  Cheapest run(const std::function<void(std::size_t)>& so_far) {
    look_at({0});
    if (!looked_[0]) {
      cheapest_.time_ran_out = true;
      cheapest_.at_least = bound_.price;
      cheapest_.sheets_at_least = bound_.sheets;
      cheapest_.prices.resize(points_.size());
      return std::move(cheapest_);
    }
    if (!(bound_.price < looked_[0]->price)) {
      floors_.assign(points_.size(), bound_);
    } else {
      floors_ = floors_of(points_, cards_);
      look_at_all(so_far);
    }
    tell();
    return std::move(cheapest_);
  }

 private:
  struct Looked {
    Price price;
    PointFloor floor;
  };

  void look_at(const std::vector<std::size_t>& some) {
    on_all_cores(some.size(), [&](std::size_t i) {
      const std::size_t point = some[i];
      if (looked_[point] || (point > 0 && cards_.is_late())) return;
      const auto papers = cards_.priced(points_[point]);
      if (!papers) return;
      Looked found;
      found.price = price_of(*papers, cards_.by_cost());
      std::vector<PaperBound> bounds;
      for (const PricedPaper& paper : *papers) bounds.push_back(paper.bound);
      found.floor.price = price_of(bounds, cards_.by_cost());
      for (const PaperBound& paper : bounds) found.floor.sheets += paper.sheets;
      looked_[point] = std::move(found);
    });
    for (const std::size_t point : some) {
      if (!looked_[point]) continue;
      const Price& price = looked_[point]->price;
      const Price& best = looked_[best_]->price;
      if (price < best || (price == best && point < best_)) best_ = point;
    }
  }

  void look_at_all(const std::function<void(std::size_t)>& so_far) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if (floors_[i]) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return floors_[a]->price < floors_[b]->price; });
    for (std::size_t from = 0; from < order.size() && !cards_.is_late(); from += lot) {
      const std::size_t next = order[from];
      const Price& best = looked_[best_]->price;
      if (best < floors_[next]->price || (best == floors_[next]->price && best_ < next)) break;
      const std::size_t to = std::min(order.size(), from + lot);
      look_at({order.begin() + static_cast<std::ptrdiff_t>(from),
               order.begin() + static_cast<std::ptrdiff_t>(to)});
      if (so_far) so_far(to);
    }
  }

  void tell() {
    cheapest_.point = best_;
    cheapest_.price = looked_[best_]->price;
    std::optional<PointFloor> least;
    bool all_known = true;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      cheapest_.prices.push_back(looked_[i]   ? std::optional(looked_[i]->price)
                                 : floors_[i] ? std::optional(floors_[i]->price)
                                              : std::nullopt);
      all_known = all_known && cheapest_.prices.back();
      if (!cheapest_.prices.back()) continue;
      PointFloor floor = floors_[i].value_or(bound_);
      if (looked_[i]) {
        floor.price = std::max(floor.price, looked_[i]->floor.price);
        floor.sheets = std::max(floor.sheets, looked_[i]->floor.sheets);
      } else if (floor.price < cheapest_.price) {
        all_known = false;
      }
      if (!least) least = floor;
      least->price = std::min(least->price, floor.price);
      least->sheets = std::min(least->sheets, floor.sheets);
    }
    cheapest_.time_ran_out = !all_known;
    cheapest_.at_least = all_known ? std::max(bound_.price, least->price) : bound_.price;
    cheapest_.sheets_at_least = all_known ? std::max(bound_.sheets, least->sheets) : bound_.sheets;
  }

  static constexpr std::size_t lot = 32;

  const std::vector<Amounts>& points_;
  const CutPoints& cards_;
  const PointFloor bound_;
  std::vector<std::optional<PointFloor>> floors_;
  std::vector<std::optional<Looked>> looked_;
  std::size_t best_ = 0;
  Cheapest cheapest_;
};

}  // namespace

CutPoints::CutPoints(const Card& card, const Space& space, PaperCosts& papers,
                     std::chrono::steady_clock::time_point until)
    : space_(space),
      papers_(papers),
      until_(until),
      by_cost_(states_costs(card)),
      places_matter_(offcuts_want_places(card)) {}

std::optional<SizedCard> CutPoints::cut_of(const Amounts& point) const {
  return places_matter_ ? space_.card_of(point) : space_.sizes_only(point);
}

std::optional<std::vector<PricedPaper>> CutPoints::priced(const Amounts& point) const {
  const std::optional<SizedCard> sized = cut_of(point);
  if (!sized) return std::nullopt;
  return papers_.priced(*sized);
}

Cheapest cheapest_of(const std::vector<Amounts>& points, const CutPoints& cards, const Price& bound,
                     int sheets_bound, const std::function<void(std::size_t)>& so_far) {
  return Search(points, cards, bound, sheets_bound).run(so_far);
}

std::optional<std::size_t> first_that_comes_out(const std::vector<Amounts>& points, const CutPoints& cards,
                                                bool& all_known) {
  const std::vector<std::optional<PointFloor>> floors = floors_of(points, cards);
  std::atomic<std::size_t> first = points.size();
  std::vector<char> unknown(points.size(), 0);
  on_all_cores(points.size(), [&](std::size_t i) {
    if (i > first || (floors[i] && !floors[i]->price.enough())) return;
    const auto papers = cards.is_late() ? std::nullopt : cards.priced(points[i]);
    if (!papers) {
      unknown[i] = 1;
      return;
    }
    if (price_of(*papers, cards.by_cost()).enough()) {
      for (std::size_t known = first; i < known && !first.compare_exchange_weak(known, i);) {
      }
      return;
    }
    const bool ruled_out = std::any_of(papers->begin(), papers->end(), [](const PricedPaper& paper) {
      return paper.bound.never || paper.bound.missing > 0;
    });
    if (!ruled_out) unknown[i] = 1;
  });
  for (std::size_t i = 0; i < std::min<std::size_t>(first, points.size()); ++i) {
    if (unknown[i] != 0) all_known = false;
  }
  return first < points.size() ? std::optional<std::size_t>(first) : std::nullopt;
}

}  // namespace evenmat::exploring
